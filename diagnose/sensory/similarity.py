"""Whether a tasting rules a difference out: similarity, or equivalence."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.sensory.distributions import Numbers, at_most
from diagnose.sensory.methods import Method
from diagnose.sensory.psychometric import share_from_able
from diagnose.sensory.refusing import (
    require_alpha,
    require_answers,
    require_counts,
    require_share,
)
from diagnose.sensory.sizes import first_and_last_tooth

_ROUNDING = 1e-12


@dataclass(frozen=True)
class Similarity:
    """The most right answers that still rule a difference out.

    `limit_able` is the smallest share of tasters able to tell that would matter. `most_right`
    is None when not even a panel without a right answer would rule it out.
    """

    answers: int
    limit_able: float
    alpha: float
    most_right: int | None
    exact_alpha: float


def similarity_limit(method: Method, answers: int, limit_able: float, alpha: float) -> Similarity:
    """The most right answers that rule out a difference which matters.

    Args:
        method: the test.
        answers: number of answers.
        limit_able: share of tasters able to tell that would matter, 0 to 1.
        alpha: highest risk of calling beers alike that differ so much.

    Returns:
        The limit with its exact risk.

    Raises:
        UnusableInput: a panel, share or risk that cannot be.

    Source: exact binomial test of non-superiority, as in the sensR vignette (seen).
    """
    require_answers(answers)
    require_share("limit", limit_able)
    require_alpha(alpha)
    share = share_from_able(method, limit_able)
    most = int(_most_right(method, np.array([answers]), share, alpha)[0])
    if most < _fewest(method, answers):
        return Similarity(answers, limit_able, alpha, None, 0.0)
    return Similarity(answers, limit_able, alpha, most, _chance(method, most, answers, share))


def similarity_p(method: Method, right: int, answers: int, share: float) -> float:
    """The chance of so few right answers if the difference were as large as it may be.

    Args:
        method: the test.
        right: number of right answers.
        answers: number of answers.
        share: chance of a right answer at the difference that matters.

    Returns:
        p-value of the test for similarity.

    Raises:
        UnusableInput: counts that cannot be.
    """
    require_counts(right, answers)
    most = max(right, answers - right) if method.two_sided else right
    return _chance(method, most, answers, share)


def _chance(method: Method, most: int, answers: int, share: float) -> float:
    below = float(at_most(most, answers, share))
    if not method.two_sided:
        return below
    return below - float(at_most(answers - most - 1, answers, share))


def _fewest(method: Method, answers: int) -> int:
    return -(-answers // 2) if method.two_sided else 0


def _most_right(
    method: Method, answers: NDArray[np.int_], share: float, alpha: float
) -> NDArray[np.int_]:
    """The largest counts within alpha, one below the fewest possible where there is none."""
    least = -(-answers // 2) if method.two_sided else np.zeros_like(answers)
    low, high = least - 1, answers
    while np.any(high - low > 1):
        middle = (low + high) // 2
        chance = at_most(middle, answers, share)
        if method.two_sided:
            chance = chance - at_most(answers - middle - 1, answers, share)
        rare = chance <= alpha * (1.0 + _ROUNDING)
        low, high = np.where(rare, middle, low), np.where(rare, high, middle)
    return low


def chances_to_rule_out(
    method: Method, answers: NDArray[np.int_], limits: tuple[float, float], alpha: float
) -> Numbers:
    """The chance that panels of given sizes rule a difference out.

    Args:
        method: the test.
        answers: numbers of answers.
        limits: share of tasters able to tell that would matter, and the true share.
        alpha: highest risk of calling beers alike that differ so much.

    Returns:
        Power, of the shape of `answers`.
    """
    matters, truth = (share_from_able(method, able) for able in limits)
    most = _most_right(method, answers, matters, alpha)
    chance = at_most(most, answers, truth)
    if method.two_sided:
        chance = chance - at_most(answers - most - 1, answers, truth)
    return np.asarray(np.maximum(chance, 0.0))


def similarity_sizes(
    method: Method, limits: tuple[float, float], *, alpha: float, power: float
) -> tuple[int | None, int | None]:
    """The first and the safe number of answers for ruling a difference out.

    Args:
        method: the test.
        limits: share of tasters able to tell that would matter, and the true share.
        alpha: highest risk of calling beers alike that differ so much.
        power: wanted chance of ruling it out.

    Returns:
        Fewest answers that reach the power, and the number from which all larger ones do.
    """

    def reaches(answers: NDArray[np.int_]) -> NDArray[np.bool_]:
        return np.asarray(chances_to_rule_out(method, answers, limits, alpha) >= power)

    return first_and_last_tooth(reaches)
