"""Clock times without a zone to UTC: which zone they are in, and both changes of the clocks."""

import re
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone, tzinfo

import numpy as np

from diagnose.batch.probe.log import BoolArray, FloatArray
from diagnose.batch.probe.middle import median
from diagnose.batch.probe.stamps import offset_of
from diagnose.batch.zone_names import zone_called
from diagnose.errors import Fault, UnusableInput

# Every zone changes its clocks on a quarter of an hour.
QUARTER_S = 900.0
QUARTERS_A_DAY = 96.0
# Judgement: with a reading about every hour, the same hour written twice is the repeated hour.
HOURLY_S = 1800.0
_EPOCH_START = datetime(1970, 1, 1)
_OFFSET_IN_HEADER = re.compile(r"\b(?:utc|gmt)(?:\s?[+-]\d{1,2}(?::?\d{2})?)?|[\[(]z[\])]", re.I)
_NAME = re.compile(
    r"\b(?:Africa|America|Asia|Atlantic|Australia|Europe|Indian|Pacific)/\w+(?:/\w+)?"
)


@dataclass(frozen=True, eq=False)
class Placed:
    """Clock times put on UTC [s], and what the zone's changes did to them.

    `fell_back` are the rows of the repeated hour that were told to belong to its second passing.
    """

    utc_s: FloatArray
    repeated_hour: BoolArray
    fell_back: BoolArray
    missing_hour: BoolArray


def find_zone(zone: str, name: str) -> tzinfo:
    """A zone by its name ("Europe/Berlin", "UTC") or offset ("+02:00").

    Raises:
        UnusableInput: nobody knows such a zone.
    """
    offset_s = offset_of(zone)
    if offset_s is not None:
        return timezone(timedelta(seconds=offset_s))
    found = zone_called(zone)
    if found is None:
        wanted = "a time zone such as Europe/Berlin, America/Chicago or +02:00"
        raise UnusableInput(Fault(name, 0, "zone", repr(zone), wanted))
    return found


def offset_in_header(header: str) -> float | None:
    """Seconds east of UTC when a time column's header says so, as in "Time (UTC)"."""
    found = _OFFSET_IN_HEADER.search(header)
    return None if found is None else offset_of(found.group().strip("[]()"))


def zone_in_preamble(preamble: tuple[str, ...]) -> str | None:
    """The name of a zone in the lines above the table, when one is there."""
    for line in preamble:
        found = _NAME.search(line)
        if found is not None and zone_called(found.group()) is not None:
            return found.group()
    return None


def place(clock_s: FloatArray, zone: tzinfo) -> Placed:
    """Clock times of one zone on UTC, in the order in which the logger wrote them.

    An hour that the clocks pass twice is told apart by the row at which the clock falls back. A row
    inside an hour that the clocks skip shows a logger that stays on winter time: it and all later
    rows are read so.

    Args:
        clock_s: seconds since 1970 by the zone's clock [s], earliest rows first, no NaN.
        zone: the zone.
    """
    first, second = _offsets(clock_s, zone)
    repeated, skipped = first > second, first < second
    if skipped.any():
        stays = int(skipped.argmax())
        first[stays:] = first[stays]
        repeated[stays:] = False
    later = repeated & _after_fall_back(clock_s, repeated)
    return Placed(clock_s - np.where(later, second, first), repeated, later, skipped)


def _offsets(clock_s: FloatArray, zone: tzinfo) -> tuple[FloatArray, FloatArray]:
    """The offsets [s] before and after a change of the clocks; the same in any other quarter.

    Rows stand mostly in order, so that neighbours share a quarter of an hour and a day.
    """
    quarters = np.floor(clock_s / QUARTER_S)
    starts = np.flatnonzero(np.diff(quarters, prepend=np.nan) != 0)
    known: dict[float, tuple[float, float]] = {}
    steady: dict[float, float | None] = {}
    for quarter in quarters[starts].tolist():
        if quarter not in known:
            day = quarter // QUARTERS_A_DAY
            if day not in steady:
                steady[day] = _steady_offset(zone, day)
            always = steady[day]
            known[quarter] = (
                (always, always)
                if always is not None
                else (_offset_s(zone, quarter, fold=0), _offset_s(zone, quarter, fold=1))
            )
    both = np.array([known[quarter] for quarter in quarters[starts].tolist()])
    lengths = np.diff(np.append(starts, quarters.size))
    return np.repeat(both[:, 0], lengths), np.repeat(both[:, 1], lengths)


def _steady_offset(zone: tzinfo, day: float) -> float | None:
    """The offset [s] of a day on which the clocks are not changed, None for any other day."""
    ends = (day * QUARTERS_A_DAY, (day + 1) * QUARTERS_A_DAY)
    found = {_offset_s(zone, quarter, fold=fold) for quarter in ends for fold in (0, 1)}
    return found.pop() if len(found) == 1 else None


def _offset_s(zone: tzinfo, quarter: float, *, fold: int) -> float:
    moment = _EPOCH_START + timedelta(seconds=float(quarter) * QUARTER_S)
    offset = moment.replace(tzinfo=zone, fold=fold).utcoffset()
    return 0.0 if offset is None else offset.total_seconds()


def _after_fall_back(clock_s: FloatArray, repeated: BoolArray) -> BoolArray:
    """Rows of a repeated hour that stand below the row at which its clock falls back."""
    steps = np.diff(clock_s, prepend=clock_s[:1])
    forward = steps[steps > 0]
    hourly = bool(forward.size) and median(forward) > HOURLY_S
    falls = (steps <= 0) if hourly else (steps < 0)
    inside = repeated & np.concatenate(([False], repeated[:-1]))
    # Count the falls since the repeated hour began: a running count less its value at the start.
    count = np.cumsum(falls & inside)
    starts = repeated & ~inside
    at_start = np.maximum.accumulate(np.where(starts, np.arange(clock_s.size), 0))
    return np.asarray(count > count[at_start], dtype=np.bool_)
