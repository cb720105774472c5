"""The times of many rows at once: a clock's figures word by word, each different day only once."""

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import NamedTuple

import numpy as np

from diagnose.batch.probe.abreast import abreast, portions
from diagnose.batch.probe.bytewise import (
    WORD_BYTES,
    Edges,
    View,
    WordArray,
    figures_in,
    figures_of_clock,
    mask_of,
    plain_numbers,
    words_at,
)
from diagnose.batch.probe.civil import Stamps, gather
from diagnose.batch.probe.log import BoolArray, FloatArray, IntArray
from diagnose.batch.probe.stamps import (
    EARLIEST_EPOCH_S,
    LATEST_EPOCH_S,
    NOT_WRITTEN,
    Stamp,
    read_stamp,
)

# How many rows are worked on at once: few enough for the processor's nearest memory.
BLOCK_ROWS = 16_384
# Judgement: a file that writes its times in more shapes than this is read cell by cell.
MOST_SHAPES = 24
_CLOCK = re.compile(
    r"(\d[^:]*?)(?<!\d)(\d{1,2}):\d\d(:\d\d(?:\.(\d{1,7}))?)?(?![\d:.,])([^\d:].*)?",
    re.ASCII,
)
_HALF = re.compile(r"\s*[ap](?:\.?\s?m)?\b", re.IGNORECASE)
_EPOCH = re.compile(r"\d{10}(?:\d{3}|\d{6})?(?:\.\d{1,6})?", re.ASCII)
_EPOCH_DAY = Stamp(1970, 1, 1, NOT_WRITTEN, 0.0, "")


class Shape(NamedTuple):
    """Where the clock stands in a cell: how wide the cell is, and what the clock consists of."""

    width: int
    hour_at: int
    hour_figures: int
    seconds: bool
    fraction: int
    half: bool

    @property
    def tail_at(self) -> int:
        """Where the clock ends."""
        point = 1 + self.fraction if self.fraction else 0
        return self.hour_at + self.hour_figures + (6 if self.seconds else 3) + point


@dataclass(frozen=True, eq=False)
class Ticks:
    """What rows have been read so far: for each its day (-1: not read) and its time of day [s]."""

    seen: View
    which: Edges
    seconds: FloatArray
    between: str
    shapes: list[Shape] = field(default_factory=list)
    days: list[Stamp] = field(default_factory=list)
    known: dict[tuple[Shape, bytes], int] = field(default_factory=dict)


def read_ticks(
    seen: View, starts: Edges, ends: Edges, *, between: str = " "
) -> tuple[Stamps, BoolArray]:
    """The times of a column that writes them regularly, each as `read_stamp` would read it.

    Args:
        seen: the text.
        starts: where each cell begins.
        ends: where each cell ends, 16 characters or more behind the text's beginning and 8 before
            its end.
        between: the sign between a date and a time that stand in neighbouring cells.

    Returns:
        the stamps, and which rows could be read; the others bear no meaning.
    """
    which, seconds = np.full(starts.size, -1, dtype=np.int32), np.zeros(starts.size)
    days: list[Stamp] = []

    def read_portion(portion: tuple[int, int]) -> Ticks:
        ticks = Ticks(seen, which, seconds, between)
        for first in range(*portion, BLOCK_ROWS):
            block = slice(first, min(first + BLOCK_ROWS, portion[1]))
            _read_block(ticks, block, starts[block].astype(np.int64), ends[block].astype(np.int64))
        return ticks

    portions_read = portions(0, starts.size, whole=BLOCK_ROWS)
    every = abreast(read_portion, portions_read, size=starts.size)
    for (first, last), ticks in zip(portions_read, every, strict=True):
        # Each portion has counted its days from nought.
        if days:
            own = which[first:last]
            own[own >= 0] += len(days)
        days += ticks.days
    read = which >= 0
    return gather(days or [_EPOCH_DAY], np.maximum(which, 0), seconds), read


def _read_block(ticks: Ticks, block: slice, starts: IntArray, ends: IntArray) -> None:
    """One block of rows, by the shapes met before and by new ones as they turn up."""
    starts = starts + (ticks.seen.bytes[starts] == ord(" "))
    width = ends - starts
    which, seconds = ticks.which[block], ticks.seconds[block]
    left = np.arange(starts.size)
    for shape in _shapes(ticks, starts, ends, which):
        of_width = width[left] == shape.width
        rows = left if of_width.all() else left[of_width]
        if not rows.size:
            continue
        every = rows.size == starts.size
        days, clock = _by_shape(ticks, shape, starts if every else starts[rows])
        place = slice(None) if every else rows
        which[place], seconds[place] = days, clock
        left = np.flatnonzero(which < 0)
        if not left.size:
            return
    if left.size and _EPOCH.fullmatch(_text(ticks, starts, ends, int(left[0]))):
        which[left], seconds[left] = _since_1970(ticks, starts[left], ends[left])


def _shapes(ticks: Ticks, starts: IntArray, ends: IntArray, which: Edges) -> Iterable[Shape]:
    """The shapes known, then that of the first row which none of them reads, while there is one."""
    yield from ticks.shapes
    while len(ticks.shapes) < MOST_SHAPES:
        left = np.flatnonzero(which < 0)
        if not left.size:
            return
        shape = shape_of(_text(ticks, starts, ends, int(left[0])))
        if shape is None or shape in ticks.shapes:
            return
        ticks.shapes.append(shape)
        yield shape


