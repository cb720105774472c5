"""Where the table starts, what its header says, and which columns hold the time."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import islice

import numpy as np

from diagnose.batch.probe.beginning import first_reading, time_columns
from diagnose.batch.probe.cutting import (
    DELIMITERS,
    LONGEST_CELL_LINES,
    SAMPLE_LINES,
    Row,
    choose_delimiter,
    cut,
    cut_all,
    is_reading,
    sample_of,
)
from diagnose.batch.probe.header import (
    TIME_WORDS,
    cut_decimals,
    find_header,
    fit_header,
    names_columns,
)
from diagnose.batch.probe.log import IntArray, Note, Understood, counted
from diagnose.batch.probe.packed import Body, PackedRows, Regular, find_regular, merge
from diagnose.batch.probe.raw import RawLog
from diagnose.batch.probe.stamps import kind_of
from diagnose.errors import Fault, UnusableInput

# The first lines settle what a file is; a longer one is not cut as a whole.
HEAD_LINES = 2 * SAMPLE_LINES
LONG_BYTES = 16_384
_A_TIME = (
    "cells parted by comma, semicolon, tab or pipe, one of them a date and a time such as"
    " 2024-10-01 12:00, or seconds since 1970"
)


@dataclass(frozen=True, eq=False)
class CutRows:
    """The rows of a table, each cut into its cells."""

    lines: IntArray
    rows: tuple[list[str], ...]

    @property
    def width(self) -> int:
        """How many columns the widest row has."""
        return max(map(len, self.rows), default=0)

    def column(self, at: int) -> list[str]:
        """The cells of one column; a short row counts as empty there."""
        return [row[at] if at < len(row) else "" for row in self.rows]


@dataclass(frozen=True, eq=False)
class Table:
    """The rows below the header, each with its line, and what the layout was taken for.

    `time_at` holds one column (date and time together, or a date alone) or two (date, time).
    `header` is empty when there is none; `first_line` is the first line of the readings.
    """

    name: str
    header: tuple[str, ...]
    first_line: int
    time_at: tuple[int, ...]
    rows: CutRows | PackedRows
    preamble: tuple[str, ...]
    delimiter: Understood
    header_line: Understood
    preamble_lines: Understood
    notes: tuple[Note, ...]

    @property
    def lines(self) -> IntArray:
        """The line of each row."""
        return self.rows.lines

    def column(self, at: int) -> Sequence[str]:
        """The cells of one column; a short row counts as empty there."""
        return self.rows.column(at)

    @property
    def width(self) -> int:
        """How many columns the widest row has."""
        return max(len(self.header), self.rows.width)

    def heading(self, at: int) -> str:
        """The header of one column, "" when it has none."""
        return self.header[at] if at < len(self.header) else ""


def lay_out(raw: RawLog, *, line_by_line: bool = False) -> Table:
    """The table in an export.

    Args:
        raw: the file.
        line_by_line: cut every line by itself, however long the file is; the table is the same.

    Raises:
        UnusableInput: no column holds a time, or no line holds a reading beside it.
    """
    delimiter, every, start = _cut_lines(raw, whole=line_by_line)
    sample = [cells for _, cells in islice(every, start, start + SAMPLE_LINES)]
    time_at, notes = time_columns(sample)
    header, header_line, above = find_header(every[:start], time_at)
    header = fit_header(header, sample, time_at)
    if delimiter.what == "comma" and header and cut_decimals(header, sample):
        raise _cut_decimals(raw.name, every[start][0])
    top = Top(raw, delimiter, every[:start], every[start], time_at)
    rows, repeats = _rows(top, line_by_line=line_by_line)
    preamble = tuple(raw.head(above))
    return Table(
        name=raw.name,
        header=header,
        first_line=every[start][0],
        time_at=time_at,
        rows=rows,
        preamble=preamble,
        delimiter=delimiter,
        header_line=header_line,
        preamble_lines=_preamble(preamble),
        notes=notes + repeats,
    )


@dataclass(frozen=True, eq=False)
class Top:
    """What is known of a file before all its rows are: those above the readings, and the first."""

    raw: RawLog
    delimiter: Understood
    above: Sequence[Row]
    first: Row
    time_at: tuple[int, ...]

    @property
    def sign(self) -> str:
        """What parts the cells."""
        return next(sign for sign, name in DELIMITERS.items() if name == self.delimiter.what)


def _cut_lines(raw: RawLog, *, whole: bool) -> tuple[Understood, list[Row], int]:
    """What parts the cells, the lines cut by it (the first ones are enough), the first reading."""
    sign, delimiter = choose_delimiter(sample_of(raw.text))
    if sign and not whole:
        head = list(cut_all(raw.head(HEAD_LINES), sign))
        start, settled = first_reading(head)
        if settled and start + SAMPLE_LINES + LONGEST_CELL_LINES < len(head):
            return delimiter, head, start
    every = list(cut_all(raw.lines, sign)) if sign else []
    start, _ = first_reading(every)
    if start < 0:
        raise _no_table(raw)
    return delimiter, every, start


def _rows(top: Top, *, line_by_line: bool) -> tuple[CutRows | PackedRows, tuple[Note, ...]]:
    """All rows from the first reading on, without repeated headers."""
    regular = None if line_by_line else _regular(top)
    if regular is not None:
        odd, notes = _without_headers(top, regular.odd)
        return merge(regular, odd, top.time_at), notes
    every = cut_all(top.raw.lines, top.sign)
    body, notes = _without_headers(top, (row for row in every if row[0] >= top.first[0]))
    lines = np.array([line for line, _ in body], dtype=np.int64)
    return CutRows(lines, tuple(cells for _, cells in body)), notes


def _regular(top: Top) -> Regular | None:
    """The regular rows of a long file with its times in one place, None for any other file."""
    line, cells = top.first
    said = [row[top.time_at[0]] for _, row in top.above if top.time_at[0] < len(row)]
    apart = len(top.time_at) > 1 and top.time_at[1] != top.time_at[0] + 1
    if apart or any(kind_of(cell) for cell in said):
        return None
    first_byte = top.raw.start_of(line)
    if len(top.raw.text) - first_byte < LONG_BYTES:
        return None
    return find_regular(top.raw.text, Body(first_byte, line, top.sign, len(cells), top.time_at))


def _preamble(lines: Sequence[str]) -> Understood:
    filled = [line for line in lines if line.strip()]
    if not filled:
        return Understood("none", "the table starts at the top", certain=True)
    return Understood(
        str(len(lines)), f"lines above the table, such as {filled[0][:40]!r}", certain=True
    )


def _without_headers(top: Top, rows: Iterable[Row]) -> tuple[list[Row], tuple[Note, ...]]:
    """Rows without repeats of those above the readings; another header is refused."""
    above, time_at = {tuple(cells) for _, cells in top.above}, top.time_at[0]
    body, repeats = [], 0
    for line, cells in rows:
        if tuple(cells) in above and not is_reading(cells):
            repeats += 1
        elif time_at < len(cells) and names_columns(cells, time_at):
            found = f"another header, {', '.join(cells)[:60]!r}"
            raise UnusableInput(Fault(top.raw.name, line, "", found, "one table a file"))
        else:
            body.append((line, cells))
    text = f"{counted(repeats, 'line')} repeated the header; skipped"
    return body, (Note("info", text),) if repeats else ()


def _cut_decimals(name: str, line: int) -> UnusableInput:
    found = "more cells than names, and no decimal point: decimal commas cut in two"
    wanted = "decimal commas in quotation marks, or semicolons between the columns"
    return UnusableInput(Fault(name, line, "", found, wanted))


def _no_table(raw: RawLog) -> UnusableInput:
    """Why there is no table: no time, times that cannot be read, or times without numbers."""
    filled = [(at, line) for at, line in enumerate(raw.lines, 1) if line.strip()]
    sample = [line for _, line in filled[:SAMPLE_LINES]]
    kinds = {kind_of(cell) for sign in DELIMITERS for line in sample for cell in cut(line, sign)}
    line, text = filled[0]
    if {"moment", "date"} & kinds:
        fault = Fault(raw.name, line, "", "times, but no number beside them", "a column of numbers")
    elif "time" in kinds:
        fault = Fault(raw.name, line, "time", "times of day, but no date", _A_TIME)
    elif TIME_WORDS.search(text) and len(filled) == 1:
        fault = Fault(raw.name, line, "", "a header and no rows", "at least one reading")
    elif TIME_WORDS.search(text):
        line, text = filled[1]
        found = f"{text.strip()[:60]!r}, and no row with a readable time"
        fault = Fault(raw.name, line, "time", found, _A_TIME)
    else:
        found = f"{text.strip()[:60]!r}, and no column with a time"
        fault = Fault(raw.name, line, "time", found, _A_TIME)
    return UnusableInput(fault)
