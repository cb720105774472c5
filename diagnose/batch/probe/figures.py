"""Columns of numbers and columns of words, told apart by their cells."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from diagnose.batch.probe.abreast import abreast
from diagnose.batch.probe.cells import Marks, unit_of
from diagnose.batch.probe.headings import TEMPERATURE_UNITS, Heading, read_heading
from diagnose.batch.probe.log import TEMPERATURES, FloatArray, Note, Understood, counted
from diagnose.batch.probe.numbers import Numbers, numbers_in, one_by_one
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
    beside_time = [at for at in range(table.width) if at not in table.time_at]
    columns = [table.column(at) for at in beside_time]
    every = abreast(numbers_in, columns, size=table.lines.size)
    parsed = dict(zip(beside_time, every, strict=True))
    numeric = {at: numbers for at, numbers in parsed.items() if _is_numeric(numbers)}
    sign, understood = _file_sign(numeric)
    for at, numbers in parsed.items():
        if at in numeric:
            column, more = _figures(table, at, numbers, file_sign=sign)
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


def _is_numeric(numbers: Numbers) -> bool:
    return numbers.count > 0 and numbers.count >= LEAST_NUMBER_SHARE * numbers.said


def _file_sign(columns: dict[int, Numbers]) -> tuple[str, Understood]:
    every = [
        numbers.marks._replace(last_row=at if numbers.marks.last else -1)
        for at, numbers in columns.items()
    ]
    sign, doubtful = sum(every, Marks()).sign
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
    table: Table, at: int, numbers: Numbers, *, file_sign: str
) -> tuple[Figures, list[Note]]:
    """A column's values; its own decimal sign goes before that of the file."""
    own, _ = numbers.marks.sign
    sign = own or file_sign
    if numbers.plain_sign != sign and not numbers.fits_any_sign:
        numbers = one_by_one(table.column(at))
    values = numbers.values(sign)
    header = table.heading(at)
    heading = read_heading(header)
    unit = _unit_in_cells(table, at, numbers) or heading.unit
    column = Figures(at, header, heading, unit, values)
    notes = _unreadable(table, at, numbers, values)
    if sign != file_sign and own:
        text = f"column {header or at + 1} writes decimals with a {_NAMES[sign]}, unlike the others"
        notes.append(Note("info", text, table.first_line))
    return column, notes


def _unit_in_cells(table: Table, at: int, numbers: Numbers) -> str:
    """The unit behind the numbers, "" when there is none; two units in one column are refused."""
    units = numbers.units
    if len(units) > 1:
        key, found = table.heading(at), " and ".join(sorted(units)) + " in one column"
        raise UnusableInput(Fault(table.name, table.first_line, key, found, "one unit a column"))
    return next(iter(units), "")


def _unreadable(table: Table, at: int, numbers: Numbers, values: FloatArray) -> list[Note]:
    bad = numbers.unreadable(values)
    if not bad:
        return []
    cell = numbers.others[bad[0]][:20]
    name = table.heading(at) or f"column {at + 1}"
    text = f"{counted(len(bad), 'cell')} of {name} held no number, such as {cell!r}: missing"
    return [Note("warn", text, int(table.lines[bad[0]]))]
