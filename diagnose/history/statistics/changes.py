"""When a series changed its level, and what happened near that time."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from diagnose.history.statistics.ranks import mid_ranks_doubled

Floats = NDArray[np.float64]
DRAWN = 999
_CELLS_AT_ONCE = 2_000_000


@dataclass(frozen=True)
class Change:
    """A change of level before the value at `place`, with the medians or shares around it."""

    place: int
    p: float
    before: float
    after: float


def change_points(
    values: Sequence[float], level: float, figures: Mapping[str, float], seed: int = 0
) -> list[Change]:
    """Where the level of a series changed, in order.

    The greatest standing difference of the ranks before and after any place, held against
    shuffled series; a change found splits the series, and each part is searched again at half
    the level.

    Args:
        values: the series in order; 0 and 1 for clean and flawed.
        level: highest p of a change that is named.
        figures: reads `change_fewest_a_side`.
        seed: of the shuffles.

    Source: Pettitt A. N. (1979) Appl. Stat. 28:126 in its idea (from memory); the scaling and
    the permutation are this house's.
    """
    found = np.asarray(values, dtype=np.float64)
    search = _Search(int(figures["change_fewest_a_side"]), seed)
    places = sorted(search.among(found, 0, level))
    edges = [0, *(place for place, _ in places), found.size]
    levels = [_typical(found[a:b]) for a, b in pairwise(edges)]
    return [
        Change(place, p, before, after)
        for (place, p), (before, after) in zip(places, pairwise(levels), strict=True)
    ]


@dataclass(frozen=True)
class _Search:
    """How changes are looked for: at least `fewest` batches on each side, shuffles by `seed`."""

    fewest: int
    seed: int

    def among(self, values: Floats, offset: int, level: float) -> list[tuple[int, float]]:
        """(place, p) of every change among the values, the first of which is at `offset`."""
        if values.size < 2 * self.fewest:
            return []
        ranks = np.asarray(mid_ranks_doubled(values) - (values.size + 1), dtype=np.float64)
        differences = self._differences(ranks[None, :])[0]
        best = int(np.argmax(differences))
        p = self._as_large(ranks, float(differences[best]), offset)
        if p > level:
            return []
        place = best + self.fewest
        earlier = self.among(values[:place], offset, level / 2.0)
        later = self.among(values[place:], offset + place, level / 2.0)
        return [(offset + place, p), *earlier, *later]

    def _differences(self, ranks: Floats) -> Floats:
        """Scaled difference of the ranks at every place that leaves enough on both sides."""
        every = ranks.shape[1]
        places = np.arange(self.fewest, every - self.fewest + 1)
        sums = np.cumsum(ranks, axis=1)[:, places - 1]
        scaled: Floats = np.abs(sums) / np.sqrt(places * (every - places) / every)
        return scaled

    def _as_large(self, ranks: Floats, seen: float, offset: int) -> float:
        random = np.random.default_rng((self.seed, offset, ranks.size))
        rows = max(1, _CELLS_AT_ONCE // ranks.size)
        as_large = 0
        for start in range(0, DRAWN, rows):
            left = min(rows, DRAWN - start)
            shuffled = random.permuted(np.tile(ranks, (left, 1)), axis=1)
            as_large += int((self._differences(shuffled).max(axis=1) >= seen - 1e-9).sum())
        return (as_large + 1) / (DRAWN + 1)


def _typical(values: Floats) -> float:
    """The median; for clean and flawed, the share that is flawed."""
    yes_no = bool(np.isin(values, (0.0, 1.0)).all())
    return float(values.mean() if yes_no else np.median(values))


def days_near(days: tuple[str | None, str | None], day: str | None, near_days: float) -> bool:
    """Whether a day lies near a change.

    Args:
        days: brew days of the last batch of the old level and of the first of the new one,
            YYYY-MM-DD; one that is not known is near nothing.
        day: the day in question.
        near_days: how long before the last batch of the old level still counts [d].
    """
    if None in (*days, day):
        return False
    after, by, on = (date.fromisoformat(str(one)[:10]) for one in (*days, day))
    return after - timedelta(days=near_days) <= on <= by
