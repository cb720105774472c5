"""Figures of tests that we do not offer: our distances and normal tails, their arithmetic.

We decide by exact counts and use none of these ourselves; what they check is the share of right
answers at a distance, the distance at a share, and the likelihoods and tails behind both. A trend
over three beers or more is wholly the reference library's: a club that ranks them has it there.
"""

from collections.abc import Callable
from math import ceil, sqrt

from scipy import stats

from diagnose.sensory import METHODS, dprime_from_share, share_right
from diagnose.sensory.distributions import (
    chi_square_above,
    log_likelihood,
    normal_below,
    normal_quantile,
)

_NAMES = {"twoAFC": "2-afc"}


def _share_at(dprime: float, test: str) -> float:
    return float(share_right(METHODS[_NAMES.get(test, test)], dprime))


def _score_end(right: int, answers: int, test: str, end: int) -> float:
    """Scipy's interval of the share, our distance at it."""
    ends = stats.binomtest(right, answers).proportion_ci(method="wilsoncc")
    return dprime_from_share(METHODS[test], float((ends.low, ends.high)[end]))


def _root(right: int, answers: int, guess: float) -> float:
    best = log_likelihood(right, answers, right / answers)
    return sqrt(2.0 * float(best - log_likelihood(right, answers, guess)))


def _score_p(right: int, answers: int, guess: float) -> float:
    return chi_square_above((right - answers * guess) ** 2 / (answers * guess * (1 - guess))) / 2


def _score_square(right: int, answers: int, guess: float) -> float:
    """The square whose tail, by scipy, is ours."""
    return float(stats.chi2.isf(2.0 * _score_p(right, answers, guess), 1))


def _two_pairs(dprime: float, _: str) -> float:
    """Which of two pairs differs, told by the larger difference: both told rightly, or neither."""
    told = float(normal_below(dprime / 2.0))
    return told**2 + (1.0 - told) ** 2


def _trend_p(ranks: list[list[int]]) -> float:
    return float(stats.page_trend_test(ranks).pvalue)


def _near_power(share: float, answers: int, alpha: float, guess: float) -> float:
    reach = normal_quantile(1.0 - alpha) * sqrt(guess * (1.0 - guess))
    lead = (share - guess) * sqrt(answers) - reach
    return float(normal_below(lead / sqrt(share * (1.0 - share))))


def _near_power_d(dprime: float, answers: int, alpha: float, test: str) -> float:
    guess = METHODS[_NAMES.get(test, test)].guess
    return _near_power(_share_at(dprime, test), answers, alpha, guess)


def _near_size_d(dprime: float, alpha: float, power: float, test: str) -> int:
    guess, share = METHODS[test].guess, _share_at(dprime, test)
    reach = normal_quantile(1.0 - alpha) * sqrt(guess * (1.0 - guess))
    total = reach + normal_quantile(power) * sqrt(share * (1.0 - share))
    return ceil((total / (share - guess)) ** 2)


FUNCTIONS: dict[str, Callable[..., float]] = {
    "ci_d_scorecc": _score_end,
    "lr_root": _root,
    "lr_p": lambda *given: float(normal_below(-_root(*given))),
    "score_p": _score_p,
    "score_X2": _score_square,
    "two_pairs": _two_pairs,
    "page_p": _trend_p,
    "power_normal_d": _near_power_d,
    "power_normal_pc": _near_power,
    "ss_d_normal": _near_size_d,
}
