"""Columns of numbers and columns of words, told apart by their cells."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from diagnose.batch.probe.cells import (
    Number,
    as_number,
    decimal_sign_of,
    is_missing,
    unit_of,
    value_of,
)
from diagnose.batch.probe.headings import TEMPERATURE_UNITS, Heading, read_heading
from diagnose.batch.probe.log import TEMPERATURES, FloatArray, Note, Understood, counted
from diagnose.batch.probe.table import Table
from diagnose.errors import Fault, UnusableInput

# Judgement: a column of numbers may have some rubbish in it, not more than it has numbers.
LEAST_NUMBER_SHARE = 0.5
_NAMES = {".": "point", ",": "comma"}


@dataclass(frozen=True, eq=False)
class Figures:
    """One column of numbers as written, one for each row of the table; NaN where nothing is said.

    `unit` comes from the header or from the cells, "" when neither names one.
    """

    at: int
    header: str
    heading: Heading
    unit: str
    values: FloatArray


@dataclass(frozen=True, eq=False)
class Words:
    """One column without numbers: its header, what that says, and its different texts."""

    at: int
    header: str
    heading: Heading
    texts: frozenset[str]


@dataclass(frozen=True, eq=False)
class Sorted:
    """The columns beside the time, and the decimal sign of the file."""

    figures: tuple[Figures, ...]
    words: tuple[Words, ...]
    decimal_sign: Understood
    notes: tuple[Note, ...]


def sort_columns(table: Table) -> Sorted:
    """Every column but the time's as figures or words.

    Raises:
        UnusableInput: no column holds a number, or one column holds several units.
    """
    figures: list[Figures] = []
    words: list[Words] = []
    notes: list[Note] = []
    parsed = {at: _parsed(table.column(at)) for at in range(table.width) if at not in table.time_at}
    numeric = {at: numbers for at, (numbers, said) in parsed.items() if _is_numeric(numbers, said)}
    sign, understood = _file_sign(numeric)
    for at in parsed:
        if at in numeric:
            column, more = _figures(table, at, numeric[at], file_sign=sign)
            figures.append(column)
            notes.extend(more)
        else:
            texts = frozenset(cell for cell in table.column(at) if cell)
            header = table.heading(at)
            words.append(Words(at, header, read_heading(header), texts))
    if not figures:
        found, wanted = "no column of numbers beside the time", "temperatures or gravities"
        raise UnusableInput(Fault(table.name, table.first_line, "", found, wanted))
    beside = _unit_beside(words)
    figures = [one if one.unit else replace(one, unit=_borrowed(one, beside)) for one in figures]
    return Sorted(tuple(figures), tuple(words), understood, tuple(notes))


def _unit_beside(words: Sequence[Words]) -> str:
    """The temperature unit that a column of its own repeats on every row, "" without one."""
    for one in words:
        units = {unit_of(text) for text in one.texts}
        if "unit" in one.header.lower() and len(units) == 1 and units <= TEMPERATURE_UNITS:
            return next(iter(units))
    return ""


def _borrowed(column: Figures, unit: str) -> str:
    return unit if column.heading.part in (*TEMPERATURES, "temperature") else ""


def _parsed(cells: Sequence[str]) -> tuple[list[Number | None], int]:
    """Each cell as a number, None where it is none, and how many cells say anything at all."""
    said = sum(not is_missing(cell) for cell in cells)
    return [as_number(cell) for cell in cells], said


def _is_numeric(numbers: Sequence[Number | None], said: int) -> bool:
    count = sum(number is not None for number in numbers)
    return count > 0 and count >= LEAST_NUMBER_SHARE * said


def _file_sign(columns: dict[int, list[Number | None]]) -> tuple[str, Understood]:
    every = (number for numbers in columns.values() for number in numbers if number is not None)
    sign, doubtful = decimal_sign_of(every)
    if not sign:
        return ".", Understood("point", "no number has decimals", certain=False)
    if doubtful and sign == ",":
        return sign, Understood(
            "comma", "a comma before three figures, taken as decimal", certain=False
        )
    return sign, Understood(
        _NAMES[sign], f"numbers are written with a {_NAMES[sign]}", certain=True
    )


def _figures(
    table: Table, at: int, numbers: list[Number | None], *, file_sign: str
) -> tuple[Figures, list[Note]]:
    """A column's values; its own decimal sign goes before that of the file."""
    own, _ = decimal_sign_of(number for number in numbers if number is not None)
    sign = own or file_sign
    values = np.array([_value(number, sign) for number in numbers], dtype=np.float64)
    header = table.heading(at)
    heading = read_heading(header)
    unit = _unit_in_cells(table, at, numbers) or heading.unit
    column = Figures(at, header, heading, unit, values)
    notes = _unreadable(table, at, values)
    if sign != file_sign and own:
        text = f"column {header or at + 1} writes decimals with a {_NAMES[sign]}, unlike the others"
        notes.append(Note("info", text, table.first_line))
    return column, notes


def _value(number: Number | None, sign: str) -> float:
    value = None if number is None else value_of(number, sign)
    return float("nan") if value is None else value


def _unit_in_cells(table: Table, at: int, numbers: Sequence[Number | None]) -> str:
    """The unit behind the numbers, "" when there is none; two units in one column are refused."""
    units = {number.unit for number in numbers if number is not None and number.unit}
    if len(units) > 1:
        key, found = table.heading(at), " and ".join(sorted(units)) + " in one column"
        raise UnusableInput(Fault(table.name, table.first_line, key, found, "one unit a column"))
    return next(iter(units), "")


def _unreadable(table: Table, at: int, values: FloatArray) -> list[Note]:
    bad = [
        row
        for row, cell in enumerate(table.column(at))
        if np.isnan(values[row]) and not is_missing(cell)
    ]
    if not bad:
        return []
    cell = table.column(at)[bad[0]][:20]
    name = table.heading(at) or f"column {at + 1}"
    text = f"{counted(len(bad), 'cell')} of {name} held no number, such as {cell!r}: missing"
    return [Note("warn", text, table.lines[bad[0]])]
