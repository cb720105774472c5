"""Carbonation: what is left from fermentation, what priming adds, and the pressure it makes."""

from collections.abc import Mapping

import numpy as np

from diagnose.process.validity import require_within
from diagnose.units import (
    bar_from_psi,
    fahrenheit_from_celsius,
    psi_from_bar,
)

_ABSORPTION_C = (0.0, 5.0, 10.0, 15.0, 20.0, 25.0, 30.0, 35.0, 40.0)
_WARMEST_FIT_C = 24.0
_VOLUMES = (0.0, 8.0)
# What the models of a package cover.
FINISHED_C = (0.0, 40.0)
PRIMING_G_PER_L = (0.0, 100.0)
UNFINISHED_POINTS = (0.0, 100.0)

# Which constant holds the sugar for one volume, by the record's word for the sugar.
SUGAR_PER_VOLUME = {
    "glucose": "glucose_per_volume",
    "glucose monohydrate": "glucose_monohydrate_per_volume",
    "sucrose": "sucrose_per_volume",
    "extract": "extract_per_volume",
}


def residual_volumes(warmest_c: float, constants: Mapping[str, float]) -> float:
    """Gas that fermentation leaves in an unpressurised beer.

    Args:
        warmest_c: warmest the beer has been since it stopped fermenting [C], 0 to 40.
        constants: reads `co2_r0`, `co2_r1`, `co2_r2`, and `co2_abs_20c` to `co2_abs_40c`.

    Returns:
        Gas [volumes].

    Raises:
        OutsideValidity: a beer beyond those limits.

    Source: practitioner polynomial; within 0.025 of a digest's table at four temperatures.
        Deviation: it ends at 24 C; warmer beer is taken to hold what water holds in its own gas.
    """
    require_within(warmest_c, FINISHED_C, "a finished beer at C")
    warmest_f = fahrenheit_from_celsius(min(warmest_c, _WARMEST_FIT_C))
    slope = constants["co2_r1"] + constants["co2_r2"] * warmest_f
    fitted = constants["co2_r0"] + slope * warmest_f
    if warmest_c <= _WARMEST_FIT_C:
        return fitted
    return min(fitted, _absorbed_per_atm(warmest_c, constants))


def gauge_pressure_bar(volumes: float, beer_c: float, constants: Mapping[str, float]) -> float:
    """Pressure at which a keg holds an amount of gas.

    Args:
        volumes: gas [volumes], 1.5 to 3.5.
        beer_c: temperature of the beer [C], 0 to 18.3.
        constants: reads `co2_p0` to `co2_p5`.

    Returns:
        Gauge pressure [bar], at sea level.

    Raises:
        OutsideValidity: a beer beyond those limits.

    Source: practitioner polynomial through the industry table.
    """
    require_within(volumes, (1.5, 3.5), "a carbonation in volumes of")
    return bar_from_psi(_gauge_psi(volumes, beer_c, constants))


def keg_volumes(gauge_bar: float, beer_c: float, constants: Mapping[str, float]) -> float:
    """Gas in a beer that has come to rest under a pressure.

    Args:
        gauge_bar: gauge pressure [bar].
        beer_c: temperature of the beer [C], 0 to 18.3.
        constants: reads `co2_p0` to `co2_p5`.

    Returns:
        Gas [volumes].

    Raises:
        OutsideValidity: a beer, or an answer, beyond what the source covers.

    Source: the polynomial of `gauge_pressure_bar`, solved for the gas.
    """
    wanted_psi = psi_from_bar(gauge_bar)
    flat_psi = _gauge_psi(0.0, beer_c, constants)
    slope = constants["co2_p3"] * fahrenheit_from_celsius(beer_c) + constants["co2_p4"]
    bend = constants["co2_p5"]
    under_root = slope**2 - 4 * bend * (flat_psi - wanted_psi)
    require_within(under_root, (0.0, 1e9), "a keg pressure whose square is")
    volumes = float((-slope + np.sqrt(under_root)) / (2 * bend))
    require_within(volumes, (1.0, 4.0), "a keg with volumes of")
    return volumes


