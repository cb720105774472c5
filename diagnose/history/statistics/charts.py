"""Charts of a series of batches: single values, slow drifts, and how often the fault comes."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


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


def individuals(values: Sequence[float], figures: Mapping[str, float]) -> Individuals:
    """The chart of single values; a run chart about the median where they are few.

    Args:
        values: the values in order, at least one.
        figures: reads `chart_d2_pair`, `chart_d3_pair`, `chart_limit_spreads`,
            `chart_fewest_batches`, `chart_run_one_side`.

    Source: Shewhart charts as in ISO 7870-2 (from memory).
    """
    found = np.asarray(values, dtype=np.float64)
    ranges = np.abs(np.diff(found))
    d2, d3, times = (figures[key] for key in _LIMITS)
    spread = float(ranges.mean()) / d2 if ranges.size else 0.0
    if found.size < figures["chart_fewest_batches"]:
        centre, wide, range_high = float(np.median(found)), math.inf, math.inf
    else:
        centre, wide = float(found.mean()), times * spread
        range_high = spread * (d2 + times * d3)
    return Individuals(
        centre=centre,
        spread=spread,
        low=centre - wide,
        high=centre + wide,
        range_high=range_high,
        outside=_places(np.abs(found - centre) > wide),
        jumps=tuple(place + 1 for place in _places(ranges > range_high)),
        one_sided=_one_sided(found, centre, int(figures["chart_run_one_side"])),
    )


_LIMITS = ("chart_d2_pair", "chart_d3_pair", "chart_limit_spreads")


def _places(marked: NDArray[np.bool_]) -> tuple[int, ...]:
    return tuple(int(place) for place in np.flatnonzero(marked))


def _one_sided(values: NDArray[np.float64], centre: float, long: int) -> tuple[int, ...]:
    found, run, side = [], 0, 0.0
    for place, value in enumerate(values):
        here = float(np.sign(value - centre))
        run = run + 1 if here == side and here else int(here != 0.0)
        side = here
        if run == long:
            found.append(place)
    return tuple(found)


@dataclass(frozen=True)
class Cusum:
    """Sums of what lies above and below the target; `signal` is the first place beyond h."""

    above: tuple[float, ...]
    below: tuple[float, ...]
    signal: int | None


def cusum(scaled: Sequence[float], figures: Mapping[str, float], head_start: float = 0.0) -> Cusum:
    """The CUSUM of values given as (value - target) / spread.

    Args:
        scaled: the values in order.
        figures: reads `cusum_slack` and `cusum_limit`.
        head_start: where both sums begin.

    Source: Page E. S. (1954) Biometrika 41:100; head start of Lucas and Crosier (1982)
    Technometrics 24:199 (both from memory).
    """
    slack, limit = figures["cusum_slack"], figures["cusum_limit"]
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


def fault_cusum(flawed: Sequence[bool], figures: Mapping[str, float]) -> FaultCusum:
    """The CUSUM of a series of flawed and clean batches.

    Args:
        flawed: one for each batch, in brewing order.
        figures: reads `fault_rate_usual`, the share that is put up with, `fault_rate_common`,
            the share that should be noticed soon, and `fault_cusum_limit`.

    Source: Reynolds M. R., Stoumbos Z. G. (1999) J. Qual. Technol. 31:87 (from memory).
    """
    usual, common = figures["fault_rate_usual"], figures["fault_rate_common"]
    bad, good = math.log(common / usual), math.log((1.0 - common) / (1.0 - usual))
    sums, total, signal = [], 0.0, None
    for place, one in enumerate(flawed):
        total = max(0.0, total + (bad if one else good))
        sums.append(total)
        if signal is None and total >= figures["fault_cusum_limit"]:
            signal = place
    return FaultCusum(tuple(sums), signal)
