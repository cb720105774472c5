"""A paired test in which a taster may say that there is no difference."""

from dataclasses import dataclass
from math import copysign, inf, isfinite, sqrt

import numpy as np

from diagnose.sensory.criticals import exact_p
from diagnose.sensory.distributions import (
    chi_square_above,
    chi_square_quantile,
    crossing,
    highest,
    log_likelihood,
    normal_below,
    normal_density,
    normal_log_below,
    normal_quantile,
)
from diagnose.sensory.estimate import Estimate
from diagnose.sensory.methods import METHODS
from diagnose.sensory.refusing import require_counts, require_share

_FAR, _FLOOR = 20.0, 1e-300
_ROOT = sqrt(2.0)
# Halvings for the end of an interval: nine figures.
_STEPS = 35


@dataclass(frozen=True)
class PairedAnswers:
    """Which beer had more of the flavour: the first, the second, or neither."""

    first: int
    neither: int
    second: int


@dataclass(frozen=True)
class PairedReading:
    """What answers with "no difference" among them say.

    `dprime` is above 0 when the second beer has more of it. `bar` is how far apart two
    sensations must be before a taster chooses [standard deviations]; its error is None where
    an answer was never given. `p` is exact, `likelihood_p` only near enough in large panels.
    """

    dprime: Estimate
    bar: float
    bar_standard_error: float | None
    p: float
    likelihood_root: float
    likelihood_p: float


def read_paired_answers(seen: PairedAnswers, level: float = 0.95) -> PairedReading:
    """A paired tasting in which "no difference" was an answer.

    Args:
        seen: the counts.
        level: confidence of the interval.

    Returns:
        The reading. A d' is infinite when only one of the beers was ever named and some
        tasters named neither.

    Raises:
        UnusableInput: no tasters, or a level that cannot be.

    Source: 2-AC model, equal variances: Christensen, Lee & Brockhoff (2012) Food Quality and
        Preference 24:119-128 (from memory), held against stored values of sensR (seen).
        Deviation: `p` is the two-sided binomial test of the tasters who chose; answers of
        "no difference" do not bear on which way a difference goes.
    """
    named, tasters = seen.first + seen.second, seen.first + seen.neither + seen.second
    for count in (seen.first, seen.neither, seen.second):
        require_counts(count, tasters)
    require_share("level", level)
    low, high = (_quantile(x, tasters) for x in (seen.first, seen.first + seen.neither))
    dprime = -(low + high) / _ROOT if named else 0.0
    errors = _errors(seen, (low, high))
    ends = _interval(seen, min(max(dprime, -_FAR), _FAR), level)
    root = copysign(sqrt(max(2.0 * (_best(seen) - _if_alike(seen)), 0.0)), dprime)
    return PairedReading(
        dprime=Estimate(dprime, *ends, level, errors[0]),
        bar=(high - low) / _ROOT if seen.neither else 0.0,
        bar_standard_error=errors[1],
        p=exact_p(METHODS["2-afc-two-sided"], seen.second, named) if named else 1.0,
        likelihood_root=root,
        likelihood_p=chi_square_above(root**2),
    )


def _quantile(count: int, tasters: int) -> float:
    if count == 0:
        return -inf
    return inf if count == tasters else normal_quantile(count / tasters)


def _errors(seen: PairedAnswers, edges: tuple[float, float]) -> tuple[float | None, float | None]:
    """Standard errors of d' and of the bar, from the shares below the two edges."""
    if not all(isfinite(edge) for edge in edges):
        return None, None
    tasters = seen.first + seen.neither + seen.second
    below, above = seen.first / tasters, seen.second / tasters
    first, second = (float(normal_density(edge)) for edge in edges)
    own = below * (1.0 - below) / first**2 + above * (1.0 - above) / second**2
    shared = 2.0 * below * above / (first * second)
    dprime, bar = (sqrt(max(part, 0.0) / (2.0 * tasters)) for part in (own + shared, own - shared))
    return dprime, bar if seen.neither else None


def _best(seen: PairedAnswers) -> float:
    tasters, named = seen.first + seen.neither + seen.second, seen.first + seen.second
    choosing = float(log_likelihood(seen.neither, tasters, seen.neither / tasters))
    return choosing + float(log_likelihood(seen.first, named, seen.first / max(named, 1)))


def _if_alike(seen: PairedAnswers) -> float:
    tasters, named = seen.first + seen.neither + seen.second, seen.first + seen.second
    choosing = float(log_likelihood(seen.neither, tasters, seen.neither / tasters))
    return choosing + float(log_likelihood(seen.first, named, 0.5))


def _interval(seen: PairedAnswers, best: float, level: float) -> tuple[float, float]:
    """Likelihood interval of d', with the bar left free."""
    lowest = _best(seen) - chi_square_quantile(level) / 2.0

    def above(dprime: float) -> float:
        return _over_bars(seen, dprime) - lowest

    low = crossing(above, -_FAR, best, _STEPS)
    high = crossing(lambda dprime: -above(dprime), best, _FAR, _STEPS)
    return (-inf if low <= -_FAR else low), (inf if high >= _FAR else high)


def _over_bars(seen: PairedAnswers, dprime: float) -> float:
    """Log likelihood of a d' at the bar that suits it best."""

    def at(bar: float) -> float:
        low, high = (-bar - dprime) / _ROOT, (bar - dprime) / _ROOT
        between = max(float(normal_below(high) - normal_below(low)), _FLOOR)
        chose = seen.first * normal_log_below(low) + seen.second * normal_log_below(-high)
        return float(chose + (seen.neither * np.log(between) if seen.neither else 0.0))

    return at(highest(at, 0.0, abs(dprime) + 2.0 * _FAR))