def package_volumes(
    *,
    residual_volumes: float,
    sugar_g_per_l: float,
    sugar_g_per_l_per_volume: float,
    unfinished_points: float,
    constants: Mapping[str, float],
) -> float:
    """All the gas that a primed package comes to.

    Args:
        residual_volumes: gas left from fermentation [volumes].
        sugar_g_per_l: priming sugar over beer [g/L].
        sugar_g_per_l_per_volume: sugar for one volume [g/L], see `SUGAR_PER_VOLUME`.
        unfinished_points: gravity still to ferment [points of 0.001 SG], none or more.
        constants: reads `vol_per_sg_point`.

    Returns:
        Gas [volumes].

    Raises:
        OutsideValidity: less than no sugar, or gravity that has gone below its limit.

    Source: mass balance; gas by point of gravity from the molar masses.
    """
    require_within(sugar_g_per_l, PRIMING_G_PER_L, "priming sugar per L of g")
    require_within(unfinished_points, UNFINISHED_POINTS, "unfermented gravity in points of")
    primed = sugar_g_per_l / sugar_g_per_l_per_volume
    return residual_volumes + primed + constants["vol_per_sg_point"] * unfinished_points


def priming_sugar_g(
    *,
    wanted_volumes: float,
    residual_volumes: float,
    sugar_g_per_l_per_volume: float,
    beer_l: float,
) -> float:
    """Priming sugar for a wanted carbonation.

    Args:
        wanted_volumes: gas wanted [volumes].
        residual_volumes: gas left from fermentation [volumes].
        sugar_g_per_l_per_volume: sugar for one volume [g/L], see `SUGAR_PER_VOLUME`.
        beer_l: beer to prime [L].

    Returns:
        Sugar [g]; 0 where the beer already holds enough.

    Source: mass balance.
    """
    return max(0.0, wanted_volumes - residual_volumes) * sugar_g_per_l_per_volume * beer_l


def bottle_pressure_bar(volumes: float, bottle_c: float, constants: Mapping[str, float]) -> float:
    """Absolute pressure in a sealed bottle.

    Args:
        volumes: gas in the bottle [volumes], 0 to 8.
        bottle_c: its temperature [C], 0 to 40.
        constants: reads `standard_atmosphere_bar` and `co2_abs_0c` to `co2_abs_40c`.

    Returns:
        Pressure [bar absolute]; a gauge reads 1.013 less.

    Raises:
        OutsideValidity: a bottle beyond those limits.

    Source: Henry's law with the absorption of CO2 in water from memory; within 0.2 bar of a
        cider handbook's table. An older handbook stands 3 % higher at 20 C, 13 % at 25 C.
    """
    require_within(volumes, _VOLUMES, "a bottle with volumes of")
    require_within(bottle_c, (0.0, 40.0), "a bottle at C")
    per_atm = _absorbed_per_atm(bottle_c, constants)
    return constants["standard_atmosphere_bar"] * volumes / per_atm


def held_volumes(absolute_bar: float, beer_c: float, constants: Mapping[str, float]) -> float:
    """Gas in a beer that has come to rest under a pressure, at any temperature it may stand at.

    Args:
        absolute_bar: absolute pressure [bar], 1.013 more than a gauge reads.
        beer_c: temperature of the beer [C], 0 to 40.
        constants: as for `bottle_pressure_bar`.

    Returns:
        Gas [volumes]; `keg_volumes` is the better choice for a cold keg.

    Raises:
        OutsideValidity: a beer or a pressure beyond what is covered.

    Source: as for `bottle_pressure_bar`, solved for the gas.
    """
    require_within(absolute_bar, (0.0, 10.0), "a pressure in bar of")
    require_within(beer_c, (0.0, 40.0), "a keg at C")
    return (
        absolute_bar / constants["standard_atmosphere_bar"] * _absorbed_per_atm(beer_c, constants)
    )


def _absorbed_per_atm(beer_c: float, constants: Mapping[str, float]) -> float:
    absorbed = [constants[f"co2_abs_{node:.0f}c"] for node in _ABSORPTION_C]
    # The logarithm bends less than the coefficient itself.
    return float(np.exp(np.interp(beer_c, _ABSORPTION_C, np.log(absorbed))))


def _gauge_psi(volumes: float, beer_c: float, constants: Mapping[str, float]) -> float:
    require_within(beer_c, (0.0, 18.34), "a keg at C")
    beer_f = fahrenheit_from_celsius(beer_c)
    p0, p1, p2, p3, p4, p5 = (constants[f"co2_p{power}"] for power in range(6))
    by_heat = p0 + beer_f * (p1 + p2 * beer_f)
    return by_heat + volumes * (p3 * beer_f + p4 + p5 * volumes)
