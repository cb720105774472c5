"""Where the table starts, what its header says, and which columns hold the time."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from diagnose.batch.probe.cutting import (
    DELIMITERS,
    SAMPLE_LINES,
    Row,
    choose_delimiter,
    cut,
    cut_all,
    is_reading,
)
from diagnose.batch.probe.header import (
    TIME_WORDS,
    cut_decimals,
    find_header,
    fit_header,
    is_header,
    names_columns,
)
from diagnose.batch.probe.log import Note, Understood, counted
from diagnose.batch.probe.raw import RawLog
from diagnose.batch.probe.stamps import kind_of, read_stamp
from diagnose.errors import Fault, UnusableInput

_A_TIME = (
    "cells parted by comma, semicolon, tab or pipe, one of them a date and a time such as"
    " 2024-10-01 12:00, or seconds since 1970"
)


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
    lines: tuple[int, ...]
    rows: tuple[list[str], ...]
    preamble: tuple[str, ...]
    delimiter: Understood
    header_line: Understood
    preamble_lines: Understood
    notes: tuple[Note, ...]

    def column(self, at: int) -> list[str]:
        """The cells of one column; a short row counts as empty there."""
        return [row[at] if at < len(row) else "" for row in self.rows]

    @property
    def width(self) -> int:
        """How many columns the widest row has."""
        return max(len(self.header), max(map(len, self.rows), default=0))

    def heading(self, at: int) -> str:
        """The header of one column, "" when it has none."""
        return self.header[at] if at < len(self.header) else ""


def lay_out(raw: RawLog) -> Table:
    """The table in an export.

    Raises:
        UnusableInput: no column holds a time, or no line holds a reading beside it.
    """
    delimiter, every, start = _cut_lines(raw)
    sample = [cells for _, cells in islice(every, start, start + SAMPLE_LINES)]
    time_at, notes = _time_columns(sample)
    header, header_line, above = find_header(every[:start], time_at)
    header = fit_header(header, sample, time_at)
    if delimiter.what == "comma" and header and cut_decimals(header, sample):
        raise _cut_decimals(raw.name, every[start][0])
    body, repeats = _without_headers(raw.name, every, start, time_at=time_at[0])
    return Table(
        name=raw.name,
        header=header,
        first_line=every[start][0],
        time_at=time_at,
        lines=tuple(line for line, _ in body),
        rows=tuple(cells for _, cells in body),
        preamble=tuple(raw.lines[:above]),
        delimiter=delimiter,
        header_line=header_line,
        preamble_lines=_preamble(raw.lines[:above]),
        notes=notes + repeats,
    )


def _cut_lines(raw: RawLog) -> tuple[Understood, list[Row], int]:
    """What parts the cells, every line cut by it, and which of them is the first reading."""
    sign, delimiter = choose_delimiter(raw.lines)
    every = list(cut_all(raw.lines, sign)) if sign else []
    start = _first_reading(every)
    if start < 0:
        raise _no_table(raw)
    return delimiter, every, start


def _first_reading(rows: Sequence[Row]) -> int:
    """The first row that is a reading, -1 without one.

    A line such as "Exported;2024-11-01;15" looks like one too, but has the header below it.
    """
    found = -1
    for at, (_, cells) in enumerate(rows):
        if is_reading(cells):
            if found >= 0 and not _new_header(rows, found, at):
                return found
            found = at
    return found


def _new_header(rows: Sequence[Row], first: int, second: int) -> bool:
    """Whether a header stands between two readings, and none with a word for time above both."""
    above = [cells for _, cells in rows[:first] if is_header(cells)]
    between = [cells for _, cells in rows[first + 1 : second]]
    named = any(TIME_WORDS.search(cell) for cells in above for cell in cells)
    return not named and any(is_header(cells) for cells in between)


def _time_columns(sample: Sequence[Sequence[str]]) -> tuple[tuple[int, ...], tuple[Note, ...]]:
    """The columns that hold the time: one with both, else a date and a time, else a date."""
    kinds = Counter((at, kind_of(cell)) for cells in sample for at, cell in enumerate(cells))
    moments = {at: seen for (at, kind), seen in kinds.items() if kind == "moment"}
    dates = {at: seen for (at, kind), seen in kinds.items() if kind == "date"}
    times = {at: seen for (at, kind), seen in kinds.items() if kind == "time"}
    dates |= {at: seen for at, seen in moments.items() if times and _only_midnight(sample, at)}
    moments = {at: seen for at, seen in moments.items() if at not in dates}
    most = max([*moments.values(), *dates.values()])
    whole = [at for at, seen in moments.items() if 2 * seen >= most]
    if whole:
        return _best_moment(sample, whole)
    date_at = max(dates, key=lambda at: (dates[at], -at))
    if times:
        return (date_at, max(times, key=lambda at: (times[at], -abs(at - date_at)))), ()
    return (date_at,), (Note("warn", "the dates carry no time of day; each was read as noon"),)


def _only_midnight(sample: Sequence[Sequence[str]], at: int) -> bool:
    """Whether a column of moments is really one of dates, as spreadsheets write them."""
    stamps = [read_stamp(cells[at]) for cells in sample if at < len(cells)]
    return all(stamp is None or stamp.seconds == 0 for stamp in stamps)


def _best_moment(
    sample: Sequence[Sequence[str]], columns: Sequence[int]
) -> tuple[tuple[int, ...], tuple[Note, ...]]:
    """Of several columns of moments, one that moves on, that says its zone, that stands first."""

    def rank(at: int) -> tuple[bool, bool, int]:
        stamps = {read_stamp(cells[at]) for cells in sample if at < len(cells)}
        zoned = any(stamp and stamp.offset_s == stamp.offset_s for stamp in stamps)
        return len(stamps) > 1, zoned, -at

    best = max(columns, key=rank)
    if len(columns) == 1:
        return (best,), ()
    text = f"{len(columns)} columns hold a time; column {best + 1} was used"
    return (best,), (Note("info", text),)


def _preamble(lines: Sequence[str]) -> Understood:
    filled = [line for line in lines if line.strip()]
    if not filled:
        return Understood("none", "the table starts at the top", certain=True)
    return Understood(
        str(len(lines)), f"lines above the table, such as {filled[0][:40]!r}", certain=True
    )


def _without_headers(
    name: str, rows: Sequence[Row], start: int, *, time_at: int
) -> tuple[list[Row], tuple[Note, ...]]:
    """The rows from `start` on without repeats of those above; another header is refused."""
    above = {tuple(cells) for _, cells in rows[:start]}
    body, repeats = [], 0
    for line, cells in islice(rows, start, None):
        if tuple(cells) in above and not is_reading(cells):
            repeats += 1
        elif time_at < len(cells) and names_columns(cells, time_at):
            found = f"another header, {', '.join(cells)[:60]!r}"
            raise UnusableInput(Fault(name, line, "", found, "one table a file"))
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
