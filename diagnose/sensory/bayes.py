"""How much a tasting speaks for a difference: the Bayes factor, with its prior stated."""

from dataclasses import dataclass

import numpy as np

from diagnose.sensory.distributions import Numbers, log_likelihood, normal_density, quadrature
from diagnose.sensory.methods import Method
from diagnose.sensory.psychometric import share_right
from diagnose.sensory.refusing import require_counts

# Spread of the half-normal prior on d' [standard deviations]: a choice of ours, with its median
# near 1. Conclusions are shown at one narrower and one wider as well.
PRIOR_SPREAD = 1.5
OTHER_SPREADS = (1.0, 2.0)
_REACH = 9.0


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
    points, weights = quadrature(0.0, _REACH * prior_spread, 400)
    prior = 2.0 * weights * normal_density(points / prior_spread) / prior_spread
    masses = prior * _against_luck(method, right, answers, share_right(method, points))
    factor = float(masses.sum())
    below = np.cumsum(masses) / factor
    low, high = (float(np.interp(level, below, points)) for level in (0.025, 0.975))
    return BayesReading(prior_spread, factor, float(points @ masses) / factor, low, high)


def bayes_factor_at(method: Method, right: int, answers: int, dprime: float) -> float:
    """The factor for one given d' against no difference; arguments as for `bayes_reading`."""
    require_counts(right, answers)
    return float(_against_luck(method, right, answers, share_right(method, dprime)))


def _against_luck(method: Method, right: int, answers: int, shares: Numbers) -> Numbers:
    luck = float(log_likelihood(right, answers, method.guess))
    ratio = np.exp(log_likelihood(right, answers, shares) - luck)
    if method.two_sided:
        other = np.exp(log_likelihood(answers - right, answers, shares) - luck)
        ratio = (ratio + other) / 2.0
    return np.asarray(ratio)
