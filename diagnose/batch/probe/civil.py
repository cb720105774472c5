"""Many stamps at once: arrays of their parts, and seconds since 1970 by the written clock."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.batch.probe.log import BoolArray, FloatArray, IntArray
from diagnose.batch.probe.stamps import Stamp

FIRST_YEAR, LAST_YEAR = 1970, 2199
NOON_S = 43_200.0


@dataclass(frozen=True, eq=False)
class Stamps:
    """The parts of many stamps, one for each row; month 0 marks a row without a readable time.

    `swappable` rows are written with day and month in an order the file does not tell; their
    parts stand here as if the day came first. `seconds` and `offsets_s` are in [s].
    """

    years: IntArray
    months: IntArray
    days: IntArray
    seconds: FloatArray
    offsets_s: FloatArray
    swappable: BoolArray
    marks: frozenset[str]


def collect(stamps: Sequence[Stamp | None]) -> Stamps:
    """Stamps as arrays; a bare date counts as noon, because nothing better is known."""
    blank = Stamp(FIRST_YEAR, 0, 0, np.nan, np.nan, "")
    rows = [blank if stamp is None else stamp for stamp in stamps]
    seconds = np.array([row.seconds for row in rows], dtype=np.float64)
    return Stamps(
        years=np.array([row.year for row in rows], dtype=np.int64),
        months=np.array([row.month for row in rows], dtype=np.int64),
        days=np.array([row.day for row in rows], dtype=np.int64),
        seconds=np.where(np.isnan(seconds), NOON_S, seconds),
        offsets_s=np.array([row.offset_s for row in rows], dtype=np.float64),
        swappable=np.array([bool(row.mark) for row in rows], dtype=np.bool_),
        marks=frozenset(row.mark for row in rows if row.mark),
    )


def clock_seconds(stamps: Stamps, *, day_first: bool) -> FloatArray:
    """Seconds from 1970 to each stamp by its own clock, without any zone.

    Args:
        stamps: the rows.
        day_first: whether the day stands before the month where the two could change places.

    Returns:
        [s]; NaN where the row has no time or no such date exists.
    """
    swap = stamps.swappable & (not day_first)
    months = np.where(swap, stamps.days, stamps.months)
    days = np.where(swap, stamps.months, stamps.days)
    inside = (stamps.years >= FIRST_YEAR) & (stamps.years <= LAST_YEAR)
    valid = inside & (months >= 1) & (months <= 12) & (days >= 1)
    since_1970 = np.where(valid, (stamps.years - FIRST_YEAR) * 12 + months - 1, 0)
    first = since_1970.astype("datetime64[M]")
    month_start = first.astype("datetime64[D]").astype(np.int64)
    next_start = (first + np.timedelta64(1, "M")).astype("datetime64[D]").astype(np.int64)
    valid &= days <= next_start - month_start
    whole_days = (month_start + days - 1).astype(np.float64)
    return np.where(valid, whole_days * 86_400.0 + stamps.seconds, np.nan)
