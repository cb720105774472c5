"""What moved together: where two factors go hand in hand, no test can tell them apart."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from diagnose.history.statistics.columns import Column, Flags
from diagnose.history.statistics.ranks import mid_ranks_doubled
from diagnose.history.statistics.two_by_two import TwoByTwo, least_fisher

NEARLY = 0.8
_EXACTLY = 1.0 - 1e-9
# Over fewer batches any two factors may seem to go together.
_FEWEST_SHARED = 4


@dataclass(frozen=True)
class Alias:
    """A column that moved with another one.

    `together` is their rank correlation without its sign (for a number against a yes or no,
    scaled so that perfect separation is 1). `differ` counts the batches in which two yes/no
    columns part ways, None where one is a number; `separable` says whether those batches could
    ever tell the two apart. `apart` has what these batches say: flawed and clean with the other
    column ("with") where `lead` runs alone ("without"); None where one runs the other way round.
    """

    column: Column
    together: float
    differ: int | None
    separable: bool
    apart: TwoByTwo | None = None

    @property
    def exactly(self) -> bool:
        """Whether they never part."""
        return self.together >= _EXACTLY


def aliases_of(
    lead: Column, others: Sequence[Column], flawed: Flags, level: float
) -> tuple[Alias, ...]:
    """The columns that moved with `lead`, exactly or nearly; the closest first.

    Args:
        lead: the column.
        others: columns to compare with it.
        flawed: shape (batches,), which batches are flawed.
        level: the level at which two columns would have to be told apart.
    """
    found = []
    for other in others:
        together = moved_together(lead, other)
        if together >= NEARLY and other is not lead and not _said_already(lead, other, others):
            table, same_way = _parting(lead, other, flawed)
            differ = None if table is None else table.flawed + table.clean
            separable = table is None or least_fisher(table) <= level
            apart = table if same_way and differ else None
            known = separable and together < _EXACTLY
            found.append(Alias(other, together, differ, known, apart))
    return tuple(sorted(found, key=lambda one: (-one.together, one.column.name)))


def _said_already(lead: Column, other: Column, others: Sequence[Column]) -> bool:
    """Whether a yes/no column only says the reverse of one that goes the same way as `lead`."""
    if other.word is None:
        return False
    reverse = [
        one
        for one in others
        if one.factor == other.factor
        and one.word not in (None, other.word)
        and not bool((one.values == other.values)[other.logged].any())
    ]
    return any(one is lead for one in reverse) or (bool(reverse) and not _same_way(lead, other))


def _same_way(one: Column, other: Column) -> bool:
    shared = one.logged & other.logged
    first, second = one.values[shared] * 1.0, other.values[shared] * 1.0
    return float((first - first.mean()) @ (second - second.mean())) > 0.0


def moved_together(one: Column, other: Column) -> float:
    """How closely two columns went together over the batches that have both, 0 to 1."""
    shared = one.logged & other.logged
    if int(shared.sum()) < _FEWEST_SHARED:
        return 0.0
    first, second = one.values[shared], other.values[shared]
    if one.word is not None and other.word is not None:
        return _agreed(first.astype(bool), second.astype(bool))
    if (one.word is None) != (other.word is None):
        yes, numbers = (first, second) if one.word is not None else (second, first)
        return _separated(yes.astype(bool), numbers)
    return _correlated(mid_ranks_doubled(first), mid_ranks_doubled(second))


def _agreed(first: Flags, second: Flags) -> float:
    """The correlation of two yes/no columns (phi), without its sign."""
    size, one, other = first.size, int(first.sum()), int(second.sum())
    scale = math.sqrt(one * (size - one) * other * (size - other))
    both = int((first & second).sum())
    return abs(size * both - one * other) / scale if scale else 0.0


def _correlated(first: NDArray[np.int64], second: NDArray[np.int64]) -> float:
    one, other = first - first.mean(), second - second.mean()
    scale = float(np.sqrt((one @ one) * (other @ other)))
    return abs(float(one @ other)) / scale if scale else 0.0


def _separated(yes: Flags, numbers: NDArray[Any]) -> float:
    """How far a yes or no sorts the numbers: 2 |AUC - 1/2|."""
    few, many = int(yes.sum()), int((~yes).sum())
    if not few or not many:
        return 0.0
    total = float(mid_ranks_doubled(numbers)[yes].sum()) / 2.0
    return abs(2.0 * (total - few * (few + 1) / 2.0) / (few * many) - 1.0)


def _parting(one: Column, other: Column, flawed: Flags) -> tuple[TwoByTwo | None, bool]:
    """The batches in which two yes/no columns part, by the other; whether they run alike."""
    if one.word is None or other.word is None:
        return None, False
    shared = one.logged & other.logged
    first, second = one.values.astype(bool), other.values.astype(bool)
    apart = shared & (first != second)
    same_way = int(apart.sum()) <= int(shared.sum()) / 2
    if not same_way:
        apart = shared & ~apart
    with_it, bad = second[apart], flawed[apart]
    table = TwoByTwo(
        int((with_it & bad).sum()),
        int((~with_it & bad).sum()),
        int((with_it & ~bad).sum()),
        int((~with_it & ~bad).sum()),
    )
    return table, same_way
