"""Quantities in narrow places, and figures in both systems of units."""

from collections.abc import Callable
from dataclasses import dataclass

from diagnose.units import (
    CO2_GRAMS_PER_L_PER_VOLUME,
    GRAMS_PER_OUNCE,
    LITRES_PER_US_GALLON,
    fahrenheit_difference_from_celsius,
    fahrenheit_from_celsius,
    plato_from_gravity,
)

_Convert = Callable[[float], float]


def unbroken(quantity: str) -> str:
    """A quantity that breaks before its bracket alone: "10.4 C", then "(51 F)"."""
    return quantity.replace(" ", "\u00a0").replace("\u00a0(", " (")


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
        return f"{value:.4g}" if self.decimals is None else f"{value:.{self.decimals}f}"

    def other_figure(self, value: float) -> str:
        """The same in the other system."""
        return f"{self.convert(value):.{self.other_decimals}f}"

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
