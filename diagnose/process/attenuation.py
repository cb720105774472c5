"""Extract, attenuation and alcohol from original and final gravity."""

from collections.abc import Iterable, Mapping

from diagnose.process.validity import require_within

_EXTRACT_P = (0.0, 30.0)


def real_extract_p(original_p: float, apparent_p: float, constants: Mapping[str, float]) -> float:
    """The extract truly left in a beer, once alcohol is allowed for.

    Args:
        original_p: extract of the wort [degrees Plato], 0 to 30.
        apparent_p: extract the beer seems to have [degrees Plato].
        constants: reads `real_extract_oe`, `real_extract_ae`.

    Returns:
        Real extract [g per 100 g].

    Raises:
        OutsideValidity: a wort beyond 30 degrees Plato.

    Source: Balling's equation as passed on by practitioners. Against five sets of analysed
        beers (Cutaia, Reid, Speers 2009, J Inst Brew 115:318) it reads 0.10 to 0.19 low.
    """
    require_within(original_p, _EXTRACT_P, "a wort of degrees Plato")
    return constants["real_extract_oe"] * original_p + constants["real_extract_ae"] * apparent_p


def apparent_attenuation_percent(original_sg: float, final_sg: float) -> float:
    """The share of the gravity that has gone.

    Args:
        original_sg: gravity before fermentation [SG], above 1.000.
        final_sg: gravity of the degassed beer [SG].

    Returns:
        Apparent attenuation [%]; over 100 when the beer reads below 1.000.

    Raises:
        OutsideValidity: an original gravity of 1.000 or less, or above 1.130.

    Source: definition.
    """
    require_within(original_sg, (1.001, 1.130), "an original gravity of SG")
    return 100 * (original_sg - final_sg) / (original_sg - 1)


def real_attenuation_percent(
    original_p: float, apparent_p: float, constants: Mapping[str, float]
) -> float:
    """The share of the extract that has gone, once alcohol is allowed for.

    Args:
        original_p: extract of the wort [degrees Plato], above 0 and up to 30.
        apparent_p: extract the beer seems to have [degrees Plato].
        constants: as for `real_extract_p`.

    Returns:
        Real attenuation [%]; good to 1.5 points, as `real_extract_p` reads low.

    Raises:
        OutsideValidity: a wort below 1 or beyond 30 degrees Plato.

    Source: definition, on `real_extract_p`.
    """
    require_within(original_p, (1.0, _EXTRACT_P[1]), "a wort of degrees Plato")
    return 100 * (original_p - real_extract_p(original_p, apparent_p, constants)) / original_p


def alcohol_by_weight_percent(
    original_p: float, apparent_p: float, constants: Mapping[str, float]
) -> float:
    """Alcohol by weight from the extract that has gone.

    Args:
        original_p: extract of the wort [degrees Plato], 0 to 30; best from 9 to 18.
        apparent_p: extract the beer seems to have [degrees Plato].
        constants: reads `real_extract_ae`, `balling_denominator`, `balling_slope`.

    Returns:
        Alcohol [% by weight].

    Raises:
        OutsideValidity: a wort beyond 30 degrees Plato.

    Source: Balling's equation as passed on by practitioners; within 0.12 of the means of 532
        analysed brews (Cutaia, Reid, Speers 2009, J Inst Brew 115:318). It stands 0.9 % above
        Balling's own table at 12 degrees Plato, 1.6 % at 20.
    """
    require_within(original_p, _EXTRACT_P, "a wort of degrees Plato")
    gone_p = constants["real_extract_ae"] * (original_p - apparent_p)
    return gone_p / (constants["balling_denominator"] - constants["balling_slope"] * original_p)


def alcohol_factor(original_p: float, constants: Mapping[str, float]) -> float:
    """Alcohol by weight for each degree of apparent extract that has gone.

    Args:
        original_p: extract of the wort [degrees Plato], 0 to 30.
        constants: reads `factor_poly_a0`, `factor_poly_a1`, `factor_poly_a2`.

    Returns:
        Factor [% by weight per degree Plato]; the better choice above 16 degrees Plato.

    Raises:
        OutsideValidity: a wort beyond 30 degrees Plato.

    Source: a practitioner's polynomial through Balling's table of factors.
    """
    require_within(original_p, _EXTRACT_P, "a wort of degrees Plato")
    slope = constants["factor_poly_a1"] + constants["factor_poly_a2"] * original_p
    return constants["factor_poly_a0"] + slope * original_p


