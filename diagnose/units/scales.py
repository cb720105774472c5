"""Figures with their units, in both systems where there are two."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from diagnose.units.conversions import (
    CO2_GRAMS_PER_L_PER_VOLUME,
    GRAMS_PER_OUNCE,
    LITRES_PER_US_GALLON,
    fahrenheit_difference_from_celsius,
    fahrenheit_from_celsius,
    plato_from_gravity,
)
from diagnose.units.rounding import decimals_in_steps, figure, signed_figures

_Convert = Callable[[float], float]


@dataclass(frozen=True)
class Scales:
    """A unit with its decimals, and the other system's; `other` is empty where all use the one."""

    unit: str
    decimals: int | None = None
    other: str = ""
    other_decimals: int = 0
    convert: _Convert = float

    def figure(self, value: float) -> str:
        """A number without its unit."""
        return figure(value, self.decimals)

    def other_figure(self, value: float) -> str:
        """The same in the other system."""
        return figure(self.convert(value), self.other_decimals)

    def figures(self, value: float) -> str:
        """A number without its unit where all use the one, else with both: "18.9 C (66 F)"."""
        return self.both(value) if self.other else self.figure(value)

    def both(self, value: float) -> str:
        """A value with its units: "18.9 C (66 F)"."""
        own = f"{self.figure(value)} {self.unit}".rstrip()
        return f"{own} ({self.other_figure(value)} {self.other})" if self.other else own

    def between(self, low: float, high: float) -> str:
        """A range with its units: "16.6 to 24.3 C (62 to 76 F)"."""
        own = f"{self.figure(low)} to {self.figure(high)} {self.unit}".rstrip()
        if not self.other:
            return own
        ends = f"{self.other_figure(low)} to {self.other_figure(high)}"
        return f"{own} ({ends} {self.other})"


def _ounces_per_gallon(grams_per_l: float) -> float:
    return grams_per_l * LITRES_PER_US_GALLON / GRAMS_PER_OUNCE


def _grams_per_l(volumes: float) -> float:
    return volumes * CO2_GRAMS_PER_L_PER_VOLUME


_BOTH = {
    "C": Scales("C", 1, "F", 0, fahrenheit_from_celsius),
    "SG": Scales("", 3, "P", 1, plato_from_gravity),
    "volumes": Scales("volumes", 2, "g/L", 1, _grams_per_l),
    "g/L": Scales("g/L", 2, "oz/US gal", 2, _ounces_per_gallon),
}
_DIFFERENCES = {"C": Scales("C", 1, "F", 1, fahrenheit_difference_from_celsius)}


def scales_of(unit: str, *, difference: bool = False) -> Scales:
    """The scales of a unit.

    Args:
        unit: as a measure has it; "-" is a plain number.
        difference: it counts degrees between two temperatures.
    """
    if difference and unit in _DIFFERENCES:
        return _DIFFERENCES[unit]
    return _BOTH.get(unit) or Scales("" if unit == "-" else unit)


def scales_over(unit: str, values: Sequence[float | None], *, difference: bool = False) -> Scales:
    """The scales of a unit, with as many decimals as tell a series of values apart.

    Args:
        unit: as a measure has it; "-" is a plain number.
        values: the series [unit]; None where one is not known.
        difference: as for `scales_of`.
    """
    scales = scales_of(unit, difference=difference)
    known = [value for value in values if value is not None]
    if scales.decimals is not None or not known:
        return scales
    return replace(scales, decimals=decimals_in_steps(max(known) - min(known)))


def change_in_both(band: tuple[float, float, float], unit: str) -> str:
    """By how much something differs: "+5 C (+1 to +11); +9 F (+2 to +20)".

    Args:
        band: the difference, its low and its high end; all three alike where there is no range.
        unit: as a measure has it; "-" is a plain number.
    """
    scales = scales_of(unit, difference=True)
    told = [_change(band, scales.unit)]
    if scales.other:
        mid, low, high = map(scales.convert, band)
        told.append(_change((mid, low, high), scales.other))
    return "; ".join(told)


def _change(band: tuple[float, float, float], unit: str) -> str:
    mid, low, high = signed_figures(band)
    value = f"{mid} {unit}".rstrip()
    return value if band[1] == band[2] else f"{value} ({low} to {high})"
