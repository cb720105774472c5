"""By how much an instrument is off, in words."""

from typing import Final

from diagnose.units import Field
from diagnose.units.rounding import figure
from diagnose.units.scales import scales_of

# Digits of a reading behind the point; other units have one.
_DIGITS: Final = {Field.GRAVITY.unit: 3, Field.PH.unit: 2}


def off_by(offset: float, unit: str) -> str:
    """An error as "1.1 C (1.9 F) too high"; empty where it is too small to be read.

    Args:
        offset: what it reads too much [unit].
        unit: of the readings.
    """
    size = abs(offset)
    told = figure(size, _DIGITS.get(unit, 1))
    if not float(told):
        return ""
    if unit == Field.TEMPERATURE.unit:
        told = scales_of(unit, difference=True).both(size)
    elif unit not in _DIGITS:
        told += f" {unit}"
    return f"{told} too {'high' if offset > 0 else 'low'}"
