"""Heating water and wort with electricity: how long, and how many watts."""

from collections.abc import Mapping

from diagnose.process.validity import require_within

_KJ_PER_WH = 3.6


def heating_minutes(
    volume_l: float, *, rise_c: float, power_w: float, constants: Mapping[str, float]
) -> float:
    """How long a heater takes.

    Args:
        volume_l: water or wort [L], above zero.
        rise_c: degrees to heat it by [C], 0 to 100.
        power_w: power at the element [W], above zero.
        constants: reads `water_heat_capacity`.

    Returns:
        Time [min], with no heat lost; a bare kettle takes about a tenth more.

    Raises:
        OutsideValidity: no water or power, or a rise beyond those limits.

    Source: heat balance, first principles; a litre is taken to weigh a kilogram.
    """
    require_within(power_w, (1.0, 1e7), "a heater of W")
    return 60.0 * _heat_wh(volume_l, rise_c, constants) / power_w


def heating_power_w(
    volume_l: float,
    *,
    rise_c: float,
    hours: float,
    constants: Mapping[str, float],
) -> float:
    """Power that heats a volume in a wanted time.

    Args:
        volume_l: water or wort [L], above zero.
        rise_c: degrees to heat it by [C], 0 to 100.
        hours: time wanted [h], above zero.
        constants: reads `water_heat_capacity`.

    Returns:
        Power [W], with no heat lost.

    Raises:
        OutsideValidity: no water or time, or a rise beyond those limits.

    Source: as for `heating_minutes`. A blog's rule (gallons times F over 372 for each kilowatt
        hour) asks for a tenth more, and so has a heat loss of 9 % in it.
    """
    require_within(hours, (1e-3, 1e3), "heating for h")
    return _heat_wh(volume_l, rise_c, constants) / hours


def _heat_wh(volume_l: float, rise_c: float, constants: Mapping[str, float]) -> float:
    require_within(volume_l, (0.01, 1e6), "a kettle of L")
    require_within(rise_c, (0.0, 100.0), "a rise in C of")
    return volume_l * rise_c * constants["water_heat_capacity"] / _KJ_PER_WH
