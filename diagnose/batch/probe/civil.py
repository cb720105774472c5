"""Many stamps at once: arrays of their parts, and seconds since 1970 by the written clock."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

import numpy as np

from diagnose.batch.probe.log import BoolArray, FloatArray, IntArray
from diagnose.batch.probe.stamps import NOT_WRITTEN, Stamp

FIRST_YEAR, LAST_YEAR = 1970, 2199
NOON_S = 43_200.0
# A row without a readable time.
BLANK = Stamp(FIRST_YEAR, 0, 0, NOT_WRITTEN, NOT_WRITTEN, "")

Array = TypeVar("Array", IntArray, FloatArray, BoolArray)


@dataclass(frozen=True, eq=False)
class Stamps:
    """The parts of many stamps: different days once each, and which of them each row bears.

    `years`, `months`, `days`, `offsets_s` from UTC [s] and `swappable` belong to the days; month 0
    marks rows without a readable time. `swappable` days are written with day and month in an order
    the file does not tell; their parts stand here as if the day came first. `which` and `seconds`
    of the day [s] belong to the rows.
    """

    years: IntArray
    months: IntArray
    days: IntArray
    offsets_s: FloatArray
    swappable: BoolArray
    marks: frozenset[str]
    which: IntArray
    seconds: FloatArray

    def of_rows(self, of_days: Array) -> Array:
        """For each row, what is said of its day."""
        taken: Array = of_days[self.which]
        return taken

    def only(self, rows: BoolArray) -> "Stamps":
        """The stamps of some rows."""
        return replace(self, which=self.which[rows], seconds=self.seconds[rows])

    def with_more(self, more: Sequence[Stamp | None], before: IntArray) -> "Stamps":
        """These stamps and more, each put in before the row named."""
        own, others = self, collect(more)
        return Stamps(
            years=np.concatenate([own.years, others.years]),
            months=np.concatenate([own.months, others.months]),
            days=np.concatenate([own.days, others.days]),
            offsets_s=np.concatenate([own.offsets_s, others.offsets_s]),
            swappable=np.concatenate([own.swappable, others.swappable]),
            marks=own.marks | others.marks,
            which=np.insert(own.which, before, others.which + own.years.size),
            seconds=np.insert(own.seconds, before, others.seconds),
        )


def collect(stamps: Sequence[Stamp | None]) -> Stamps:
    """Stamps as arrays; a bare date counts as noon, because nothing better is known."""
    rows = [BLANK if stamp is None else stamp for stamp in stamps]
    seconds = np.array([row.seconds for row in rows], dtype=np.float64)
    return gather(rows, np.arange(len(rows)), seconds)


def gather(days: Sequence[Stamp], which: IntArray, seconds: FloatArray) -> Stamps:
    """Stamps of which many share a day.

    Args:
        days: the days; their own seconds do not count.
        which: the day of each row.
        seconds: the time of day of each row [s]; NaN is noon.
    """
    return Stamps(
        years=np.array([day.year for day in days], dtype=np.int64),
        months=np.array([day.month for day in days], dtype=np.int64),
        days=np.array([day.day for day in days], dtype=np.int64),
        offsets_s=np.array([day.offset_s for day in days], dtype=np.float64),
        swappable=np.array([bool(day.mark) for day in days], dtype=np.bool_),
        marks=frozenset(day.mark for day in days if day.mark),
        which=which,
        seconds=np.where(np.isnan(seconds), NOON_S, seconds),
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
    return stamps.of_rows(np.where(valid, whole_days * 86_400.0, np.nan)) + stamps.seconds
