"""One cell of a table as a moment: every common way in which loggers write dates and times."""

import re
from collections.abc import Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

# Common practice: zone letters as used in Europe, North America and Australia, hours from UTC.
# Letters that stand for several zones elsewhere (IST, CST in China) are read the western way or
# not at all.
ZONE_LETTERS = {
    **{
        "z": 0.0,
        "utc": 0.0,
        "gmt": 0.0,
        "wet": 0.0,
        "west": 1.0,
        "bst": 1.0,
        "cet": 1.0,
        "cest": 2.0,
    },
    **{"eet": 2.0, "eest": 3.0, "est": -5.0, "edt": -4.0, "cst": -6.0, "cdt": -5.0, "mst": -7.0},
    **{"mdt": -6.0, "pst": -8.0, "pdt": -7.0, "aest": 10.0, "aedt": 11.0, "awst": 8.0, "acst": 9.5},
}
MONTHS = {
    **{"jan": 1, "feb": 2, "mar": 3, "apr": 4, "may": 5, "jun": 6, "jul": 7, "aug": 8, "sep": 9},
    **{"oct": 10, "nov": 11, "dec": 12, "mär": 3, "mrz": 3, "mai": 5, "okt": 10, "dez": 12},
}
# Seconds since 1970 from 2000-01-01 to 2100-01-01: other large numbers are no times.
EARLIEST_EPOCH_S = 946_684_800
LATEST_EPOCH_S = 4_102_444_800
NOT_WRITTEN = float("nan")

Kind = Literal["moment", "date", "time", ""]


class Stamp(NamedTuple):
    """A moment as written.

    `mark` is the sign between the parts of a date whose day and month could change places, else "";
    `seconds` of the day [s] is NaN for a bare date; `offset_s` from UTC [s] is NaN when absent.
    """

    year: int
    month: int
    day: int
    seconds: float
    offset_s: float
    mark: str


class Day(NamedTuple):
    """A date as written; `mark` as in `Stamp`."""

    year: int
    month: int
    day: int
    mark: str


_OFFSET = r"(?:utc|gmt)?\s?[+-]\d{1,2}(?::?\d{2})?(?![\d./-])"
_LETTERS = "|".join(sorted(ZONE_LETTERS, key=len, reverse=True))
_TIME = re.compile(
    r"(?<![\d:])(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d{1,9})?))?(?![\d:])"
    r"(?:\s*([ap])(?:\.?\s?m\b\.?|\b\.?))?"
    rf"(?:\s?({_OFFSET}|(?:{_LETTERS})\b))?",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})")
_YEAR_LAST = re.compile(r"(\d{1,2})([-/.])(\d{1,2})\2(\d{4}|\d{2})")
_NAMED_DAY_FIRST = re.compile(r"(\d{1,2})[ .-]{0,2}([^\W\d]{3,9})[ .,-]{0,2}(\d{4}|\d{2})")
_NAMED_MONTH_FIRST = re.compile(r"([^\W\d]{3,9})[ .-]{0,2}(\d{1,2})[ .,-]{1,2}(\d{4})")
_COMPACT_DAY = re.compile(r"((?:19|20)\d{2})(\d{2})(\d{2})")
_COMPACT = re.compile(r"((?:19|20)\d{6})[T _-]?(\d{2})(\d{2})(\d{2})?(z)?", re.IGNORECASE)
_EPOCH = re.compile(r"(\d{10}|\d{13}|\d{16}|\d{19})(?:[.,](\d*))?")
_WEEKDAY = re.compile(r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]{0,6}[.,]?\s+", re.IGNORECASE)
_JOIN_BEFORE_TIME = re.compile(r"[\s,T_@-]*(?:\bat)?\s*$", re.IGNORECASE)
_JOIN_AFTER_TIME = re.compile(r"^[\s,_@-]*(?:on\b)?\s*", re.IGNORECASE)


@lru_cache(maxsize=4096)
def kind_of(cell: str) -> Kind:
    """Whether a cell is a full moment, a bare date, a bare time of day, or none of these."""
    text = cell.strip()
    if len(text) < 4 or not any(mark.isdigit() for mark in text):
        return ""
    stamp = read_stamp(text)
    if stamp is not None:
        return "date" if stamp.seconds != stamp.seconds else "moment"
    return "time" if _TIME.fullmatch(text) and _time_of_day(text) is not None else ""


