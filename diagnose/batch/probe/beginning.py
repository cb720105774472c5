"""Which row is the first reading, and which columns hold the time."""

from collections import Counter
from collections.abc import Sequence

from diagnose.batch.probe.cutting import Row, is_reading
from diagnose.batch.probe.header import TIME_WORDS, is_header
from diagnose.batch.probe.log import Note
from diagnose.batch.probe.stamps import kind_of, read_stamp


def first_reading(rows: Sequence[Row]) -> tuple[int, bool]:
    """The first row that is a reading (-1 without one), and whether later rows can change that.

    A line such as "Exported;2024-11-01;15" looks like one too, but has the header below it.
    """
    found = -1
    for at, (_, cells) in enumerate(rows):
        if is_reading(cells):
            if found >= 0 and not _new_header(rows, found, at):
                return found, True
            found = at
    return found, False


def _new_header(rows: Sequence[Row], first: int, second: int) -> bool:
    """Whether a header stands between two readings, and none with a word for time above both."""
    above = [cells for _, cells in rows[:first] if is_header(cells)]
    between = [cells for _, cells in rows[first + 1 : second]]
    named = any(TIME_WORDS.search(cell) for cells in above for cell in cells)
    return not named and any(is_header(cells) for cells in between)


def time_columns(sample: Sequence[Sequence[str]]) -> tuple[tuple[int, ...], tuple[Note, ...]]:
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
