"""How large a difference is, with its interval."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy import special  # type: ignore[import-untyped]

from diagnose.history.statistics.two_by_two import TwoByTwo

# From this many batches of a kind on their differences are taken over evenly spaced quantiles.
_MOST_VALUES = 1_500


@dataclass(frozen=True)
class Effect:
    """A difference, flawed less clean, and the interval it may well lie in."""

    value: float
    low: float
    high: float


def share_difference(table: TwoByTwo, level: float) -> Effect:
    """By how much more often the flawed batches have it than the clean ones.

    Args:
        table: the counts, with at least one flawed and one clean batch.
        level: chance that the interval misses.

    Source: Newcombe R. G. (1998) Stat. Med. 17:873, method 10, hybrid score (from memory).
    """
    flawed = table.flawed_with / table.flawed
    clean = table.clean_with / table.clean
    flawed_low, flawed_high = _wilson(table.flawed_with, table.flawed, level)
    clean_low, clean_high = _wilson(table.clean_with, table.clean, level)
    value = flawed - clean
    low = value - math.hypot(flawed - flawed_low, clean_high - clean)
    high = value + math.hypot(flawed_high - flawed, clean - clean_low)
    return Effect(value, max(-1.0, low), min(1.0, high))


def _wilson(count: int, of: int, level: float) -> tuple[float, float]:
    z = _normal(level)
    middle = (count + z * z / 2.0) / (of + z * z)
    half = z * math.sqrt(count * (of - count) / of + z * z / 4.0) / (of + z * z)
    return middle - half, middle + half


def shift(flawed: Sequence[float], clean: Sequence[float], level: float) -> Effect:
    """By how much the flawed batches lie above the clean ones, in the measure's own unit.

    The median of all differences between a flawed and a clean batch, with the interval that
    belongs to the rank test (exact without ties, a normal approximation for many batches).

    Source: Hodges J. L., Lehmann E. L. (1963) Ann. Math. Statist. 34:598 (from memory).
    """
    one, other = _thinned(flawed), _thinned(clean)
    differences = np.sort((one[:, None] - other[None, :]).ravel())
    value = float(np.median(differences))
    outside = _outside(len(flawed), len(clean), level)
    outside = int(outside * differences.size / (len(flawed) * len(clean)))
    if outside < 1:
        return Effect(value, -math.inf, math.inf)
    return Effect(value, float(differences[outside - 1]), float(differences[-outside]))


def _thinned(values: Sequence[float]) -> NDArray[np.float64]:
    found = np.asarray(values, dtype=np.float64)
    if found.size <= _MOST_VALUES:
        return found
    places = (np.arange(_MOST_VALUES) + 0.5) / _MOST_VALUES
    return np.asarray(np.quantile(found, places), dtype=np.float64)


def _outside(few: int, many: int, level: float) -> int:
    """How many differences on each side the interval may leave out; 0 if it has no end."""
    if few * many <= 2_500:
        chances = _untied(few, many)
        return int((np.cumsum(chances) <= level / 2.0).sum())
    spread = math.sqrt(few * many * (few + many + 1) / 12.0)
    return max(0, math.floor(few * many / 2.0 - _normal(level) * spread))


def _untied(few: int, many: int) -> NDArray[np.float64]:
    """The chance of every U from 0 where no values are equal."""
    chances = np.zeros((few + 1, few * many + 1))
    chances[0, 0] = 1.0
    for value in range(few + many):
        for chosen in range(min(few, value + 1), 0, -1):
            above = value - (chosen - 1)
            if above <= many:
                chances[chosen, above:] += chances[chosen - 1, : few * many + 1 - above]
    found: NDArray[np.float64] = chances[few] / chances[few].sum()
    return found


def _normal(level: float) -> float:
    return float(-special.ndtri(level / 2.0))
