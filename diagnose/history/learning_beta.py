"""A share and how well it is known, as a Beta spread, and what batches make of it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from diagnose.documents import Number

Floats = NDArray[np.float64]

# `low` and `high` of a card are read as the ends that hold nine in ten; so many standard
# deviations lie between them in a normal spread.
RANGE_SHARE: Final = 0.9
_DEVIATIONS_ACROSS: Final = 3.2897
# However wide a card's range, its value counts for at least so many batches. Judgement.
LEAST_WEIGHT: Final = 1.0
# Points over the log odds; so far out that even a spread with its weight at both ends is held.
_LOG_ODDS: Final = np.linspace(-40.0, 40.0, 8001)
_SHARES: Final = 1.0 / (1.0 + np.exp(-_LOG_ODDS))
_REST: Final = 1.0 / (1.0 + np.exp(_LOG_ODDS))


@dataclass(frozen=True)
class Spread:
    """A Beta spread by its mean (0 to 1) and its weight, the number of batches it counts for."""

    mean: float
    weight: float

    def ends(self) -> tuple[float, float]:
        """The ends between which the share lies with nine chances in ten."""
        # Slow to import, and only what is shown needs it.
        from scipy.special import betaincinv  # type: ignore[import-untyped]  # noqa: PLC0415

        sides = self.mean * self.weight, (1.0 - self.mean) * self.weight
        tail = (1.0 - RANGE_SHARE) / 2.0
        return tuple(float(betaincinv(*sides, at)) for at in (tail, 1.0 - tail))  # type: ignore[return-value]


def spread_of(number: Number) -> Spread | None:
    """A number of a card as a spread, matched by its moments; None where it has no range.

    The mean is the card's value, so that a brewer without batches has the rule base's own
    figure. The standard deviation is that of a range which holds nine in ten.
    """
    if number.high <= number.low:
        return None
    deviation = (number.high - number.low) / _DEVIATIONS_ACROSS
    weight = number.value * (1.0 - number.value) / deviation**2 - 1.0
    return Spread(number.value, max(weight, LEAST_WEIGHT))


def after_slopes(before: Spread, slopes: Mapping[float, float]) -> Spread:
    """The spread after observations whose likelihood is a straight line in the share.

    Args:
        before: the spread before.
        slopes: how often each slope k was seen; an observation's likelihood is 1 + k x share.

    Returns:
        the Beta spread with the mean and the variance of the exact answer.
    """
    log_likelihood = np.zeros_like(_SHARES)
    for slope in sorted(slopes):
        log_likelihood += slopes[slope] * np.log(_REST + (1.0 + slope) * _SHARES)
    return _matched(before, log_likelihood)


def after_likelihood(before: Spread, log_likelihood: Floats) -> Spread:
    """The spread after a likelihood that was read at `points()`, shape (k,)."""
    return _matched(before, log_likelihood)


def points() -> Floats:
    """The shares at which a likelihood is read, shape (k,)."""
    return _SHARES.copy()


def rest() -> Floats:
    """1 less each of `points()`, shape (k,), to the last digit where that is nearly nothing."""
    return _REST.copy()


def _matched(before: Spread, log_likelihood: Floats) -> Spread:
    # Over the log odds, in which the width of a step is share x (1 - share).
    log_weights = (
        before.mean * before.weight * np.log(_SHARES)
        + (1.0 - before.mean) * before.weight * np.log(_REST)
        + log_likelihood
    )
    weights = np.exp(log_weights - log_weights.max())
    weights /= weights.sum()
    mean = float(weights @ _SHARES)
    variance = float(weights @ (_SHARES - mean) ** 2)
    return Spread(mean, max(mean * (1.0 - mean) / variance - 1.0, LEAST_WEIGHT))