def shape_of(cell: str) -> Shape | None:
    """The shape of a time that is written in figures, None for any other cell."""
    found = _CLOCK.fullmatch(cell)
    if found is None or not cell.isascii() or read_stamp(cell) is None:
        return None
    _, hour, seconds, fraction, tail = found.groups()
    half = bool(_HALF.match(tail or ""))
    return Shape(
        len(cell), found.start(2), len(hour), seconds is not None, len(fraction or ""), half
    )


def _text(ticks: Ticks, starts: IntArray, ends: IntArray, row: int) -> str:
    said = ticks.seen.data[starts[row] : ends[row]].decode("utf-8", errors="replace")
    return said.replace(ticks.between, " ", 1)


def _by_shape(ticks: Ticks, shape: Shape, starts: IntArray) -> tuple[IntArray, FloatArray]:
    """For each row its day, -1 where the shape does not fit, and its time of day [s]."""
    hour, minute, second, fits = _clock(ticks.seen, shape, starts)
    seconds = second.astype(np.float64)
    if shape.fraction:
        figures, fits_too = _fraction(ticks.seen, shape, starts)
        fits &= fits_too
        scale = 10**shape.fraction
        seconds = (second * np.uint64(scale) + figures) / float(scale)
    fits &= (minute <= 59) & (second <= 60)
    if shape.half:
        fits &= (hour >= 1) & (hour <= 12)
        hour = hour % np.uint64(12)
    else:
        fits &= hour <= 23
    whole = (hour * np.uint64(3600) + minute * np.uint64(60)).astype(np.float64)
    which = _days(ticks, shape, starts)
    if shape.half:
        noons = np.array([day.seconds for day in ticks.days], dtype=np.float64)
        whole += noons[which] if noons.size else 0.0
    return np.where(fits, which, -1).astype(np.int32), whole + seconds


def _clock(
    seen: View, shape: Shape, starts: IntArray
) -> tuple[WordArray, WordArray, WordArray, BoolArray]:
    """Hours, minutes and seconds, and whether there are figures and colons where they belong."""
    words = words_at(seen, starts + (shape.hour_at + shape.hour_figures - 2))
    if shape.hour_figures == 1:
        words = (words & mask_of(1, WORD_BYTES)) | np.uint64(ord("0"))
    if not shape.seconds:
        zero_seconds = int.from_bytes(b":00", "little") << 40
        words = (words & mask_of(0, 5)) | np.uint64(zero_seconds)
    return figures_of_clock(words)


def _fraction(seen: View, shape: Shape, starts: IntArray) -> tuple[WordArray, BoolArray]:
    """The figures behind the seconds' point."""
    at = starts + (shape.tail_at - shape.fraction)
    blank = WORD_BYTES - shape.fraction
    zeros = np.uint64(int.from_bytes(b"0" * blank, "little"))
    words = (words_at(seen, at) << np.uint64(8 * blank)) | zeros
    figures, fits = figures_in(words, None, 0)
    return figures, fits & (seen.bytes[at - 1] == ord("."))


def _days(ticks: Ticks, shape: Shape, starts: IntArray) -> IntArray:
    """The day of each row, -1 where none is read: neighbours that say the same share one."""
    changes = np.zeros(starts.size, dtype=np.bool_)
    changes[0] = True
    for first, last in ((0, shape.hour_at), (shape.tail_at, shape.width)):
        for at in range(first, last, WORD_BYTES):
            words = words_at(ticks.seen, starts + at) & mask_of(0, min(WORD_BYTES, last - at))
            changes[1:] |= words[1:] != words[:-1]
    firsts = np.flatnonzero(changes)
    days = [_day(ticks, shape, int(starts[row])) for row in firsts]
    lengths = np.diff(np.append(firsts, starts.size))
    return np.repeat(np.array(days, dtype=np.int64), lengths)


def _day(ticks: Ticks, shape: Shape, start: int) -> int:
    """The number of the day that one cell says, its clock left out; -1 where it says none."""
    cell = ticks.seen.data[start : start + shape.width]
    front, tail = cell[: shape.hour_at], cell[shape.tail_at :]
    key = (shape, front + b"\n" + tail)
    if key not in ticks.known:
        text = cell.decode("utf-8", errors="replace").replace(ticks.between, " ", 1)
        clock = "12:00:00" if shape.half else "00:00:00"
        day = None
        if shape_of(text) == shape:
            said = text[: shape.hour_at] + clock + text[shape.tail_at :]
            day = read_stamp(said)
        ticks.known[key] = -1 if day is None else len(ticks.days)
        if day is not None:
            ticks.days.append(day)
    return ticks.known[key]


def _since_1970(ticks: Ticks, starts: IntArray, ends: IntArray) -> tuple[IntArray, FloatArray]:
    """Times in seconds, thousandths or millionths since 1970."""
    read = plain_numbers(ticks.seen, starts, ends, mark=".")
    decimals = np.maximum(read.decimals, 0)
    figures = read.width - decimals - (read.decimals >= 0)
    fits = (read.decimals >= -1) & np.isin(figures, (10, 13, 16)) & (read.starts == starts)
    fits &= (figures == 10) | (read.decimals == -1)
    seconds = read.values / 10.0 ** np.where(fits, figures - 10, 0)
    fits &= (seconds >= EARLIEST_EPOCH_S) & (seconds <= LATEST_EPOCH_S)
    if _EPOCH_DAY not in ticks.days:
        ticks.days.append(_EPOCH_DAY)
    return np.where(fits, ticks.days.index(_EPOCH_DAY), -1).astype(np.int32), seconds
