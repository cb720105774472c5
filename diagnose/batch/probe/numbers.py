"""The cells of one column as numbers: plain ones in bulk, all others one by one."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.batch.probe.bytewise import Plain, plain_numbers
from diagnose.batch.probe.cells import (
    LARGEST,
    Marks,
    Number,
    as_number,
    is_missing,
    marks_of,
    value_of,
)
from diagnose.batch.probe.log import FloatArray, IntArray
from diagnose.batch.probe.packed import PackedColumn
from diagnose.batch.probe.ticks import BLOCK_ROWS

# A number such as 1.052 or 12,500 may also be one in thousands: three figures behind the mark, and
# up to three before it.
_THREE, _WIDEST_BEFORE = 3, 7
# No number of so few characters is above the largest.
_NEVER_BEYOND = 12


@dataclass(frozen=True, eq=False)
class Numbers:
    """One column's cells as numbers.

    `plain` are the values of cells such as -19.5, NaN in all other rows; `plain_count` is how many
    there are, `plain_marks` what their decimal signs say, and `plain_sign` is the sign they were
    read with. `others` are the cells that say something else, by row.
    """

    plain: FloatArray
    plain_count: int
    plain_marks: Marks
    plain_sign: str
    others: Mapping[int, str]

    @property
    def marks(self) -> Marks:
        """What all decimal signs of the column say."""
        return self.plain_marks + marks_of(self._other_numbers())

    @property
    def count(self) -> int:
        """How many cells hold a number."""
        return self.plain_count + sum(1 for _ in self._other_numbers())

    @property
    def said(self) -> int:
        """How many cells say anything but that nothing was logged."""
        return self.plain_count + sum(not is_missing(cell) for cell in self.others.values())

    @property
    def units(self) -> frozenset[str]:
        """The units behind the numbers."""
        return frozenset(number.unit for _, number in self._other_numbers() if number.unit)

    @property
    def fits_any_sign(self) -> bool:
        """Whether the plain cells read the same whatever the decimal sign is."""
        marks = self.plain_marks
        return not (marks.points or marks.commas or marks.doubtful)

    def values(self, sign: str) -> FloatArray:
        """The numbers under a decimal sign, NaN where there is none."""
        if not self.others:
            return self.plain
        values = self.plain.copy()
        for row, number in self._other_numbers():
            value = value_of(number, sign)
            values[row] = np.nan if value is None else value
        return values

    def unreadable(self, values: FloatArray) -> list[int]:
        """The rows whose cell says something that is no number."""
        return sorted(
            row
            for row, cell in self.others.items()
            if np.isnan(values[row]) and not is_missing(cell)
        )

    def _other_numbers(self) -> Iterator[tuple[int, Number]]:
        for row, cell in self.others.items():
            number = as_number(cell)
            if number is not None:
                yield row, number


def numbers_in(cells: Sequence[str], sign: str = "") -> Numbers:
    """The cells of a column as numbers.

    Args:
        cells: one for each row.
        sign: the decimal sign to read plain cells with; without one, that of the column's marks.
    """
    if not isinstance(cells, PackedColumn):
        others = {row: cell for row, cell in enumerate(cells) if cell}
        return Numbers(np.full(len(cells), np.nan), 0, Marks(), sign, others)
    numbers = _packed_numbers(cells, sign or ".")
    own, _ = numbers.marks.sign
    if not sign and own == ",":
        numbers = _packed_numbers(cells, ",")
    return numbers


def one_by_one(cells: Sequence[str]) -> Numbers:
    """The cells of a column as numbers, none of them in bulk."""
    return numbers_in(list(cells))


def _packed_numbers(cells: PackedColumn, sign: str) -> Numbers:
    values = np.empty(len(cells))
    others: dict[int, str] = {}
    marks, count = Marks(), 0
    every_odd = np.array(sorted(cells.others), dtype=np.int64)
    for first in range(0, len(cells), BLOCK_ROWS):
        block = slice(first, first + BLOCK_ROWS)
        starts, ends = cells.starts[block].astype(np.int64), cells.ends[block].astype(np.int64)
        odd = every_odd[slice(*np.searchsorted(every_odd, (first, first + BLOCK_ROWS)))] - first
        # An odd row stands nowhere in the text: it is read as an empty cell, then by itself.
        starts[odd] = ends[odd] = len(cells.seen.data) // 2
        read = _within_reach(plain_numbers(cells.seen, starts, ends, mark=sign))
        values[block] = read.values
        plain = read.decimals > -2
        count += int(np.count_nonzero(plain))
        marks += _marks(read, cells.seen.bytes, first, sign)
        if not plain.all():
            for row in np.flatnonzero(~plain & (ends > starts)):
                others[first + int(row)] = cells[first + int(row)]
    others |= {row: cell for row, cell in cells.others.items() if cell}
    return Numbers(values, count, marks, sign, {row: others[row] for row in sorted(others)})


def _within_reach(read: Plain) -> Plain:
    """The numbers without those that no logger means; these are left to be read one by one."""
    if read.width.max(initial=0) <= _NEVER_BEYOND:
        return read
    beyond = np.abs(read.values) > LARGEST
    if not beyond.any():
        return read
    values = np.where(beyond, np.nan, read.values)
    return read._replace(values=values, decimals=np.where(beyond, np.int8(-2), read.decimals))


def _marks(read: Plain, data: NDArray[np.uint8], first: int, sign: str) -> Marks:
    """What the decimal signs of one block of plain cells say."""
    marked = int(np.count_nonzero(read.decimals >= 1))
    three = np.flatnonzero((read.decimals == _THREE) & (read.width <= _WIDEST_BEFORE))
    three = three[read.width[three] > _THREE + 1]
    doubtful: IntArray = three[data[read.starts[three]] != ord("0")]
    sure = marked - doubtful.size
    points, commas = (sure, 0) if sign == "." else (0, sure)
    if not doubtful.size:
        return Marks(points, commas)
    return Marks(points, commas, int(doubtful.size), sign, first + int(doubtful[-1]))
