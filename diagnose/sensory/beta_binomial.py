"""Tasters who differ: the beta-binomial with luck taken off, and its fit."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike

from diagnose.sensory.distributions import (
    Numbers,
    chi_square_quantile,
    crossing,
    exactly,
    log_beta,
    log_likelihood,
    log_ways,
    quadrature,
)

Counts = Sequence[tuple[int, int]]
_EDGE = 1e-7
# So little gained by a spread is rounding.
_NO_GAIN = 1e-6
_GRID, _ROUNDS, _ZOOM = 31, 10, 6.0
# Halvings for the end of an interval: nine figures.
_STEPS = 30


@dataclass(frozen=True)
class TasterSpread:
    """A fit: mean share able to tell, how far tasters differ (gamma, 0 alike to 1), likelihoods.

    The likelihoods are logarithms; `alike` is that of tasters who do not differ.
    """

    able: float
    gamma: float
    log_likelihood: float
    alike: float


def chance_of_rounds(right: int, rounds: int, guess: float) -> Callable[..., Numbers]:
    """The chance of one taster's result as a function of mean ability and spread.

    Args:
        right: right answers of the taster.
        rounds: answers of the taster.
        guess: chance of being right by luck; 0 for a plain beta-binomial.

    Returns:
        A function of (able, gamma), both between 0 and 1, arrays allowed.

    Source: chance-corrected beta-binomial, Brockhoff (2003) and Bi (2006), as in sensR (seen).
    """
    known = np.arange(0 if guess > 0.0 else right, right + 1)
    ways = exactly(known, right, 1.0 - guess)
    luck = np.log1p(-guess) * (rounds - right) + log_ways(right, rounds)

    def chance(able: ArrayLike, gamma: ArrayLike) -> Numbers:
        able, gamma = np.asarray(able, dtype=float), np.asarray(gamma, dtype=float)
        total = (1.0 - gamma) / gamma
        a, b = (able * total)[..., np.newaxis], ((1.0 - able) * total)[..., np.newaxis]
        terms = np.exp(luck + log_beta(a + known, b + rounds - right) - log_beta(a, b))
        return np.asarray(terms @ ways)

    return chance


def log_likelihood_of(counts: Counts, guess: float) -> Callable[..., Numbers]:
    """The log likelihood of a panel as a function of mean ability and spread.

    Args:
        counts: for each taster, right answers and answers.
        guess: chance of being right by luck; 0 for a plain beta-binomial.

    Returns:
        A function of (able, gamma), arrays allowed.
    """
    kinds = [
        (how_often, chance_of_rounds(right, rounds, guess))
        for (right, rounds), how_often in Counter(counts).items()
    ]

    def of(able: ArrayLike, gamma: ArrayLike) -> Numbers:
        total = np.zeros(np.broadcast(able, gamma).shape)
        for how_often, chance in kinds:
            total = total + how_often * np.log(np.maximum(chance(able, gamma), 1e-300))
        return total

    return of


def fit_spread(counts: Counts, guess: float) -> TasterSpread:
    """The mean ability and the spread between tasters that fit best.

    Args:
        counts: for each taster, right answers and answers.
        guess: chance of being right by luck; 0 for a plain beta-binomial.

    Returns:
        The fit by maximum likelihood.
    """
    of = log_likelihood_of(counts, guess)
    centre, reach = np.array([0.5, 0.5]), 0.5
    for _ in range(_ROUNDS):
        able, gamma = (_around(middle, reach) for middle in centre)
        values = of(able[:, np.newaxis], gamma)
        best = np.unravel_index(int(np.argmax(values)), values.shape)
        centre, reach = np.array([able[best[0]], gamma[best[1]]]), reach / _ZOOM
    found = float(of(centre[0], centre[1]))
    share, alike = _if_alike(counts, guess)
    if found <= alike + _NO_GAIN:
        return TasterSpread((share - guess) / (1.0 - guess), 0.0, alike, alike)
    return TasterSpread(float(centre[0]), float(centre[1]), found, alike)


def _around(middle: float, reach: float) -> Numbers:
    return np.clip(np.linspace(middle - reach, middle + reach, _GRID), _EDGE, 1.0 - _EDGE)


def _if_alike(counts: Counts, guess: float) -> tuple[float, float]:
    """Share of right answers and log likelihood if the tasters do not differ."""
    right, answers = (sum(column) for column in zip(*counts, strict=True))
    share = max(right / answers, guess)
    ways = sum(float(log_ways(x, n)) for x, n in counts)
    return share, ways + float(log_likelihood(right, answers, share))


def able_interval(counts: Counts, guess: float, level: float = 0.95) -> tuple[float, float]:
    """Likelihood interval of the mean ability, whatever the spread between tasters.

    Args:
        counts: for each taster, right answers and answers.
        guess: chance of being right by luck; 0 for a plain beta-binomial.
        level: confidence of the interval.

    Returns:
        Lower and upper end of the mean share able to tell.
    """
    of, fit = log_likelihood_of(counts, guess), fit_spread(counts, guess)
    lowest = fit.log_likelihood - chi_square_quantile(level) / 2.0

    def above(able: float) -> float:
        return _best_over_spreads(of, able) - lowest

    best = min(max(fit.able, _EDGE), 1.0 - _EDGE)
    low = crossing(above, _EDGE, best, _STEPS)
    high = crossing(lambda able: -above(able), best, 1.0 - _EDGE, _STEPS)
    return (0.0 if low <= _EDGE else low), (1.0 if high >= 1.0 - _EDGE else high)


def _best_over_spreads(of: Callable[..., Numbers], able: float) -> float:
    centre, reach = 0.5, 0.5
    for _ in range(_ROUNDS):
        gamma = _around(centre, reach)
        values = of(able, gamma)
        centre, reach = float(gamma[int(np.argmax(values))]), reach / _ZOOM
    return float(of(able, centre))


def bayes_factor_by_taster(counts: Counts, guess: float) -> float:
    """The Bayes factor for a difference when tasters may differ.

    Args:
        counts: for each taster, right answers and answers.
        guess: chance of being right by luck.

    Returns:
        Factor; mean ability and spread are each taken as equally likely anywhere from 0 to 1.

    Source: definition of the factor; the prior is a choice, not a published value.
    """
    points, weights = quadrature(0.0, 1.0, 2)
    values = log_likelihood_of(counts, guess)(points[:, np.newaxis], points)
    luck = sum(float(log_ways(x, n) + log_likelihood(x, n, guess)) for x, n in counts)
    return float(weights @ np.exp(values - luck) @ weights)
