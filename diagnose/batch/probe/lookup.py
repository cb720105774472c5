"""Few values sought among many: looked for only where the span of the many has room for them."""

from collections.abc import Sequence

import numpy as np

from diagnose.batch.probe.log import BoolArray, FloatArray


def extremes(values: FloatArray) -> tuple[float, float]:
    """The lowest and the highest value, NaN left out; inf and -inf where there is none."""
    lowest = np.fmin.reduce(values, initial=np.inf)
    return float(lowest), float(np.fmax.reduce(values, initial=-np.inf))


def one_of(
    values: FloatArray,
    sought: Sequence[float],
    *,
    within: float = 0.0,
    span: tuple[float, float] | None = None,
) -> BoolArray:
    """Whether each value is one of those sought.

    Args:
        values: the many; NaN is never one.
        sought: the few.
        within: how far off a value may be.
        span: the lowest and the highest value, where they are known.
    """
    lowest, highest = extremes(values) if span is None else span
    result = np.zeros(values.size, dtype=np.bool_)
    for one in sought:
        if lowest - within <= one <= highest + within:
            result |= np.abs(values - one) <= within if within else values == one
    return result