@lru_cache(maxsize=4096)
def read_stamp(cell: str) -> Stamp | None:
    """The moment a cell says, or None when it says none; a bare date has no seconds."""
    text = cell.strip().replace("\u00a0", " ").replace("\u202f", " ")
    epoch = _EPOCH.fullmatch(text)
    if epoch is not None:
        return _from_epoch(epoch.group(1), epoch.group(2) or "")
    compact = _COMPACT.fullmatch(text)
    if compact is not None:
        return _from_compact(compact)
    clock = _TIME.search(text)
    if clock is None:
        return _join(_day(text), NOT_WRITTEN, NOT_WRITTEN)
    time = _time_of_day(clock.group())
    before = _JOIN_BEFORE_TIME.sub("", text[: clock.start()])
    after = _JOIN_AFTER_TIME.sub("", text[clock.end() :])
    if time is None or bool(before) == bool(after):
        return None
    return _join(_day(before or after), *time)


def stamp_of(cells: Sequence[str], time_at: tuple[int, ...]) -> Stamp | None:
    """The moment a row says in one column, or with its date in one and its time in another."""
    said = [cells[at] if at < len(cells) else "" for at in time_at]
    if len(said) == 1:
        return read_stamp(said[0])
    day, clock = read_stamp(said[0]), read_stamp(f"2000-01-01 {said[1]}")
    if day is None or clock is None or clock.seconds != clock.seconds:
        return None
    return day._replace(seconds=clock.seconds, offset_s=clock.offset_s)


def offset_of(zone: str) -> float | None:
    """Seconds east of UTC of "Z", "CET", "+02:00" or "UTC-5"; None for anything else."""
    text = zone.strip().lower()
    if text in ZONE_LETTERS:
        return ZONE_LETTERS[text] * 3600
    text = text.removeprefix("utc").removeprefix("gmt").strip()
    found = re.fullmatch(r"([+-])(\d{1,2}):?(\d{2})?", text)
    if found is None:
        return None
    minutes = int(found.group(2)) * 60 + int(found.group(3) or 0)
    return None if minutes > 14 * 60 else (-60.0 if found.group(1) == "-" else 60.0) * minutes


def _join(day: Day | None, seconds: float, offset_s: float) -> Stamp | None:
    if day is None:
        return None
    return Stamp(day.year, day.month, day.day, seconds, offset_s, day.mark)


def _time_of_day(text: str) -> tuple[float, float] | None:
    """Seconds of the day and offset from UTC [s]."""
    found = _TIME.fullmatch(text)
    if found is None:
        return None
    hour, minute = int(found.group(1)), int(found.group(2))
    second = float((found.group(3) or "0").replace(",", "."))
    half, zone = found.group(4), found.group(5)
    if half and 1 <= hour <= 12:
        hour = hour % 12 + (12 if half.lower() == "p" else 0)
    if hour > 24 or minute > 59 or second >= 61 or (hour == 24 and (minute or second)):
        return None
    offset_s = offset_of(zone) if zone else NOT_WRITTEN
    return None if offset_s is None else (hour * 3600 + minute * 60 + second, offset_s)


@lru_cache(maxsize=4096)
def _day(text: str) -> Day | None:
    text = _WEEKDAY.sub("", text, count=1)
    if found := _YEAR_FIRST.fullmatch(text):
        return _checked(Day(int(found[1]), int(found[3]), int(found[4]), ""))
    if found := _YEAR_LAST.fullmatch(text):
        day = Day(_full_year(found[4]), int(found[3]), int(found[1]), found[2])
        return day if 1 <= day.month <= 31 and 1 <= day.day <= 31 else None
    if found := _COMPACT_DAY.fullmatch(text):
        return _checked(Day(int(found[1]), int(found[2]), int(found[3]), ""))
    return _named_day(text)


def _named_day(text: str) -> Day | None:
    if found := _NAMED_DAY_FIRST.fullmatch(text):
        day, name, year = found.groups()
    elif found := _NAMED_MONTH_FIRST.fullmatch(text):
        name, day, year = found.groups()
    else:
        return None
    month = MONTHS.get(name[:3].lower(), 0)
    return _checked(Day(_full_year(year), month, int(day), ""))


def _checked(day: Day) -> Day | None:
    return day if 1 <= day.month <= 12 and 1 <= day.day <= 31 else None


def _full_year(year: str) -> int:
    return int(year) + (2000 if len(year) == 2 else 0)


def _from_epoch(figures: str, decimals: str) -> Stamp | None:
    """Seconds, milliseconds, microseconds or nanoseconds since 1970, told by how many figures."""
    seconds = float(f"{figures[:10]}.{figures[10:]}{decimals}")
    if not EARLIEST_EPOCH_S <= seconds <= LATEST_EPOCH_S:
        return None
    return Stamp(1970, 1, 1, seconds, 0.0, "")


def _from_compact(found: re.Match[str]) -> Stamp | None:
    date, hour, minute, second, zulu = found.groups()
    time = _time_of_day(f"{hour}:{minute}:{second or '00'}{zulu or ''}")
    return None if time is None else _join(_day(date), *time)
