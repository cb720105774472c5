"""Eight figures at a time: short runs of digits read as 64-bit words, for files of many rows."""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from diagnose.batch.probe.log import BoolArray, FloatArray, IntArray

ByteArray = NDArray[np.uint8]
WordArray = NDArray[np.uint64]
# Places in a text; files are far shorter than these can count.
Edges = NDArray[np.int32]

WORD_BYTES = 8
_EVERY = 0xFFFF_FFFF_FFFF_FFFF
_ZEROS = np.uint64(0x3030_3030_3030_3030)
_HIGH_BITS = np.uint64(0x8080_8080_8080_8080)
# Added to a byte, these carry into its high bit unless the byte is a figure, or nothing at all.
_NO_FIGURE, _NOT_NOTHING = 0x76, 0x7F
# Whole numbers up to here are exact in double precision.
EXACT = np.uint64(2**53)


class View(NamedTuple):
    """One text seen byte by byte, and as the eight bytes from each place on."""

    data: bytes
    bytes: ByteArray
    words: WordArray


class Plain(NamedTuple):
    """Cells read as plain numbers: [value], decimals (-1: no mark; -2: no plain number), width.

    `width` is the number of characters without the sign; `starts` is where they begin.
    """

    values: FloatArray
    decimals: NDArray[np.int8]
    width: IntArray
    starts: IntArray


def view(data: bytes) -> View:
    """A text of eight bytes or more, to be read at any place but its last eight bytes."""
    words = np.ndarray((len(data) - WORD_BYTES + 1,), dtype="<u8", buffer=data, strides=(1,))
    return View(data, np.frombuffer(data, dtype=np.uint8), words)


def words_at(seen: View, places: IntArray) -> WordArray:
    """The eight bytes from each place on; places evenly far apart need not be looked up one by one.

    Args:
        seen: the text.
        places: at least eight bytes before its end.
    """
    count = places.size
    if count > 1:
        first, last, step = int(places[0]), int(places[-1]), int(places[1] - places[0])
        even = step > 0 and last - first == step * (count - 1)
        if even and (places[1:] - places[:-1] == step).all():
            return seen.words[first : last + 1 : step].copy()
    return seen.words[places]


def mask_of(first: int, last: int) -> np.uint64:
    """A word whose bytes `first` to `last` (counted from 0, `last` left out) are all ones."""
    return np.uint64(((1 << 8 * last) - 1) & ~((1 << 8 * first) - 1) & _EVERY)


def figures_in(words: WordArray, mark_at: int | None, mark: int) -> tuple[WordArray, BoolArray]:
    """The whole number that eight characters make when the mark among them is left out.

    Args:
        words: eight characters each, the first in the lowest byte.
        mark_at: the place of the decimal sign, 0 to 7; None where there is none.
        mark: the decimal sign, as a byte.

    Returns:
        the numbers, and whether all characters but the mark are figures.
    """
    pattern, carry = int(_ZEROS), _NO_FIGURE * 0x0101_0101_0101_0101
    if mark_at is not None:
        pattern ^= (0x30 ^ mark) << 8 * mark_at
        carry += (_NOT_NOTHING - _NO_FIGURE) << 8 * mark_at
    found = words ^ np.uint64(pattern)
    fits = ((found + np.uint64(carry)) | found) & _HIGH_BITS == 0
    if mark_at is not None:
        before = (found & mask_of(0, mark_at)) << np.uint64(8)
        found = (found & mask_of(mark_at + 1, WORD_BYTES)) | before
    return _number(found), fits


def _number(found: WordArray) -> WordArray:
    """The number of eight figures of one byte each: pairs, then fours, then all eight."""
    pairs = (found * np.uint64(10) + (found >> np.uint64(8))) & np.uint64(0x00FF_00FF_00FF_00FF)
    fours = (pairs * np.uint64(100) + (pairs >> np.uint64(16))) & np.uint64(0x0000_FFFF_0000_FFFF)
    return (fours * np.uint64(10_000) + (fours >> np.uint64(32))) & np.uint64(0xFFFF_FFFF)


def figures_of_clock(words: WordArray) -> tuple[WordArray, WordArray, WordArray, BoolArray]:
    """The hours, minutes and seconds of words such as 12:00:00, and whether they are such words."""
    pattern = int.from_bytes(b"00:00:00", "little")
    carry = int.from_bytes(
        bytes(_NOT_NOTHING if sign == ord(":") else _NO_FIGURE for sign in b"00:00:00"), "little"
    )
    found = words ^ np.uint64(pattern)
    fits = ((found + np.uint64(carry)) | found) & _HIGH_BITS == 0
    pairs = found * np.uint64(10) + (found >> np.uint64(8))
    hour, minute, second = ((pairs >> np.uint64(shift)) & np.uint64(0xFF) for shift in (0, 24, 48))
    return hour, minute, second, fits


