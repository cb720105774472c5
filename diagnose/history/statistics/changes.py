"""When a series changed its level, and what happened near that time."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from diagnose.history.statistics.ranks import mid_ranks_doubled

Floats = NDArray[np.float64]
# A level is known from no fewer batches than this on each side. Practice.
FEWEST_ON_A_SIDE = 4
DRAWN = 999
# Something done a few weeks before the first changed batch may be behind it. Practice.
NEAR_DAYS = 45
_CELLS_AT_ONCE = 2_000_000


@dataclass(frozen=True)
class Change:
    """A change of level before the value at `place`, with the medians or shares around it."""

    place: int
    p: float
    before: float
    after: float


def change_points(values: Sequence[float], level: float, seed: int = 0) -> list[Change]:
    """Where the level of a series changed, in order.

    The greatest standing difference of the ranks before and after any place, held against
    shuffled series; a change found splits the series, and each part is searched again at half
    the level.

    Args:
        values: the series in order; 0 and 1 for clean and flawed.
        level: highest p of a change that is named.
        seed: of the shuffles.

    Source: Pettitt A. N. (1979) Appl. Stat. 28:126 in its idea (from memory); the scaling and
    the permutation are this house's.
    """
    found = np.asarray(values, dtype=np.float64)
    places = sorted(_searched(found, 0, level, seed))
    edges = [0, *(place for place, _ in places), found.size]
    levels = [_typical(found[a:b]) for a, b in pairwise(edges)]
    return [
        Change(place, p, before, after)
        for (place, p), (before, after) in zip(places, pairwise(levels), strict=True)
    ]


def _searched(values: Floats, offset: int, level: float, seed: int) -> list[tuple[int, float]]:
    if values.size < 2 * FEWEST_ON_A_SIDE:
        return []
    ranks = np.asarray(mid_ranks_doubled(values) - (values.size + 1), dtype=np.float64)
    differences = _differences(ranks[None, :])[0]
    best = int(np.argmax(differences))
    p = _as_large(ranks, float(differences[best]), seed)
    if p > level:
        return []
    place = best + FEWEST_ON_A_SIDE
    earlier = _searched(values[:place], offset, level / 2.0, seed + 1)
    later = _searched(values[place:], offset + place, level / 2.0, seed + 2)
    return [(offset + place, p), *earlier, *later]


def _typical(values: Floats) -> float:
    """The median; for clean and flawed, the share that is flawed."""
    yes_no = bool(np.isin(values, (0.0, 1.0)).all())
    return float(values.mean() if yes_no else np.median(values))


def _differences(ranks: Floats) -> Floats:
    """Scaled difference of the ranks at every place that leaves enough on both sides."""
    every = ranks.shape[1]
    places = np.arange(FEWEST_ON_A_SIDE, every - FEWEST_ON_A_SIDE + 1)
    sums = np.cumsum(ranks, axis=1)[:, places - 1]
    scaled: Floats = np.abs(sums) / np.sqrt(places * (every - places) / every)
    return scaled


def _as_large(ranks: Floats, seen: float, seed: int) -> float:
    random = np.random.default_rng(seed)
    rows = max(1, _CELLS_AT_ONCE // ranks.size)
    as_large = 0
    for start in range(0, DRAWN, rows):
        left = min(rows, DRAWN - start)
        shuffled = random.permuted(np.tile(ranks, (left, 1)), axis=1)
        as_large += int((_differences(shuffled).max(axis=1) >= seen - 1e-9).sum())
    return (as_large + 1) / (DRAWN + 1)


def days_near(change_after: str | None, change_by: str | None, day: str | None) -> bool:
    """Whether a day lies near a change: from some weeks before the last batch of the old level
    to the first of the new one. Days are YYYY-MM-DD; one that is not known is near nothing.
    """
    if None in (change_after, change_by, day):
        return False
    after, by, on = (date.fromisoformat(str(one)[:10]) for one in (change_after, change_by, day))
    return after - timedelta(days=NEAR_DAYS) <= on <= by
