"""The rows of a long table, left in its text: where each cell stands, and the odd rows apart."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, overload

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from diagnose.batch.probe.abreast import abreast, portions
from diagnose.batch.probe.bytewise import WORD_BYTES, Edges, View, view
from diagnose.batch.probe.civil import Stamps
from diagnose.batch.probe.cutting import LONGEST_CELL_LINES, Row, cut_all
from diagnose.batch.probe.log import BoolArray, IntArray
from diagnose.batch.probe.stamps import stamp_of
from diagnose.batch.probe.ticks import read_ticks

# How many bytes are looked through at once: few enough for the processor's nearest memory.
BLOCK_BYTES = 1 << 17
# Words of eight bytes are read up to this far from a cell; rows nearer to an end are odd ones.
MARGIN_BYTES = 16
# Judgement: with more odd rows than this, the whole file is better read line by line.
MOST_ODD = 0.2


class Body(NamedTuple):
    """Where the rows of a table begin: the byte, the line, the sign between cells, the width.

    `time_at` is the column of the times, or those of the dates and the times, side by side.
    """

    first_byte: int
    first_line: int
    delimiter: str
    width: int
    time_at: tuple[int, ...]


@dataclass(frozen=True, eq=False)
class PackedColumn(Sequence[str]):
    """The cells of one column, each made into text when it is asked for.

    `starts` and `ends` are where they stand in the text; `others` are those of odd rows, by row.
    """

    seen: View
    starts: Edges
    ends: Edges
    others: Mapping[int, str]

    def __len__(self) -> int:
        return int(self.starts.size)

    @overload
    def __getitem__(self, at: int) -> str: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[str]: ...
    def __getitem__(self, at: int | slice) -> str | Sequence[str]:
        if isinstance(at, slice):
            return [self[row] for row in range(*at.indices(len(self)))]
        if at in self.others:
            return self.others[at]
        return self.seen.data[self.starts[at] : self.ends[at]].decode("utf-8").strip()

    def __iter__(self) -> Iterator[str]:
        return (self[row] for row in range(len(self)))


@dataclass(frozen=True, eq=False)
class PackedRows:
    """The rows of a table in its text.

    `edges` are, for each row, the places of the signs before, between and behind its cells; those
    of odd rows mean nothing, their cells are in `odd`. `stamps` are the times of all rows.
    """

    seen: View
    edges: Edges
    lines: IntArray
    odd: Mapping[int, list[str]]
    stamps: Stamps

    @property
    def width(self) -> int:
        """How many columns the widest row has."""
        regular = int(self.edges.shape[1]) - 1
        return max(regular, max(map(len, self.odd.values()), default=0))

    def column(self, at: int) -> PackedColumn:
        """The cells of one column; a short row counts as empty there."""
        others = {row: cells[at] if at < len(cells) else "" for row, cells in self.odd.items()}
        if at >= self.edges.shape[1] - 1:
            nothing = np.zeros(len(self.lines), dtype=np.int32)
            return PackedColumn(self.seen, nothing, nothing, others)
        return PackedColumn(self.seen, self.edges[:, at] + 1, self.edges[:, at + 1], others)


@dataclass(frozen=True, eq=False)
class Regular:
    """The regular rows of a table, their lines and times, and the lines that are not among them."""

    seen: View
    edges: Edges
    lines: IntArray
    stamps: Stamps
    odd: tuple[Row, ...]


def find_regular(text: bytes, body: Body) -> Regular | None:
    """The regular rows of a long table, and the others cut one by one.

    A regular row has as many cells as usual, no quotation mark, and a time in figures; it is read
    to the same numbers as if it were cut by itself.

    Returns:
        None where the text is short, or too many of its rows are odd.
    """
    if len(text) - body.first_byte < 2 * MARGIN_BYTES:
        return None
    seen = view(text)
    edges, stops, regular = _regular_lines(seen, body)
    if not edges.size:
        return None
    starts, ends = edges[:, body.time_at[0]] + 1, edges[:, body.time_at[-1] + 1]
    stamps, timed = read_ticks(seen, starts, ends, between=body.delimiter)
    if not timed.all():
        regular[np.flatnonzero(regular)[~timed]] = False
        edges, stamps = edges[timed], stamps.only(timed)
    if np.count_nonzero(~regular) > MOST_ODD * regular.size:
        return None
    lines = np.flatnonzero(regular) + body.first_line
    return Regular(seen, edges, lines, stamps, tuple(_odd_rows(text, body, stops, regular)))


def merge(regular: Regular, odd: Sequence[Row], time_at: tuple[int, ...]) -> PackedRows:
    """Regular and odd rows together, by line."""
    if not odd:
        return PackedRows(regular.seen, regular.edges, regular.lines, {}, regular.stamps)
    odd_lines = np.array([line for line, _ in odd], dtype=np.int64)
    before = np.searchsorted(regular.lines, odd_lines)
    lines = np.insert(regular.lines, before, odd_lines)
    edges = np.insert(regular.edges, before, 0, axis=0)
    cells = {int(at) + number: odd[number][1] for number, at in enumerate(before)}
    stamps = regular.stamps.with_more([stamp_of(row, time_at) for _, row in odd], before)
    return PackedRows(regular.seen, edges, lines, cells, stamps)


def _regular_lines(seen: View, body: Body) -> tuple[Edges, Edges, BoolArray]:
    """The edges of every line with the usual number of cells; all ends of lines; which fit."""
    signs, newlines = _signs(seen, body)
    first, stops, regular = _lines(seen, signs, (body.width, newlines))
    regular &= signs[first] + 1 >= MARGIN_BYTES
    regular &= stops < len(seen.data)
    if seen.data.find(b'"', body.first_byte) >= 0:
        regular &= ~_quoted(seen, body, stops)
    count = np.count_nonzero(regular)
    if regular[:count].all():
        every = sliding_window_view(signs, body.width + 1)[:: body.width]
        return _clear_of_the_end(seen, body, every[:count], regular), stops, regular
    places = np.arange(signs.size, dtype=np.int32)[first][regular]
    edges = signs[places[:, None] + np.arange(body.width + 1, dtype=np.int32)]
    return _clear_of_the_end(seen, body, edges, regular), stops, regular


def _clear_of_the_end(seen: View, body: Body, edges: Edges, regular: BoolArray) -> Edges:
    """The edges without those of the last rows whose times stand too near to the end of the text.

    These rows are marked as not regular.
    """
    near = edges[-WORD_BYTES:, body.time_at[-1] + 1] + WORD_BYTES > len(seen.data)
    kept = edges.shape[0] - np.count_nonzero(near)
    if kept < edges.shape[0]:
        regular[np.flatnonzero(regular)[kept:]] = False
    return edges[:kept]


def _lines(
    seen: View, signs: Edges, counts: tuple[int, int]
) -> tuple[slice | Edges, Edges, BoolArray]:
    """Which sign stands before each line, where the line ends, and whether it has `width` cells."""
    width, newlines = counts
    if (signs.size - 1) % width == 0:
        stops = signs[width::width]
        # The end of a text without a newline ends its last line all the same.
        if newlines == np.count_nonzero(seen.bytes[stops[:-1]] == ord("\n")) + 1:
            return slice(0, -1, width), stops, np.ones(stops.size, dtype=np.bool_)
    last = np.append(seen.bytes[signs[1:-1]] == ord("\n"), True)
    ends = (np.flatnonzero(last) + 1).astype(np.int32)
    first = np.concatenate((ends[:1] * 0, ends[:-1]))
    return first, signs[ends], ends - first == width


def _signs(seen: View, body: Body) -> tuple[Edges, int]:
    """Where a cell ends, after the place before the first one; and how many lines end."""

    def find(portion: tuple[int, int]) -> list[tuple[Edges, int]]:
        blocks = range(*portion, BLOCK_BYTES)
        return [_signs_between(seen, body, at, min(at + BLOCK_BYTES, portion[1])) for at in blocks]

    every = portions(body.first_byte, seen.bytes.size, whole=BLOCK_BYTES)
    found = [part for parts in abreast(find, every, size=seen.bytes.size) for part in parts]
    before = np.array([body.first_byte - 1], dtype=np.int32)
    unended = [] if seen.bytes[-1] == ord("\n") else [seen.bytes.size]
    places = [before, *(places for places, _ in found), np.array(unended, dtype=np.int32)]
    return np.concatenate(places), sum(newlines for _, newlines in found) + len(unended)


def _signs_between(seen: View, body: Body, start: int, stop: int) -> tuple[Edges, int]:
    """Where a cell ends within one block, and how many lines do: all at once for lines alike."""
    block = seen.bytes[start:stop]
    ends, signs = block == ord("\n"), block == ord(body.delimiter)
    newlines = int(np.count_nonzero(ends))
    length = seen.data.find(b"\n", start, stop) + 1
    length = seen.data.find(b"\n", length, stop) + 1 - length if length else 0
    if 0 < 2 * length <= block.size:
        of_line = np.flatnonzero(ends[:length] | signs[:length])
        columns = [block[at::length] for at in of_line]
        every = sum(column.size for column in columns) == newlines + np.count_nonzero(signs)
        if every and all((column == column[0]).all() for column in columns):
            lines = np.arange(start, stop, length, dtype=np.int32)
            found = (lines[:, None] + of_line.astype(np.int32)).reshape(-1)
            return found[: np.searchsorted(found, stop)], newlines
    return (np.flatnonzero(ends | signs) + start).astype(np.int32), newlines


def _quoted(seen: View, body: Body, stops: Edges) -> BoolArray:
    """Lines with a quotation mark, and those that may belong to one left open above them."""
    marks = np.flatnonzero(seen.bytes[body.first_byte :] == ord('"')) + body.first_byte
    counts = np.bincount(np.searchsorted(stops, marks), minlength=stops.size)[: stops.size]
    result = counts > 0
    left_open = np.flatnonzero(counts % 2)
    for further in range(1, LONGEST_CELL_LINES):
        below = left_open + further
        result[below[below < stops.size]] = True
    return np.asarray(result, dtype=np.bool_)


def _odd_rows(text: bytes, body: Body, stops: Edges, regular: BoolArray) -> Iterator[Row]:
    """The lines that are not regular, cut; neighbours together, as a cell may run over several."""
    odd = np.flatnonzero(~regular)
    if not odd.size:
        return
    groups = np.split(odd, np.flatnonzero(np.diff(odd) > 1) + 1)
    for group in groups:
        first, last = int(group[0]), int(group[-1])
        start = body.first_byte if first == 0 else int(stops[first - 1]) + 1
        lines = text[start : int(stops[last])].decode("utf-8").split("\n")
        for line, cells in cut_all(lines, body.delimiter):
            yield line + first + body.first_line - 1, cells