def right_aligned(seen: View, ends: IntArray, width: IntArray) -> WordArray:
    """The last eight characters of each cell, zeros standing where the cell is shorter."""
    blank = (np.clip(WORD_BYTES - width, 0, WORD_BYTES) * 8).astype(np.uint64)
    words = words_at(seen, ends - WORD_BYTES)
    return ((words >> blank) << blank) | (_ZEROS >> (np.uint64(64) - blank))


def plain_numbers(seen: View, starts: IntArray, ends: IntArray, *, mark: str) -> Plain:
    """Cells such as 19.5, -127 or .250 as numbers, exactly as `float` reads them.

    Args:
        seen: the text.
        starts: where each cell begins; eight characters or more stand before its end.
        ends: where each cell ends.
        mark: the decimal sign.
    """
    alike = _alike(seen, starts, ends, ord(mark))
    if alike is not None:
        return alike
    starts = starts + (seen.bytes[starts] == ord(" "))
    first = seen.bytes[starts]
    minus = first == ord("-")
    starts = starts + (minus | (first == ord("+")))
    width = ends - starts
    values = np.full(starts.size, np.nan)
    decimals = np.full(starts.size, -2, dtype=np.int8)
    low = right_aligned(seen, ends, width)
    _short(low, width, ord(mark), (values, decimals))
    _long(seen, low, (ends, width, ord(mark)), (values, decimals))
    np.negative(values, out=values, where=minus)
    return Plain(values, decimals, width, starts)


def _alike(seen: View, starts: IntArray, ends: IntArray, mark: int) -> Plain | None:
    """Cells of one width up to eight, all figures but for a mark in one place; else None.

    Most columns are such cells over long stretches, and these need no picking out.
    """
    width = ends - starts
    if not width.size or not 1 <= width[0] <= WORD_BYTES or (width != width[0]).any():
        return None
    words = words_at(seen, ends - WORD_BYTES)
    blank = 8 * (WORD_BYTES - int(width[0]))
    if blank:
        words &= np.uint64(_EVERY << blank & _EVERY)
        words |= _ZEROS >> np.uint64(64 - blank)
    places = _commonest_first(words[:1], mark)[0]
    whole, fits = figures_in(words, 7 - places if places >= 1 else None, mark)
    if not fits.all():
        return None
    values = whole.astype(np.float64)
    if places >= 1:
        values /= 10.0**places
    return Plain(values, np.full(width.size, places, dtype=np.int8), width, starts)


Found = tuple[FloatArray, NDArray[np.int8]]


def _short(words: WordArray, width: IntArray, mark: int, into: Found) -> None:
    """Cells of up to eight characters, the commonest number of decimals first."""
    values, decimals = into
    left = np.flatnonzero((width >= 1) & (width <= WORD_BYTES))
    for places in _commonest_first(words[left[:1]], mark):
        if not left.size:
            return
        # Most columns have one number of decimals throughout: no need then to pick cells out.
        every = left.size == width.size
        some = words if every else words[left]
        whole, fits = figures_in(some, 7 - places if places >= 1 else None, mark)
        read = whole / 10.0**places if places >= 1 else whole.astype(np.float64)
        if every and fits.all():
            values[:], decimals[:] = read, places
            return
        values[left[fits]], decimals[left[fits]] = read[fits], places
        left = left[~fits]


def _commonest_first(word: WordArray, mark: int) -> list[int]:
    """Numbers of decimals to try, beginning with that of one cell; -1 is a cell without a mark."""
    tries = [-1, *range(1, WORD_BYTES)]
    if word.size:
        places = bytes(word.astype("<u8").tobytes())[::-1].find(mark)
        if places >= 1:
            tries.remove(places)
            tries.insert(0, places)
    return tries


def _long(seen: View, low: WordArray, cells: tuple[IntArray, IntArray, int], into: Found) -> None:
    """Cells of nine to sixteen characters, whose mark stands in the front or the back half."""
    (ends, width, mark), (values, decimals) = cells, into
    left = np.flatnonzero((width > WORD_BYTES) & (width <= 2 * WORD_BYTES) & (ends >= 16))
    if not left.size:
        return
    high = right_aligned(seen, ends[left] - WORD_BYTES, width[left] - WORD_BYTES)
    low = low[left]
    for places in (-1, *range(1, 2 * WORD_BYTES)):
        behind = 7 - places if 1 <= places < WORD_BYTES else None
        front = 15 - places if places >= WORD_BYTES else None
        last, fits = figures_in(low, behind, mark)
        first, fits_too = figures_in(high, front, mark)
        whole = first * np.uint64(10_000_000 if behind is not None else 100_000_000) + last
        worth = whole / 10.0 ** max(places, 0)
        fits &= fits_too & (whole < EXACT)
        found = left[fits]
        values[found] = worth[fits]
        decimals[found] = places
        left, high, low = left[~fits], high[~fits], low[~fits]
        if not left.size:
            return
