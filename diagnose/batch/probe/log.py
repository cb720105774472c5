"""What was read from a logger's export, what was understood on the way, and why."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
BoolArray = NDArray[np.bool_]
IntArray = NDArray[np.int64]

Role = Literal[
    "beer_temperature",
    "air_temperature",
    "set_point",
    "gravity",
    "pressure",
    "battery",
    "comment",
    "unknown",
]
Flag = Literal["missing", "sentinel", "spike", "stuck", "repeated_hour", "out_of_range"]
Level = Literal["info", "warn", "ask"]

TEMPERATURES: tuple[Role, ...] = ("beer_temperature", "air_temperature", "set_point")
# A repeated hour puts a doubt on the clock, not on the reading, and the doubt is settled by the
# order of the rows: those values stay usable. Leaving them out would cut a two-hour hole.
SPOILING: tuple[Flag, ...] = ("missing", "sentinel", "spike", "stuck", "out_of_range")


@dataclass(frozen=True)
class Understood:
    """One fact about the file: what it was taken for, why, and whether that is beyond doubt."""

    what: str
    why: str
    certain: bool


@dataclass(frozen=True)
class Layout:
    """How the file is laid out.

    `delimiter` is comma, semicolon, tab or pipe; `decimal_sign` point or comma; `header_line` and
    `preamble_lines` are counts written as text ("none" when absent); `date_order` is "day first",
    "month first", "year first" or "seconds since 1970".
    """

    delimiter: Understood
    decimal_sign: Understood
    encoding: Understood
    header_line: Understood
    preamble_lines: Understood
    date_order: Understood


@dataclass(frozen=True)
class Column:
    """One column beside the time: its header, the part it plays, and its unit as written."""

    header: str
    role: Role
    unit: str
    why: str


@dataclass(frozen=True, eq=False)
class Series:
    """The readings of one column, one for each time of the log; flagged ones are kept.

    `values` are in `unit` (C, SG, bar, or the unit the file gives a battery); NaN means that
    nothing was logged. `flags` has one array for each kind of `Flag`.
    """

    unit: str
    values: FloatArray
    flags: Mapping[Flag, BoolArray]


@dataclass(frozen=True)
class Note:
    """Something to know (info), look at (warn) or answer (ask); line 0 is the whole file."""

    level: Level
    text: str
    line: int = 0


@dataclass(frozen=True, eq=False)
class ProbeLog:
    """A logger's export as read: sorted times [s since 1970, UTC], one series for each part played.

    `lines` gives the line of the file that each time was read from; `profile` is the saved profile
    whose answers it was read with, "" without one.
    """

    name: str
    sha256: str
    layout: Layout
    columns: tuple[Column, ...]
    zone: Understood
    times_utc_s: FloatArray
    lines: IntArray
    series: Mapping[Role, Series]
    notes: tuple[Note, ...]
    profile: str = ""


def counted(number: int, noun: str) -> str:
    """A number with its noun: 1 row, 2 rows."""
    return f"{number} {noun}" if number == 1 else f"{number} {noun}s"


def good(series: Series) -> FloatArray:
    """The values that measures may use, in the series' unit.

    Returns:
        an array as long as the series, NaN wherever a reading is missing or spoilt by a flag; the
        series' own where none is.
    """
    spoilt = [series.flags[kind] for kind in SPOILING if series.flags[kind].any()]
    if not spoilt:
        return series.values
    values = series.values.copy()
    for flag in spoilt:
        values[flag] = np.nan
    return values
