"""How much a tasting speaks for a difference: the Bayes factor, with its prior stated."""

from dataclasses import dataclass
from itertools import count
from math import exp, log

import numpy as np

from diagnose.sensory.distributions import Numbers, log_likelihood, normal_density, quadrature
from diagnose.sensory.methods import Method
from diagnose.sensory.psychometric import share_right
from diagnose.sensory.refusing import require_counts

# Spread of the half-normal prior on d' [standard deviations]: a choice of ours, with its median
# near 1. Conclusions are shown at one narrower and one wider as well.
PRIOR_SPREAD = 1.5
OTHER_SPREADS = (1.0, 2.0)
# Strong evidence in the manner of Jeffreys, from memory.
STRONG_FACTOR = 10.0
_REACH = 9.0
# A factor beyond this is no longer a number for a computer, nor news to anybody.
_LARGEST_LOG = 700.0


@dataclass(frozen=True)
class BayesReading:
    """The factor in favour of a difference, and d' as the prior and the answers leave it."""

    prior_spread: float
    factor: float
    dprime_mean: float
    dprime_low: float
    dprime_high: float


def bayes_reading(
    method: Method, right: int, answers: int, prior_spread: float = PRIOR_SPREAD
) -> BayesReading:
    """The Bayes factor for a difference against none.

    Args:
        method: the test.
        right: number of right answers.
        answers: number of answers.
        prior_spread: spread of the half-normal prior on d' [standard deviations].

    Returns:
        Factor, with mean and 95 % interval of d' given that there is a difference.

    Raises:
        UnusableInput: counts that cannot be.

    Source: definition of the factor; the prior is a choice, not a published value. In a
        two-sided test either beer may be the stronger, with equal chances.
    """
    require_counts(right, answers)
    points, weights = quadrature(0.0, _REACH * prior_spread, 8)
    prior = 2.0 * weights * normal_density(points / prior_spread) / prior_spread
    ratios = _log_ratio(method, right, answers, share_right(method, points))
    masses = prior * np.exp(ratios - ratios.max())
    total = float(masses.sum())
    factor = exp(min(float(ratios.max()) + log(total), _LARGEST_LOG))
    below = np.cumsum(masses) / total
    low, high = (float(np.interp(level, below, points)) for level in (0.025, 0.975))
    return BayesReading(prior_spread, factor, float(points @ masses) / total, low, high)


def bayes_factor_at(method: Method, right: int, answers: int, dprime: float) -> float:
    """The factor for one given d' against no difference; arguments as for `bayes_reading`."""
    require_counts(right, answers)
    ratio = float(_log_ratio(method, right, answers, share_right(method, dprime)))
    return exp(min(ratio, _LARGEST_LOG))


def fewest_answers(method: Method) -> int:
    """The fewest answers that are strong evidence for a difference where all of them are right."""
    return next(n for n in count(1) if bayes_reading(method, n, n).factor >= STRONG_FACTOR)


def _log_ratio(method: Method, right: int, answers: int, shares: Numbers) -> Numbers:
    """Log likelihood of shares of right answers over that of luck."""
    luck = float(log_likelihood(right, answers, method.guess))
    ratio = log_likelihood(right, answers, shares) - luck
    if method.two_sided:
        other = log_likelihood(answers - right, answers, shares) - luck
        ratio = np.logaddexp(ratio, other) - log(2.0)
    return np.asarray(ratio)
