"""How far apart two beers taste, and how many tasters can tell, each with its interval."""

from dataclasses import dataclass
from math import sqrt

from diagnose.sensory.distributions import (
    beta_quantile,
    chi_square_quantile,
    crossing,
    log_likelihood,
)
from diagnose.sensory.methods import Method
from diagnose.sensory.psychometric import able_from_share, dprime_from_share, slope
from diagnose.sensory.refusing import require_counts, require_share


@dataclass(frozen=True)
class Estimate:
    """A value with its interval; `high` and `value` may be infinite, the error may be missing."""

    value: float
    low: float
    high: float
    level: float
    standard_error: float | None = None


def dprime_estimate(method: Method, right: int, answers: int, level: float = 0.95) -> Estimate:
    """The distance d' with its likelihood interval.

    Args:
        method: the test.
        right: number of right answers.
        answers: number of answers.
        level: confidence of the interval.

    Returns:
        d' [standard deviations]; infinite when every answer was right. The error is None at
        either end, where the usual approximation fails.

    Raises:
        UnusableInput: counts or a level that cannot be.

    Source: binomial likelihood mapped through the psychometric function, as in the sensR
        vignette (seen). Deviation: the best value is kept at or above a guess before the
        interval is drawn, so that fewer right answers than luck gives do not shrink it to 0.
    """
    right = leading_count(method, right, answers)
    share = max(right / answers, method.guess)
    low, high = share_interval(method, right, answers, level)
    inside = method.guess < share < 1.0
    value = dprime_from_share(method, share)
    error = sqrt(share * (1.0 - share) / answers) / slope(method, value) if inside else None
    ends = dprime_from_share(method, low), dprime_from_share(method, high)
    return Estimate(value, *ends, level, error)


def share_interval(
    method: Method, right: int, answers: int, level: float = 0.95
) -> tuple[float, float]:
    """Likelihood interval of the chance of a right answer, bounded below by a guess.

    Args:
        method: the test.
        right: number of right answers.
        answers: number of answers.
        level: confidence of the interval.

    Returns:
        Lower and upper end.
    """
    require_counts(right, answers)
    require_share("level", level)
    best = max(right / answers, method.guess)
    lowest = float(log_likelihood(right, answers, best)) - chi_square_quantile(level) / 2.0

    def above(share: float) -> float:
        return float(log_likelihood(right, answers, share)) - lowest

    low = crossing(above, method.guess, best)
    high = 1.0 if best >= 1.0 else crossing(lambda share: -above(share), best, 1.0)
    return low, high


def able_estimate(method: Method, right: int, answers: int, level: float = 0.95) -> Estimate:
    """The proportion of tasters who can tell, with its exact interval.

    Args:
        method: the test.
        right: number of right answers.
        answers: number of answers.
        level: confidence of the interval.

    Returns:
        Proportion, 0 to 1.

    Raises:
        UnusableInput: counts or a level that cannot be.

    Source: Clopper and Pearson's interval, clipped at a guess (conservative). Deviation: the
        upper end is never that of fewer right answers than luck gives.
    """
    right = leading_count(method, right, answers)
    require_share("level", level)
    tail, wrong = (1.0 - level) / 2.0, answers - right
    low = beta_quantile(tail, right, wrong + 1) if right else 0.0
    at_least_luck = max(float(right), method.guess * answers)
    high = beta_quantile(1.0 - tail, at_least_luck + 1, answers - at_least_luck) if wrong else 1.0
    share = right / answers
    inside = method.guess < share < 1.0
    error = sqrt(share * (1.0 - share) / answers) / (1.0 - method.guess) if inside else None
    ends = able_from_share(method, low), able_from_share(method, high)
    return Estimate(able_from_share(method, share), *ends, level, error)


def leading_count(method: Method, right: int, answers: int) -> int:
    """The count that a method judges by: in a two-sided test, that of the beer in front."""
    require_counts(right, answers)
    return max(right, answers - right) if method.two_sided else right
