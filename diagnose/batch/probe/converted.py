"""Every column that plays a part, in one unit: C, SG or bar."""

from dataclasses import dataclass

from diagnose.batch.probe.cells import unit_of
from diagnose.batch.probe.figures import Figures, Sorted
from diagnose.batch.probe.log import TEMPERATURES, FloatArray, Note, Role, Understood
from diagnose.batch.probe.parts import Parts
from diagnose.batch.probe.scales import (
    BAR_IN,
    refuse_temperature,
    settle_gravity_unit,
    settle_temperature_unit,
    to_bar,
    to_celsius,
    to_sg,
)
from diagnose.batch.probe.table import Table
from diagnose.errors import Fault, UnusableInput


@dataclass(frozen=True, eq=False)
class Converted:
    """One part's numbers as written (in the unit `written`) and in `unit`, one for each row."""

    at: int
    role: Role
    raw: FloatArray
    values: FloatArray
    unit: str
    written: Understood


def convert(
    columns: Sorted, parts: Parts, table: Table, *, temperature_unit: str | None
) -> tuple[tuple[Converted, ...], tuple[Note, ...]]:
    """The columns that play a part, converted.

    Raises:
        UnusableInput: a temperature could be in C or in F, or the answer is neither.
    """
    answer = _answer(temperature_unit, table.name)
    playing = {
        parts.roles[one.at]: one
        for one in columns.figures
        if parts.roles[one.at] not in ("unknown", "comment")
    }
    warm = {role: one for role, one in playing.items() if role in TEMPERATURES}
    units, notes = _temperature_units(warm, table, answer)
    result = [_temperature(role, one, units[role]) for role, one in warm.items()]
    for role, one in playing.items():
        if role == "gravity":
            unit, more = settle_gravity_unit(one, table.first_line)
            notes += more
            result.append(
                Converted(one.at, role, one.values, to_sg(one.values, unit.what), "SG", unit)
            )
        elif role not in TEMPERATURES:
            result.append(_pressure_or_battery(role, one))
    return tuple(sorted(result, key=lambda one: one.at)), notes


def _answer(temperature_unit: str | None, name: str) -> str | None:
    if temperature_unit is None:
        return None
    unit = unit_of(temperature_unit)
    if unit not in ("C", "F"):
        raise UnusableInput(Fault(name, 0, "temperature_unit", repr(temperature_unit), "C or F"))
    return unit


def _temperature_units(
    columns: dict[Role, Figures], table: Table, answer: str | None
) -> tuple[dict[Role, Understood], tuple[Note, ...]]:
    """A unit for each temperature column; one that cannot tell follows those that can."""
    line = table.first_line
    notes: tuple[Note, ...] = ()
    units: dict[Role, Understood] = {}
    for role, one in columns.items():
        unit, more = settle_temperature_unit(one, answer=answer, line=line)
        notes += more
        if unit is not None:
            units[role] = unit
    named = {unit.what for unit in units.values() if unit.certain}
    guessed = {unit.what for unit in units.values() if not unit.certain}
    for role, one in columns.items():
        if role not in units and len(named or guessed) == 1:
            what = next(iter(named or guessed))
            units[role] = Understood(what, "no unit named; as in the other columns", certain=False)
        elif role not in units or (not named and len(guessed) > 1):
            raise refuse_temperature(one, table.name, line)
    if named and guessed - named:
        text = "some temperatures name one unit and others look like the other. Is that so?"
        notes += (Note("ask", text, line),)
    return units, notes


def _temperature(role: Role, column: Figures, unit: Understood) -> Converted:
    values = to_celsius(column.values, unit.what)
    return Converted(column.at, role, column.values, values, "C", unit)


def _pressure_or_battery(role: Role, column: Figures) -> Converted:
    """Pressures in bar when the unit is named; a battery as the file has it."""
    named = Understood(column.unit, "named in the file", certain=True)
    if not column.unit:
        named = Understood("", "no unit named; left as written", certain=False)
    if role == "pressure" and column.unit in BAR_IN:
        values = to_bar(column.values, column.unit)
        return Converted(column.at, role, column.values, values, "bar", named)
    return Converted(column.at, role, column.values, column.values, column.unit, named)
