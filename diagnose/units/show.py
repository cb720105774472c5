"""Quantities as brewers write them, in both systems of units where there are two."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from diagnose.units import conversions as by
from diagnose.units.field import Field
from diagnose.units.reading import Reading


@dataclass(frozen=True)
class Style:
    """How the figures of one system are written: the number, then the unit."""

    figure: Callable[[float], str]
    unit: str = ""
    label: str = ""

    def written(self, low: float, high: float) -> str:
        """One figure, or two with "to" between where they differ as written."""
        first, last = self.figure(low), self.figure(high)
        figures = first if first == last else f"{first} to {last}"
        return f"{self.label}{figures} {self.unit}".rstrip()


Styles = tuple[Style, ...]


def show(quantity: Reading | float, field: Field, both: bool = True) -> str:
    """A quantity as a brewer writes it: "18.9 C (66 F)", "1.1 kg (2 lb 8 oz)", "90 min".

    Args:
        quantity: a reading, shown as a range where it is one, or a number [base unit of `field`].
        field: what kind of quantity it is.
        both: add the other system of units in brackets, where there is one.

    Returns:
        Text that `read_quantity` reads back, as exactly as the figures shown allow.

    Raises:
        ValueError: a reading of another field, or a number that is not finite.
    """
    if isinstance(quantity, Reading):
        if quantity.unit != field.unit:
            raise ValueError(f"a reading in {quantity.unit} shown as {field.unit}")
        low, high = quantity.low, quantity.high
    else:
        low = high = float(quantity)
    if not (math.isfinite(low) and math.isfinite(high)):
        raise ValueError(f"{low} to {high} {field.unit} cannot be shown")
    own, *other = _STYLES[field](low, high)
    text = own.written(low, high)
    return f"{text} ({other[0].written(low, high)})" if both and other else text


def fixed(decimals: int, per_unit: float = 1.0) -> Callable[[float], str]:
    """A writer of figures with so many decimals, after dividing by the size of the unit."""
    return lambda value: _no_minus_zero(f"{value / per_unit:.{decimals}f}")


def trimmed(decimals: int, per_unit: float = 1.0) -> Callable[[float], str]:
    """As `fixed`, without zeros at the end: 3, 2.5."""
    return lambda value: _no_end_zeros(f"{value / per_unit:.{decimals}f}")


def significant(digits: int, per_unit: float = 1.0) -> Callable[[float], str]:
    """A writer of figures with so many digits that tell, never with an exponent."""

    def write(value: float) -> str:
        number = value / per_unit
        size = math.floor(math.log10(abs(number))) if number else 0
        return _no_end_zeros(f"{number:.{max(0, digits - 1 - size)}f}")

    return write


def _no_minus_zero(text: str) -> str:
    return text.removeprefix("-") if float(text) == 0 else text


def _no_end_zeros(text: str) -> str:
    return _no_minus_zero(text.rstrip("0").rstrip(".") if "." in text else text)


def _temperature(_low: float, _high: float) -> Styles:
    return Style(fixed(1), "C"), Style(lambda c: fixed(0)(by.fahrenheit_from_celsius(c)), "F")


def _gravity(_low: float, _high: float) -> Styles:
    return Style(fixed(3)), Style(lambda sg: fixed(1)(by.plato_from_gravity(sg)), "P")


def _volume(_low: float, high: float) -> Styles:
    if high < 1:
        return (
            Style(significant(3, 0.001), "mL"),
            Style(significant(3, by.LITRES_PER_US_FLUID_OUNCE), "US fl oz"),
        )
    litres = Style(fixed(1), "L")
    if high < by.LITRES_PER_US_GALLON:
        return litres, Style(fixed(1, by.LITRES_PER_US_GALLON / 4), "US qt")
    return litres, Style(fixed(1, by.LITRES_PER_US_GALLON), "US gal")


def _mass(low: float, high: float) -> Styles:
    in_kg = fixed(1 if low == high else 2, 1000)
    metric = Style(in_kg, "kg") if high >= 1000 else Style(significant(3), "g")
    if high >= by.GRAMS_PER_POUND:
        return metric, Style(_pounds_and_ounces)
    decimals = fixed(1, by.GRAMS_PER_OUNCE)
    return metric, Style(
        decimals if high >= by.GRAMS_PER_OUNCE else significant(2, by.GRAMS_PER_OUNCE), "oz"
    )


def _pounds_and_ounces(mass_g: float) -> str:
    pounds, ounces = divmod(round(mass_g / by.GRAMS_PER_OUNCE), 16)
    return f"{pounds} lb {ounces} oz" if ounces else f"{pounds} lb"


def _pressure(_low: float, high: float) -> Styles:
    return Style(fixed(2), "bar"), Style(fixed(0 if high >= 0.7 else 1, by.BAR_PER_PSI), "psi")


def _concentration(_low: float, high: float) -> Styles:
    milligrams = Style(significant(3), "mg/L")
    return (milligrams, Style(significant(3, 0.001), "µg/L")) if high < 1 else (milligrams,)


def _carbonation(_low: float, _high: float) -> Styles:
    per_volume = by.CO2_GRAMS_PER_L_PER_VOLUME
    return Style(significant(3), "volumes"), Style(fixed(1, 1 / per_volume), "g/L")


def _power(_low: float, high: float) -> Styles:
    return (Style(significant(3, 1000), "kW") if high >= 1000 else Style(significant(3), "W"),)


def _duration(low: float, high: float) -> Styles:
    """The unit a brewer would count such a time in: 90 min, 36 h, 10 days, 3 weeks, 14 months."""
    if high == 0:
        return (Style(trimmed(0, 1 / 60), "min"),)
    weeks = high / by.HOURS_PER_WEEK
    if low == high and weeks in range(3, 13):
        return (Style(trimmed(0, by.HOURS_PER_WEEK), "weeks"),)
    for below_h, unit, hours in _COUNTED_IN:
        if high < below_h:
            return (Style(trimmed(1, hours), unit),)
    return (Style(trimmed(1, by.HOURS_PER_YEAR), "years"),)


_COUNTED_IN: Final = (
    (1 / 20, "s", 1 / 3600),
    (2, "min", 1 / 60),
    (2 * by.HOURS_PER_DAY, "h", 1.0),
    (60 * by.HOURS_PER_DAY, "days", by.HOURS_PER_DAY),
    (2 * by.HOURS_PER_YEAR, "months", by.HOURS_PER_MONTH),
)


def _plain(figure: Callable[[float], str], unit: str, label: str = "") -> Callable[..., Styles]:
    return lambda _low, _high: (Style(figure, unit, label),)


_STYLES: Final[dict[Field, Callable[[float, float], Styles]]] = {
    Field.TEMPERATURE: _temperature,
    Field.VOLUME: _volume,
    Field.MASS: _mass,
    Field.GRAVITY: _gravity,
    Field.DURATION: _duration,
    Field.PRESSURE: _pressure,
    Field.CONCENTRATION: _concentration,
    Field.PH: _plain(fixed(2), "", "pH "),
    Field.PERCENT: _plain(significant(3), "%"),
    Field.CELLS: _plain(significant(3), "billion cells"),
    Field.CARBONATION: _carbonation,
    Field.POWER: _power,
    Field.BITTERNESS: _plain(fixed(0), "IBU"),
}