def alcohol_by_volume_percent(
    by_weight_percent: float, beer_sg: float, constants: Mapping[str, float]
) -> float:
    """Alcohol by volume from alcohol by weight.

    Args:
        by_weight_percent: alcohol [% by weight].
        beer_sg: gravity of the beer [SG].
        constants: reads `ethanol_rel_density`.

    Returns:
        Alcohol [% by volume].

    Source: definition, with the relative density of ethanol as practitioners quote it.
    """
    return by_weight_percent * beer_sg / constants["ethanol_rel_density"]


def quick_alcohol_by_volume_percent(
    original_sg: float, final_sg: float, constants: Mapping[str, float]
) -> float:
    """Alcohol by volume by the rule of thumb.

    Args:
        original_sg: gravity before fermentation [SG]; good below 1.060.
        final_sg: gravity of the beer [SG].
        constants: reads `abv_simple_factor`.

    Returns:
        Alcohol [% by volume].

    Source: Hall 1995, Brew by the numbers, Zymurgy 18(2) (as quoted).
    """
    return constants["abv_simple_factor"] * (original_sg - final_sg)


def fermentation_gas_g_per_l(
    original_p: float, apparent_p: float, *, wort_sg: float, constants: Mapping[str, float]
) -> float:
    """Carbon dioxide that a fermentation gives off.

    Args:
        original_p: extract of the wort [degrees Plato], 0 to 30.
        apparent_p: extract the beer seems to have [degrees Plato].
        wort_sg: gravity of the wort [SG].
        constants: reads `real_extract_ae`, `balling_co2_per_2_0665`, `balling_denominator`.

    Returns:
        Gas [g per litre of wort].

    Raises:
        OutsideValidity: a wort beyond 30 degrees Plato.

    Source: Balling's balance; the share of gas is published-recalled.
    """
    require_within(original_p, _EXTRACT_P, "a wort of degrees Plato")
    gone_g_per_l = 10 * wort_sg * constants["real_extract_ae"] * (original_p - apparent_p)
    return gone_g_per_l * constants["balling_co2_per_2_0665"] / constants["balling_denominator"]


def gravity_points(lines: Iterable[tuple[float, float, float]], *, volume_l: float) -> float:
    """Gravity that weighed fermentables give to a wort.

    Args:
        lines: for each its mass [kg], its full yield [points x L/kg] and the share of that
            yield that is reached [-].
        volume_l: wort [L], above zero.

    Returns:
        Gravity [points of 0.001 SG above 1.000].

    Raises:
        OutsideValidity: no wort.

    Source: mass balance, as in a digest's example.
    """
    require_within(volume_l, (0.01, 1e6), "a wort of L")
    return sum(mass_kg * full * share for mass_kg, full, share in lines) / volume_l


def fermentable_attenuation_percent(
    original_sg: float, final_sg: float, *, unfermentable_points: float
) -> float:
    """The share of the gravity that has gone of what yeast could take at all.

    Args:
        original_sg: gravity before fermentation, lactose and all [SG], above 1.000.
        final_sg: gravity of the degassed beer [SG].
        unfermentable_points: what lactose or maltodextrin gives [points of 0.001 SG], none or
            more; at most nine tenths of the gravity.

    Returns:
        Apparent attenuation of the rest [%], to be held against that of a beer without it.

    Raises:
        OutsideValidity: as for `apparent_attenuation_percent`, or nearly all of it unfermentable.

    Source: definition; the unfermentable part stands in both gravities.
    """
    points = 1000.0 * (original_sg - 1.0)
    require_within(unfermentable_points, (0.0, 0.9 * points), "unfermentable gravity in points of")
    extra_sg = unfermentable_points / 1000.0
    return apparent_attenuation_percent(original_sg - extra_sg, final_sg - extra_sg)
