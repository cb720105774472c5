"""Long columns of numbers in few bytes, and back to the very same numbers.

A logger writes 20.1, 20.1, 20.2: whole steps of 0.1 with small differences. Where every value is
exactly such a step, the differences are kept as whole numbers; where not, the values as they are.
Either way like bytes are put together and squeezed by zlib.
"""

import struct
import zlib
from typing import Final

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

# Steps tried, as how many make one unit; 1.8 for readings turned from Fahrenheit into Celsius.
_STEPS: Final = (1.0, 10.0, 100.0, 1000.0, 10_000.0, 1e5, 1e6)
_FAHRENHEIT: Final = (10.0, 100.0, 1.0)
_MOST: Final = 2.0**52
_HEAD: Final = struct.Struct("<ccdI")
_LEVEL: Final = 6
_PLAIN, _STEPPED, _FROM_F = b"p", b"s", b"f"


def pack_floats(values: FloatArray) -> bytes:
    """Numbers to bytes.

    Args:
        values: shape (n,); NaN stands for nothing logged.
    """
    known = ~np.isnan(values)
    for kind, steps in ((_STEPPED, _STEPS), (_FROM_F, _FAHRENHEIT)):
        for step in steps:
            whole = _whole_steps(values[known], kind, step)
            if whole is not None:
                return _packed(kind, step, known, whole)
    return _HEAD.pack(_PLAIN, b"8", 0.0, values.size) + _squeezed(values.astype("<f8"))


def unpack_floats(packed: bytes) -> FloatArray:
    """Bytes of `pack_floats` to the numbers, shape (n,)."""
    kind, width, step, count = _HEAD.unpack_from(packed)
    body = packed[_HEAD.size :]
    if kind == _PLAIN:
        return _spread(body, "<f8").astype(np.float64)
    gaps = int.from_bytes(body[:4], "little")
    known = np.ones(count, dtype=np.bool_)
    if gaps:
        bits = np.frombuffer(zlib.decompress(body[4 : 4 + gaps]), dtype=np.uint8)
        known = np.unpackbits(bits, count=count).astype(np.bool_)
    whole = np.cumsum(_spread(body[4 + gaps :], f"<i{width.decode()}"), dtype=np.int64)
    values = np.full(count, np.nan)
    values[known] = _from_steps(whole, kind, step)
    return values


def pack_ints(values: IntArray) -> bytes:
    """Whole numbers to bytes."""
    return pack_floats(values.astype(np.float64))


def unpack_ints(packed: bytes) -> IntArray:
    """Bytes of `pack_ints` to the numbers, shape (n,)."""
    return unpack_floats(packed).astype(np.int64)


def pack_marks(marks: BoolArray) -> bytes:
    """Yes-or-no marks to bytes."""
    return struct.pack("<I", marks.size) + zlib.compress(np.packbits(marks).tobytes(), _LEVEL)


def unpack_marks(packed: bytes) -> BoolArray:
    """Bytes of `pack_marks` to the marks, shape (n,)."""
    (count,) = struct.unpack_from("<I", packed)
    bits = np.frombuffer(zlib.decompress(packed[4:]), dtype=np.uint8)
    return np.unpackbits(bits, count=count).astype(np.bool_)


def _whole_steps(values: FloatArray, kind: bytes, step: float) -> IntArray | None:
    """The values as whole steps, where that gives back every one of them to the last bit."""
    with np.errstate(over="ignore"):
        scaled = (values * 1.8 + 32.0 if kind == _FROM_F else values) * step
    if not np.all(np.abs(scaled) < _MOST):
        return None
    whole = np.rint(scaled).astype(np.int64)
    back = _from_steps(whole, kind, step)
    # By their bits, as -0.0 equals 0.0.
    same = np.array_equal(back.view(np.int64), np.ascontiguousarray(values).view(np.int64))
    return whole if same else None


def _from_steps(whole: IntArray, kind: bytes, step: float) -> FloatArray:
    values = whole.astype(np.float64) / step
    return (values - 32.0) / 1.8 if kind == _FROM_F else values


def _packed(kind: bytes, step: float, known: BoolArray, whole: IntArray) -> bytes:
    steps = np.diff(whole, prepend=np.int64(0))
    width = _width_of(steps)
    gaps = b"" if known.all() else zlib.compress(np.packbits(known).tobytes(), _LEVEL)
    head = _HEAD.pack(kind, str(width).encode(), step, known.size)
    return head + struct.pack("<I", len(gaps)) + gaps + _squeezed(steps.astype(f"<i{width}"))


def _width_of(steps: IntArray) -> int:
    """How many bytes the largest difference takes; the first stands for the start value."""
    largest = int(np.abs(steps).max(initial=0))
    return next(width for width in (1, 2, 4, 8) if largest < 2 ** (8 * width - 1))


def _squeezed(values: NDArray[np.generic]) -> bytes:
    return zlib.compress(values.view(np.uint8).reshape(-1, values.itemsize).T.tobytes(), _LEVEL)


def _spread(body: bytes, kind: str) -> NDArray[np.generic]:
    flat = np.frombuffer(zlib.decompress(body), dtype=np.uint8)
    width = np.dtype(kind).itemsize
    return np.ascontiguousarray(flat.reshape(width, -1).T).view(kind).reshape(-1)
