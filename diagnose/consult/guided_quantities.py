"""A quantity as typed at a question: as it stands, or the ways in which it could be meant."""

import re
from collections.abc import Iterator
from typing import Final

from diagnose.batch import BatchRecord, logged_entries
from diagnose.errors import UnreadableQuantity
from diagnose.units import Field, Habits, Reading, read_quantity, show

_BARE = re.compile(r"(?:about |~)?\d[\d.,\s/-]*", re.IGNORECASE)
_WHOSE = re.compile(
    r"\b(?P<unit>gal(?:lon)?s?|galls?|quarts?|qts?|pints?|pts?|(?:fl\.? ?)?(?:oz|ounces?)"
    r"|fluid ounces?|barrels?|bbl)\b",
    re.IGNORECASE,
)
_M = re.compile(r"(?<=\d)\s*m\b", re.IGNORECASE)
# What a number without a unit may be meant in; the likeliest first.
_UNITS: Final = {
    Field.TEMPERATURE: ("C", "F"),
    Field.VOLUME: ("L", "US gal", "imp gal"),
    Field.MASS: ("g", "kg", "oz", "lb"),
    Field.DURATION: ("min", "h", "days", "weeks", "months"),
    Field.GRAVITY: ("P", "points"),
    Field.CONCENTRATION: ("mg/L",),
    Field.CELLS: ("billion",),
    Field.PERCENT: ("%",),
}
_FAHRENHEIT = re.compile(r"\d\s*°?\s*F\b|fahrenheit", re.IGNORECASE)
_CELSIUS = re.compile(r"\d\s*°?\s*C\b|celsius", re.IGNORECASE)
_US, _IMPERIAL = re.compile(r"\bU\.?S\b", re.IGNORECASE), re.compile(r"\bimp", re.IGNORECASE)


def habits_of(record: BatchRecord) -> Habits:
    """How this brewer writes, as far as the record shows one way and not the other."""
    texts = [value.typed for _, value in logged_entries(record) if isinstance(value, Reading)]
    f, c = (any(way.search(text) for text in texts) for way in (_FAHRENHEIT, _CELSIUS))
    us, imperial = (any(way.search(text) for text in texts) for way in (_US, _IMPERIAL))
    return Habits(
        temperature=("F" if f else "C") if f != c else None,
        measures=("US" if us else "imperial") if us != imperial else None,
    )


def ways_meant(typed: str, field: Field, bare: str, habits: Habits) -> tuple[str, ...]:
    """The texts that a typed quantity may stand for, each of which can be read in one way.

    Args:
        typed: what was typed.
        field: what kind of quantity it is.
        bare: the unit that a bare number has here, where only one makes sense.
        habits: how the brewer writes elsewhere in this record.

    Returns:
        One text where it is clear; several where it must be asked; none never.

    Raises:
        UnreadableQuantity: no way of reading it.
    """
    try:
        read_quantity(typed, field)
    except UnreadableQuantity as refused:
        unit = bare if _BARE.fullmatch(typed) else ""
        ways = [f"{typed} {unit}"] if unit else list(_ways(typed, field, habits))
        readable = tuple(way for way in dict.fromkeys(ways) if _reads(way, field))
        if not readable:
            raise refused from None
        return readable
    return (typed,)


def _ways(typed: str, field: Field, habits: Habits) -> Iterator[str]:
    if _BARE.fullmatch(typed):
        units = _UNITS.get(field, ())
        if field is Field.TEMPERATURE and habits.temperature:
            units = (habits.temperature,)
        if field is Field.VOLUME and habits.measures:
            other = "imp gal" if habits.measures == "US" else "US gal"
            units = tuple(unit for unit in units if unit != other)
        yield from (f"{typed} {unit}" for unit in units)
    elif field is Field.VOLUME and _WHOSE.search(typed):
        whose = {"US": ("US",), "imperial": ("imp",)}.get(habits.measures or "", ("US", "imp"))
        for one in whose:
            yield _WHOSE.sub(lambda match, one=one: f"{one} {match['unit']}", typed)  # type: ignore[misc]
    elif field is Field.DURATION and _M.search(typed):
        yield from (_M.sub(f" {unit}", typed) for unit in ("min", "months"))


def _reads(text: str, field: Field) -> bool:
    try:
        read_quantity(text, field)
    except UnreadableQuantity:
        return False
    return True


def said_in_full(text: str, field: Field) -> str:
    """A quantity with what it comes to: "5 US gal = 18.9 L"."""
    reading = read_quantity(text, field)
    shown = show(reading, field, both=False).replace(".0 ", " ")
    return text if shown.casefold() == text.casefold() else f"{text} = {shown}"
