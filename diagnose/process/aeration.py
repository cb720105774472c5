"""Oxygen in the wort at pitching: what air can give, and what a way of aerating gives of it."""

from collections.abc import Mapping
from math import exp

from diagnose.process.validity import require_within

# Which constant holds the share of air saturation reached, by the record's word for the way.
SHARE_BY_METHOD = {
    "none": "aeration_none",
    "splashed": "aeration_splashed",
    "shaken": "aeration_shaken",
    "air stone": "aeration_air_stone",
    "pure oxygen": "aeration_pure_oxygen",
}


def saturated_water_mg_per_l(water_c: float, constants: Mapping[str, float]) -> float:
    """Oxygen in water that air has saturated, at sea level.

    Args:
        water_c: temperature [C], 0 to 40.
        constants: reads `o2_water_c0`, `o2_water_c1`, `o2_water_c2`, `o2_water_c3`.

    Returns:
        Oxygen [mg/L].

    Raises:
        OutsideValidity: a temperature beyond those limits.

    Source: cubic from memory; within 0.2 of a magazine article's 14.6, 11.3 and 9.2 mg/L at 0,
        10 and 20 C. Meant for 0 to 30 C; above that it reads some per cent low.
    """
    require_within(water_c, (0.0, 40.0), "a wort at C")
    c0, c1, c2, c3 = (constants[f"o2_water_c{power}"] for power in range(4))
    return c0 + water_c * (c1 + water_c * (c2 + water_c * c3))


def saturated_wort_mg_per_l(
    wort_c: float, extract_p: float, constants: Mapping[str, float]
) -> float:
    """Oxygen in wort that air has saturated, at sea level.

    Args:
        wort_c: temperature [C], 0 to 40.
        extract_p: extract [degrees Plato], 0 to 25.
        constants: reads `o2_plato_coeff` besides those of `saturated_water_mg_per_l`.

    Returns:
        Oxygen [mg/L].

    Raises:
        OutsideValidity: a wort beyond those limits.

    Source: Oxford Companion to Beer 2012 (8.0 and 6.6 mg/L at 15 degrees Plato, 10 and 20 C); an
        exponential in extract through that pair, so it proves nothing at that strength.
    """
    require_within(extract_p, (0.0, 25.0), "a wort of degrees Plato")
    water = saturated_water_mg_per_l(wort_c, constants)
    return water * exp(-constants["o2_plato_coeff"] * extract_p)


def oxygen_at_pitch_mg_per_l(
    *,
    wort_c: float,
    extract_p: float,
    saturation_share: float,
    constants: Mapping[str, float],
) -> float:
    """Oxygen that a way of aerating leaves in the wort.

    Args:
        wort_c: temperature [C], 0 to 40.
        extract_p: extract [degrees Plato], 0 to 25.
        saturation_share: share of what air can give [-], see `SHARE_BY_METHOD`; above 1 for
            pure oxygen.
        constants: as for `saturated_wort_mg_per_l`.

    Returns:
        Oxygen [mg/L].

    Raises:
        OutsideValidity: a wort or a share beyond those limits.

    Source: as for `saturated_wort_mg_per_l`; the shares are judgements of the trade.
    """
    require_within(saturation_share, (0.0, 5.0), "an aeration share of")
    return saturation_share * saturated_wort_mg_per_l(wort_c, extract_p, constants)
