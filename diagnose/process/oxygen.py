"""Oxygen shut in with the beer: dissolved at filling, and in the air left above it."""

from collections.abc import Mapping

from diagnose.process.validity import require_within

# Which constant holds the oxygen a way of filling leaves dissolved, by the record's word for it.
PICKUP_BY_FILL = {
    "open pour": "pickup_open_pour",
    "siphon": "pickup_siphon",
    "filler tube": "pickup_filler_tube",
    "counter-pressure": "pickup_counter_pressure",
    "closed transfer": "pickup_closed_transfer",
}


def air_oxygen_mg(air_ml: float, constants: Mapping[str, float]) -> float:
    """Oxygen in a volume of air at 20 C and sea level.

    Args:
        air_ml: air [mL].
        constants: reads `o2_density_20c`, `o2_air_fraction`.

    Returns:
        Oxygen [mg].

    Raises:
        OutsideValidity: less than no air.

    Source: gas law. A posted 3.75 mg in 25 mL of air is half of the true 7.0 (the poster took
        16 for the molar mass of oxygen).
    """
    require_within(air_ml, (0.0, 1e6), "air of mL")
    return air_ml * constants["o2_density_20c"] * constants["o2_air_fraction"]


def packaged_oxygen_mg_per_l(
    *,
    dissolved_mg_per_l: float,
    headspace_ml: float,
    beer_l: float,
    air_left_share: float,
    constants: Mapping[str, float],
) -> float:
    """All the oxygen in a package, over the beer in it.

    Args:
        dissolved_mg_per_l: oxygen in the beer at filling [mg/L].
        headspace_ml: empty room above the beer [mL].
        beer_l: beer in the package [L], above zero.
        air_left_share: share of the headspace that is still air [-]: `air_left_unpurged`,
            `air_left_foamed` or `air_left_purged`.
        constants: as for `air_oxygen_mg`.

    Returns:
        Oxygen [mg per litre of beer]; an upper limit where yeast is at work in the bottle.

    Raises:
        OutsideValidity: no beer, or a share beyond 0 to 1.

    Source: gas law and mass balance.
    """
    require_within(beer_l, (0.01, 1e5), "a package of L")
    require_within(air_left_share, (0.0, 1.0), "an air share of")
    above_mg = air_oxygen_mg(headspace_ml * air_left_share, constants)
    return dissolved_mg_per_l + above_mg / beer_l


def shaken_oxygen(
    dissolved: float, *, headspace_ml: float, beer_ml: float, constants: Mapping[str, float]
) -> float:
    """All the oxygen in a package whose beer was shaken until it agreed with its headspace.

    Args:
        dissolved: oxygen measured in the shaken beer [any mass per volume].
        headspace_ml: room above the beer [mL].
        beer_ml: beer in the package [mL], above zero.
        constants: reads `o2_gas_liquid_ratio_20c`.

    Returns:
        Oxygen over the beer [the unit of `dissolved`].

    Raises:
        OutsideValidity: no beer.

    Source: Henry's law at 20 C, ratio from memory; compare Kemper, Patino 1987, MBAA Tech Q.
    """
    require_within(beer_ml, (10.0, 1e8), "a package of mL")
    return dissolved * (1 + constants["o2_gas_liquid_ratio_20c"] * headspace_ml / beer_ml)
