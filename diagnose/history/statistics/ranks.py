"""A measure against flawed or clean: the exact rank test and the permutation of means."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain, combinations
from typing import Any

import numpy as np
from numpy.typing import NDArray
from scipy import special  # type: ignore[import-untyped]

Floats = NDArray[np.float64]
# Up to this many relabelings are counted out; beyond, as many as `DRAWN` are drawn.
COUNTED_OUT = 200_000
DRAWN = 9_999
# Additions of the exact rank distribution; beyond, the normal approximation is good.
_MOST_ADDITIONS = 2e7
# Sums that differ by rounding only count as equal.
_ROUNDING = 1e-9


@dataclass(frozen=True)
class RankTest:
    """U of the flawed batches, the two-sided p, and whether it is exact."""

    u: float
    p: float
    exact: bool


def mann_whitney(flawed: Sequence[float], clean: Sequence[float]) -> RankTest:
    """The Mann-Whitney test, two-sided; ties take their mid-ranks, and it stays exact.

    Returns:
        U: over all pairs, how often the flawed value is the greater (a tie counts a half). The
        p is exact unless there are too many batches to count.

    Source: Mann H. B., Whitney D. R. (1947) Ann. Math. Statist. 18:50 (from memory).
    """
    values = np.concatenate([np.asarray(flawed, float), np.asarray(clean, float)])
    doubled = mid_ranks_doubled(values)
    few = len(flawed)
    total = int(doubled[:few].sum())
    u = total / 2.0 - few * (few + 1) / 2.0
    if _additions(doubled, few) > _MOST_ADDITIONS:
        return RankTest(u, _nearly(u, doubled, few), exact=False)
    chances = _sums(doubled, few)
    low, high = float(chances[: total + 1].sum()), float(chances[total:].sum())
    return RankTest(u, min(1.0, 2.0 * min(low, high)), exact=True)


def mid_ranks_doubled(values: NDArray[Any]) -> NDArray[np.int64]:
    """Twice the mid-rank of each value, so that it is whole; equal values share theirs."""
    _, place, count = np.unique(values, return_inverse=True, return_counts=True)
    last = np.cumsum(count)
    return (2 * last - count + 1)[place].astype(np.int64)


def _additions(doubled: NDArray[np.int64], few: int) -> float:
    return float(doubled.size) * few * float(np.sort(doubled)[-few:].sum()) if few else 0.0


def _nearly(u: float, doubled: NDArray[np.int64], few: int) -> float:
    """The two-sided p by the normal distribution, with ties and continuity accounted for."""
    every = doubled.size
    _, ties = np.unique(doubled, return_counts=True)
    tied = float((ties.astype(float) ** 3 - ties).sum()) / (every * (every - 1.0))
    pairs = few * (every - few)
    spread = math.sqrt(max(0.0, pairs / 12.0 * (every + 1.0 - tied)))
    away = max(0.0, abs(u - pairs / 2.0) - 0.5)
    return min(1.0, 2.0 * float(special.ndtr(-away / spread))) if spread else 1.0


def _sums(doubled: NDArray[np.int64], few: int) -> Floats:
    """The chance of every sum of `few` of the doubled ranks, all choices equally likely."""
    most = int(np.sort(doubled)[-few:].sum()) if few else 0
    chances = np.zeros((few + 1, most + 1))
    chances[0, 0] = 1.0
    for rank in np.sort(doubled):
        step = int(rank)
        for chosen in range(few, 0, -1):
            chances[chosen, step:] += chances[chosen - 1, : most + 1 - step]
    found: Floats = chances[few] / chances[few].sum()
    return found


def permutation_of_means(flawed: Sequence[float], clean: Sequence[float], seed: int = 0) -> float:
    """The permutation test of the difference of means, two-sided.

    Every relabeling is counted where there are few; else `DRAWN` are drawn by the seed, and
    the p is (as far out + 1) / (drawn + 1).

    Source: Pitman E. J. G. (1937) J. R. Stat. Soc. Suppl. 4:119 (from memory).
    """
    values = np.concatenate([np.asarray(flawed, float), np.asarray(clean, float)])
    few, every = len(flawed), values.size
    centred = values - values.mean()
    seen = abs(float(centred[:few].sum())) - _ROUNDING * float(np.abs(centred).max(initial=0.0))
    number = math.comb(every, few)
    if number <= COUNTED_OUT:
        picks = np.fromiter(chain.from_iterable(combinations(range(every), few)), np.int64)
        sums = centred[picks.reshape(number, few)].sum(axis=1)
        return float((np.abs(sums) >= seen).mean())
    random = np.random.default_rng(seed)
    shuffled = random.permuted(np.tile(centred, (DRAWN, 1)), axis=1)
    as_far = int((np.abs(shuffled[:, :few].sum(axis=1)) >= seen).sum())
    return (as_far + 1) / (DRAWN + 1)
