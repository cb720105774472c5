"""The distributions that all difference tests rest on."""

from collections.abc import Callable
from functools import cache
from math import sqrt
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy import special  # type: ignore[import-untyped]

Numbers = NDArray[np.float64]


def at_least(right: ArrayLike, answers: ArrayLike, share: ArrayLike) -> Any:
    """Chance of `right` or more right answers among `answers`, each right with chance `share`.

    Args:
        right: number of right answers; 0 and below give 1.
        answers: number of answers.
        share: chance that one answer is right, 0 to 1.

    Returns:
        Probability, of the broadcast shape of the arguments.
    """
    right, answers = np.asarray(right, dtype=float), np.asarray(answers, dtype=float)
    inside = special.betainc(np.maximum(right, 1.0), np.maximum(answers - right, 0.0) + 1.0, share)
    return np.where(right <= 0, 1.0, np.where(right > answers, 0.0, inside))[()]


def at_most(right: ArrayLike, answers: ArrayLike, share: ArrayLike) -> Any:
    """Chance of `right` or fewer right answers; arguments as for `at_least`."""
    answers = np.asarray(answers, dtype=float)
    return at_least(answers - np.asarray(right, dtype=float), answers, 1.0 - np.asarray(share))


def exactly(right: ArrayLike, answers: ArrayLike, share: ArrayLike) -> Any:
    """Chance of exactly `right` right answers; arguments as for `at_least`."""
    right, answers = np.asarray(right, dtype=float), np.asarray(answers, dtype=float)
    share = np.asarray(share, dtype=float)
    return np.exp(log_ways(right, answers) + log_likelihood(right, answers, share))


def log_ways(right: ArrayLike, answers: ArrayLike) -> Any:
    """Logarithm of the number of ways in which so many of the answers can be right."""
    right, answers = np.asarray(right, dtype=float), np.asarray(answers, dtype=float)
    ways = special.gammaln(answers + 1) - special.gammaln(right + 1)
    return ways - special.gammaln(answers - right + 1)


def log_likelihood(right: ArrayLike, answers: ArrayLike, share: ArrayLike) -> Any:
    """Log likelihood of a chance of being right, without the constant of the ways."""
    right, answers = np.asarray(right, dtype=float), np.asarray(answers, dtype=float)
    share = np.asarray(share, dtype=float)
    return special.xlogy(right, share) + special.xlog1py(answers - right, -share)


def beta_quantile(level: float, a: float, b: float) -> float:
    """Value below which a beta-distributed share lies with probability `level`."""
    return float(special.betaincinv(a, b, level))


def normal_below(z: ArrayLike) -> Any:
    """Chance that a standard normal number lies below `z`."""
    return special.ndtr(z)


def normal_log_below(z: ArrayLike) -> Any:
    """Logarithm of the chance that a standard normal number lies below `z`."""
    return special.log_ndtr(z)


def normal_density(z: ArrayLike) -> Any:
    """Density of the standard normal distribution."""
    return np.exp(-0.5 * np.square(z)) / np.sqrt(2.0 * np.pi)


def normal_quantile(level: float) -> float:
    """Value below which a standard normal number lies with probability `level`."""
    return float(special.ndtri(level))


def chi_square_above(value: float) -> float:
    """Chance that a chi-square number with one degree of freedom exceeds `value`."""
    return float(special.chdtrc(1.0, max(value, 0.0)))


def chi_square_quantile(level: float) -> float:
    """Value that a chi-square number with one degree of freedom stays below with `level`."""
    return float(special.chdtri(1.0, 1.0 - level))


def log_beta(a: ArrayLike, b: ArrayLike) -> Any:
    """Logarithm of the beta function."""
    return special.betaln(a, b)


_NODES = 50
_GOLDEN = (sqrt(5.0) - 1.0) / 2.0


@cache
def _unit_rule() -> tuple[Numbers, Numbers]:
    points, weights = np.polynomial.legendre.leggauss(_NODES)
    return points, weights


def quadrature(low: float, high: float, pieces: int = 4) -> tuple[Numbers, Numbers]:
    """Points and weights of Gauss and Legendre, 50 a piece, for an integral in equal pieces."""
    points, weights = _unit_rule()
    half = (high - low) / (2.0 * pieces)
    middles = low + half * (2.0 * np.arange(pieces) + 1.0)
    places = middles[:, np.newaxis] + half * points
    return places.ravel(), np.tile(half * weights, pieces)


def crossing(rising: Callable[[float], float], low: float, high: float, steps: int = 200) -> float:
    """Where a rising function passes zero, by halving.

    Args:
        rising: a function that does not fall from `low` to `high`.
        low: start of the search.
        high: end of the search.
        steps: halvings at most; 200 reach the last figure.

    Returns:
        The place; `low` or `high` when the function does not change sign between them.
    """
    if rising(low) >= 0.0:
        return low
    if rising(high) <= 0.0:
        return high
    for _ in range(steps):
        middle = (low + high) / 2.0
        if middle in (low, high):
            break
        low, high = (low, middle) if rising(middle) >= 0.0 else (middle, high)
    return (low + high) / 2.0


def highest(peaked: Callable[[float], float], low: float, high: float, steps: int = 60) -> float:
    """Where a function with one peak is highest, by golden section.

    Args:
        peaked: a function that rises to its peak and falls after it.
        low: start of the search.
        high: end of the search.
        steps: cuts; 60 leave a part in 10^12 of the range.

    Returns:
        The place.
    """
    for _ in range(steps):
        left, right = high - _GOLDEN * (high - low), low + _GOLDEN * (high - low)
        low, high = (low, right) if peaked(left) >= peaked(right) else (left, high)
    return (low + high) / 2.0
