"""Which batches are flawed, as a pattern: how much better one story fits it than luck.

The comparison is of the batches among themselves, given how many of them are flawed. What all of
them have in common, a habit of the brewer, drops out; and however well a story fits, it can
speak no louder than the number of patterns there could have been.
"""

import math

import numpy as np
from numpy.typing import NDArray
from scipy import special  # type: ignore[import-untyped]

from diagnose.history.statistics.columns import Flags

Floats = NDArray[np.float64]
# Log odds by which the story's own rate is sought; beyond them a batch is flawed or it is not.
_FARTHEST = 60.0
_HALVINGS = 60


def pattern_log_ratio(signs: Floats, flawed: Flags, misfit: float) -> float:
    """The log likelihood ratio of just this pattern, the story against luck.

    The story makes a batch flawed with the odds that `signs` give it, times a rate of its own
    by which as many batches are flawed as there are; a share `misfit` of the batches do not
    follow it and are flawed as luck will have it.

    Args:
        signs: shape (batches,), log likelihood ratio of what is known of the batch, the cause
            at work against not; minus infinity where it is impossible.
        flawed: shape (batches,), which are flawed.
        misfit: share of batches that do not follow the story, above 0.

    Returns:
        Natural logarithm; at most that of the number of patterns with so many flawed batches.

    Source: conditional likelihood of case-control studies; Poisson-binomial sum by recursion,
    Chen S. X., Liu J. S. (1997) Statistica Sinica 7:875 (from memory). The share that does not
    follow is this house's.
    """
    few, every = int(flawed.sum()), flawed.size
    if few in (0, every):
        return 0.0
    share = few / every
    chance = (1.0 - misfit) * _follows(signs, few) + misfit * share
    log_bad, log_good = np.log(chance), np.log1p(-chance)
    seen = float(np.where(flawed, log_bad, log_good).sum())
    log_ways = -math.log1p(every) - float(special.betaln(every - few + 1.0, few + 1.0))
    return seen - _log_chance_of_number(chance, few) + log_ways


def _follows(signs: Floats, few: int) -> Floats:
    """The chance that each batch is flawed by the story, so that `few` are to be expected."""
    low, high = -_FARTHEST, _FARTHEST
    for _ in range(_HALVINGS):
        middle = (low + high) / 2.0
        if float(special.expit(signs + middle).sum()) < few:
            low = middle
        else:
            high = middle
    found: Floats = special.expit(signs + high)
    return found


def _log_chance_of_number(chance: Floats, number: int) -> float:
    """Log of the chance that just `number` of the batches are flawed."""
    found = np.zeros(number + 1)
    found[0] = 1.0
    for one in chance:
        found[1:] = found[1:] * (1.0 - one) + found[:-1] * one
        found[0] *= 1.0 - one
    return math.log(float(found[number]))
