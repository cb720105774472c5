"""How many right answers are too many for luck: exact binomial limits and p-values."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.sensory.distributions import at_least
from diagnose.sensory.methods import Method
from diagnose.sensory.refusing import require_alpha, require_answers, require_counts

# A chance that equals alpha but for rounding still counts as within it.
_ROUNDING = 1e-12


@dataclass(frozen=True)
class Critical:
    """The fewest right answers that show a difference, and the true risk of a false alarm.

    `least_right` is None when not even a perfect score would do. In a two-sided test it
    counts the answers for whichever beer was named more often.
    """

    answers: int
    alpha: float
    least_right: int | None
    exact_alpha: float


def critical(method: Method, answers: int, alpha: float) -> Critical:
    """The fewest right answers that show a difference.

    Args:
        method: the test.
        answers: number of answers.
        alpha: highest risk of a false alarm.

    Returns:
        The limit with its exact risk.

    Raises:
        UnusableInput: no tasters, or an alpha that decides nothing.

    Source: exact binomial tail; the rule of ISO 4120 and ISO 10399 (tables seen in part,
        recomputed).
    """
    require_answers(answers)
    require_alpha(alpha)
    least = int(least_right(method, np.array([answers]), alpha)[0])
    if least > answers:
        return Critical(answers, alpha, None, 0.0)
    sides = 2.0 if method.two_sided else 1.0
    return Critical(answers, alpha, least, sides * float(at_least(least, answers, method.guess)))


def least_right(method: Method, answers: NDArray[np.int_], alpha: float) -> NDArray[np.int_]:
    """The limits for many panel sizes at once; answers + 1 where there is none.

    Args:
        method: the test.
        answers: numbers of answers.
        alpha: highest risk of a false alarm.

    Returns:
        Fewest right answers, of the shape of `answers`.
    """
    share = alpha / 2.0 if method.two_sided else alpha
    low, high = np.zeros_like(answers), answers + 1
    while np.any(high - low > 1):
        middle = (low + high) // 2
        rare = at_least(middle, answers, method.guess) <= share * (1.0 + _ROUNDING)
        low, high = np.where(rare, low, middle), np.where(rare, middle, high)
    return high


def exact_p(method: Method, right: int, answers: int) -> float:
    """The chance that luck alone does as well or better.

    Args:
        method: the test.
        right: number of right answers; in a two-sided test, answers for one of the beers.
        answers: number of answers.

    Returns:
        p-value.

    Raises:
        UnusableInput: counts that cannot be.
    """
    require_counts(right, answers)
    if method.two_sided:
        most = max(right, answers - right)
        return min(1.0, 2.0 * float(at_least(most, answers, method.guess)))
    return float(at_least(right, answers, method.guess))
