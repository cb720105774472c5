"""The words brewers write for units, field by field.

A word listed under two units has two readings, and nobody here chooses between them: "gal" is
under both gallons, "m" under minutes and months, "gr" under grams and grains.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from diagnose.units import conversions as by
from diagnose.units.field import Field


@dataclass(frozen=True)
class Unit:
    """One unit of one field.

    `scale` is the size of one of it in the base unit (for a curve, roughly); `system` is set
    where the word alone does not say whose measure it is; `doubt` is how far the curve may be off
    [base unit].
    """

    name: str
    scale: float = 1.0
    system: str = ""
    curve: Callable[[float], float] | None = None
    doubt: float = 0.0

    def base(self, number: float) -> float:
        """So many of this unit in the base unit of its field."""
        return self.curve(number) if self.curve else number * self.scale


CELSIUS: Final = Unit("C")
FAHRENHEIT: Final = Unit("F", 5 / 9, curve=by.celsius_from_fahrenheit)
GRAVITY: Final = Unit("SG")
# The two formulas for extract part by 0.0004 SG at 1.200.
PLATO: Final = Unit("P", 0.004, curve=by.gravity_from_plato, doubt=0.0005)
POINTS: Final = Unit("points", 0.001, curve=lambda points: 1 + points / 1000)
THOUSANDTHS: Final = Unit("SG x 1000", 0.001, curve=lambda number: number / 1000)
PERCENT: Final = Unit("%")
SHARE: Final = Unit("as a share of 1", 100)
BILLION: Final = Unit("billion cells")
MILLION: Final = Unit("million cells", 1e-3)
SINGLE_CELLS: Final = Unit("cells", 1e-9)
MINUTES: Final = Unit("min", 1 / 60)
HOURS: Final = Unit("h")


def _us(name: str, gallons: float) -> Unit:
    return Unit(f"US {name}", gallons * by.LITRES_PER_US_GALLON, "US")


def _imperial(name: str, gallons: float) -> Unit:
    return Unit(f"imp {name}", gallons * by.LITRES_PER_IMPERIAL_GALLON, "imperial")


_BARRELS = (
    _us("barrel", by.US_GALLONS_PER_BEER_BARREL),
    _imperial("barrel", by.IMPERIAL_GALLONS_PER_BARREL),
)
_OF_BOTH_SYSTEMS: tuple[tuple[tuple[Unit, Unit], str], ...] = (
    (_BARRELS, "barrel, bbl"),
    ((_us("gal", 1), _imperial("gal", 1)), "gal, gall, gallon"),
    ((_us("qt", 1 / 4), _imperial("qt", 1 / 4)), "qt, quart"),
    ((_us("pt", 1 / 8), _imperial("pt", 1 / 8)), "pt, pint"),
    (
        (_us("fl oz", 1 / 128), _imperial("fl oz", 1 / 160)),
        "fl oz, floz, fluid oz, fluid ounce, oz, ounce",
    ),
)
_PER_LITRE = "{0}/l, {0}/litre, {0}/liter, {0} per l, {0} per litre, {0} per liter"

_SPOKEN: dict[Field, tuple[tuple[Unit, str], ...]] = {
    Field.TEMPERATURE: (
        (CELSIUS, "c, celsius, centigrade"),
        (FAHRENHEIT, "f, fahrenheit"),
        (Unit("K", curve=by.celsius_from_kelvin), "k, kelvin"),
    ),
    Field.VOLUME: (
        (Unit("mL", 0.001), "ml, millilitre, milliliter, cc"),
        (Unit("cL", 0.01), "cl, centilitre, centiliter"),
        (Unit("dL", 0.1), "dl, decilitre, deciliter"),
        (Unit("L"), "l, lt, ltr, litre, liter"),
        (Unit("hL", 100.0), "hl, hectolitre, hectoliter"),
        *((unit, words) for both, words in _OF_BOTH_SYSTEMS for unit in both),
    ),
    Field.MASS: (
        (Unit("g"), "g, gm, gr, gram, gramme"),
        (Unit("kg", 1000.0), "kg, kilo, kilogram, kilogramme"),
        (Unit("mg", 0.001), "mg, milligram, milligramme"),
        (Unit("grains", by.GRAMS_PER_GRAIN), "gr, grain"),
        (Unit("oz", by.GRAMS_PER_OUNCE), "oz, ounce"),
        (Unit("lb", by.GRAMS_PER_POUND), "lb, pound, #"),
    ),
    Field.GRAVITY: (
        (PLATO, "p, plato"),
        (POINTS, "pt, point, gu, gravity point"),
    ),
    Field.DURATION: (
        (Unit("s", 1 / 3600), "s, sec, second"),
        (MINUTES, "m, min, minute, '"),
        (HOURS, "h, hr, hour"),
        (Unit("days", by.HOURS_PER_DAY), "d, day"),
        (Unit("weeks", by.HOURS_PER_WEEK), "w, wk, week"),
        (Unit("fortnights", 2 * by.HOURS_PER_WEEK), "fortnight"),
        (Unit("months", by.HOURS_PER_MONTH), "m, mo, mth, month"),
        (Unit("years", by.HOURS_PER_YEAR), "y, yr, year"),
    ),
    Field.PRESSURE: (
        (Unit("bar"), "bar, barg, bar gauge"),
        (Unit("mbar", 0.001), "mbar, millibar, hpa"),
        (Unit("psi", by.BAR_PER_PSI), "psi, psig, psi gauge"),
        (Unit("kPa", by.BAR_PER_KPA), "kpa, kilopascal"),
    ),
    Field.CONCENTRATION: (
        (Unit("mg/L"), f"{_PER_LITRE.format('mg')}, ppm"),
        (
            Unit("µg/L", 0.001),
            ", ".join(_PER_LITRE.format(mass) for mass in ("μg", "ug", "mcg")) + ", ppb",
        ),
        (Unit("g/L", 1000.0), _PER_LITRE.format("g")),
        (Unit("g/hL", 10.0), "g/hl"),
    ),
    Field.PH: (),
    Field.PERCENT: ((PERCENT, "%, percent, per cent, pct"),),
    Field.CELLS: ((BILLION, "billion, bn, b"), (MILLION, "million")),
    Field.CARBONATION: (
        (Unit("volumes"), "volume, vol, v"),
        (Unit("g/L", 1 / by.CO2_GRAMS_PER_L_PER_VOLUME), _PER_LITRE.format("g")),
    ),
    Field.POWER: ((Unit("W"), "w, watt"), (Unit("kW", 1000.0), "kw, kilowatt")),
    Field.BITTERNESS: ((Unit("IBU"), "ibu, ebu, bu"),),
}

# What a bare number could be, where any number could be any of them. Gravities, percentages and
# cells depend on the number and are in
# `bare.py`.
BARE: Final[Mapping[Field, tuple[str, ...]]] = {
    Field.TEMPERATURE: ("c", "f"),
    Field.VOLUME: ("l", "gal"),
    Field.MASS: ("g", "kg", "oz", "lb"),
    Field.DURATION: ("min", "h", "day"),
    Field.PRESSURE: ("bar", "psi", "kpa"),
    Field.CONCENTRATION: ("mg/l", "ug/l"),
    Field.CARBONATION: ("volume", "g/l"),
    Field.POWER: ("w", "kw"),
    Field.BITTERNESS: ("ibu",),
}


def _by_word(field: Field) -> dict[str, tuple[Unit, ...]]:
    found: dict[str, tuple[Unit, ...]] = {}
    for unit, words in _SPOKEN[field]:
        for word in words.split(", "):
            found[word] = (*found.get(word, ()), unit)
    return found


_WORDS: Final = {field: _by_word(field) for field in Field}


def units_called(word: str, field: Field) -> tuple[Unit, ...]:
    """Every unit of `field` that `word` (lower case, no full stops) can mean; none if unknown."""
    known = _WORDS[field]
    return known.get(word) or known.get(word.removesuffix("s")) or ()
