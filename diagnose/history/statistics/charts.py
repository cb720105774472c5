"""Charts of a series of batches: single values, slow drifts, and how often the fault comes."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

# Mean and spread of the range of two values from a normal distribution of spread 1.
D2 = 2.0 / math.sqrt(math.pi)
D3 = math.sqrt(2.0 - 4.0 / math.pi)
# With fewer batches the limits are too rough to hold anything against them. Practice.
FEWEST_FOR_LIMITS = 10
SLACK_K = 0.5
SIGNAL_H = 5.0
ONE_SIDE_RUN = 8


@dataclass(frozen=True)
class Individuals:
    """A chart of single values and moving ranges, all in the unit of the values.

    `outside` are the places of values beyond the limits, `jumps` of moving ranges beyond
    theirs (the later of the two), `one_sided` where a run of eight on one side is complete.
    `low` and `high` are infinite where there are too few values for limits.
    """

    centre: float
    spread: float
    low: float
    high: float
    range_high: float
    outside: tuple[int, ...]
    jumps: tuple[int, ...]
    one_sided: tuple[int, ...]


def individuals(values: Sequence[float]) -> Individuals:
    """The chart of single values; a run chart about the median where they are few.

    Source: Shewhart charts as in ISO 7870-2 (from memory); constants derived.
    """
    found = np.asarray(values, dtype=np.float64)
    ranges = np.abs(np.diff(found))
    spread = float(ranges.mean()) / D2 if ranges.size else 0.0
    if found.size < FEWEST_FOR_LIMITS:
        centre, wide, range_high = float(np.median(found)), math.inf, math.inf
    else:
        centre, wide = float(found.mean()), 3.0 * spread
        range_high = spread * (D2 + 3.0 * D3)
    return Individuals(
        centre=centre,
        spread=spread,
        low=centre - wide,
        high=centre + wide,
        range_high=range_high,
        outside=_places(np.abs(found - centre) > wide),
        jumps=tuple(place + 1 for place in _places(ranges > range_high)),
        one_sided=_one_sided(found, centre),
    )


def _places(marked: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> tuple[int, ...]:
    return tuple(int(place) for place in np.flatnonzero(marked))


def _one_sided(
    values: np.ndarray[tuple[int, ...], np.dtype[np.float64]], centre: float
) -> tuple[int, ...]:
    found, run, side = [], 0, 0.0
    for place, value in enumerate(values):
        here = float(np.sign(value - centre))
        run = run + 1 if here == side and here else int(here != 0.0)
        side = here
        if run == ONE_SIDE_RUN:
            found.append(place)
    return tuple(found)


@dataclass(frozen=True)
class Cusum:
    """Sums of what lies above and below the target; `signal` is the first place beyond h."""

    above: tuple[float, ...]
    below: tuple[float, ...]
    signal: int | None


def cusum(
    scaled: Sequence[float],
    *,
    slack: float = SLACK_K,
    limit: float = SIGNAL_H,
    head_start: float = 0.0,
) -> Cusum:
    """The CUSUM of values given as (value - target) / spread.

    Source: Page E. S. (1954) Biometrika 41:100; head start of Lucas and Crosier (1982)
    Technometrics 24:199 (both from memory).
    """
    above, below, high, low, signal = [], [], head_start, head_start, None
    for place, value in enumerate(scaled):
        high = max(0.0, high + float(value) - slack)
        low = max(0.0, low - float(value) - slack)
        above.append(high)
        below.append(low)
        if signal is None and max(high, low) > limit:
            signal = place
    return Cusum(tuple(above), tuple(below), signal)


@dataclass(frozen=True)
class FaultCusum:
    """The sum of the evidence that the fault has become common, and its first signal."""

    sums: tuple[float, ...]
    signal: int | None


def fault_cusum(
    flawed: Sequence[bool], usual: float = 0.1, common: float = 0.4, limit: float = 3.0
) -> FaultCusum:
    """The CUSUM of a series of flawed and clean batches.

    Args:
        flawed: one for each batch, in brewing order.
        usual: share of flawed batches that is put up with.
        common: share that should be noticed soon.
        limit: signal from this sum on; 3 gives a false signal in about one of twelve series of
            twenty batches.

    Source: Reynolds M. R., Stoumbos Z. G. (1999) J. Qual. Technol. 31:87 (from memory).
    """
    bad, good = math.log(common / usual), math.log((1.0 - common) / (1.0 - usual))
    sums, total, signal = [], 0.0, None
    for place, one in enumerate(flawed):
        total = max(0.0, total + (bad if one else good))
        sums.append(total)
        if signal is None and total >= limit:
            signal = place
    return FaultCusum(tuple(sums), signal)
