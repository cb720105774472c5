"""One glass at a time: "is this beer A?" """

from dataclasses import dataclass
from fractions import Fraction
from math import comb, inf, sqrt

import numpy as np

from diagnose.sensory.criticals import exact_p
from diagnose.sensory.distributions import (
    chi_square_quantile,
    crossing,
    exactly,
    highest,
    log_likelihood,
    normal_below,
    normal_density,
    normal_log_below,
    normal_quantile,
)
from diagnose.sensory.estimate import Estimate
from diagnose.sensory.methods import METHODS
from diagnose.sensory.refusing import require_alpha, require_answers, require_counts, require_dprime

_FAR = 40.0
_EDGE = 1e-15


@dataclass(frozen=True)
class SingleGlasses:
    """Answers "it is A": when it was (hits), and when it was not (false alarms)."""

    hits: int
    a_glasses: int
    false_alarms: int
    other_glasses: int


@dataclass(frozen=True)
class SingleGlassReading:
    """Exact one-sided p of the two-by-two table, d', and the area under the ROC curve."""

    p: float
    dprime: Estimate
    area: float


def read_a_not_a(seen: SingleGlasses, level: float = 0.95) -> SingleGlassReading:
    """An A-not-A tasting in which each glass was judged independently.

    Args:
        seen: the counts.
        level: confidence of the interval.

    Returns:
        The reading. A half is added to each count when a share is 0 or 1, for the value of d'
        and its error; p and interval use the counts as they are.

    Raises:
        UnusableInput: counts that cannot be.

    Source: signal detection with equal variances, Macmillan & Creelman (2005) (from memory);
        p after Fisher; held against stored values of sensR (seen).
    """
    require_counts(seen.hits, seen.a_glasses)
    require_counts(seen.false_alarms, seen.other_glasses)
    at_edge = {seen.hits, seen.a_glasses - seen.hits} & {0} or {
        seen.false_alarms,
        seen.other_glasses - seen.false_alarms,
    } & {0}
    half, one = (0.5, 1.0) if at_edge else (0.0, 0.0)
    hit = (seen.hits + half) / (seen.a_glasses + one)
    false = (seen.false_alarms + half) / (seen.other_glasses + one)
    z_hit, z_false = normal_quantile(hit), normal_quantile(false)
    error = sqrt(
        hit * (1.0 - hit) / (seen.a_glasses * float(normal_density(z_hit)) ** 2)
        + false * (1.0 - false) / (seen.other_glasses * float(normal_density(z_false)) ** 2)
    )
    dprime = z_hit - z_false
    low, high = _interval(seen, level)
    estimate = Estimate(dprime, low, high, level, error)
    return SingleGlassReading(fisher_p(seen), estimate, float(normal_below(dprime / sqrt(2.0))))


def fisher_p(seen: SingleGlasses) -> float:
    """Chance of so many hits or more among the same answers, if tasters could not tell.

    Args:
        seen: the counts.

    Returns:
        Exact one-sided p.

    Source: Fisher (1935) (from memory), counted in whole numbers.
    """
    glasses, said = seen.a_glasses + seen.other_glasses, seen.hits + seen.false_alarms
    ways = sum(
        comb(seen.a_glasses, hits) * comb(seen.other_glasses, said - hits)
        for hits in range(seen.hits, min(seen.a_glasses, said) + 1)
    )
    return float(Fraction(ways, comb(glasses, said)))


def matched_p(only_a: int, only_other: int) -> float:
    """The p when each taster judged one glass of each: only tasters who answered differently count.

    Args:
        only_a: tasters who called the A, and not the other, "A".
        only_other: tasters who did the reverse.

    Returns:
        Exact one-sided p (McNemar); 1 when nobody answered differently.
    """
    if only_a + only_other == 0:
        return 1.0
    return exact_p(METHODS["2-afc"], only_a, only_a + only_other)


def _interval(seen: SingleGlasses, level: float) -> tuple[float, float]:
    """Likelihood interval of d', with the taster's bar for saying "A" left free."""
    lowest = _best_log_likelihood(seen) - chi_square_quantile(level) / 2.0
    best = _z_within(seen.hits, seen.a_glasses) - _z_within(seen.false_alarms, seen.other_glasses)

    def above(value: float) -> float:
        return _log_likelihood_at(seen, value) - lowest

    low = crossing(above, -_FAR, best)
    high = crossing(lambda value: -above(value), best, _FAR)
    return (-inf if low <= -_FAR else low), (inf if high >= _FAR else high)


def _z_within(count: int, glasses: int) -> float:
    """The quantile of a share, kept finite at 0 and 1."""
    return normal_quantile(min(max(count / glasses, _EDGE), 1.0 - _EDGE))


def _best_log_likelihood(seen: SingleGlasses) -> float:
    hits = log_likelihood(seen.hits, seen.a_glasses, seen.hits / seen.a_glasses)
    false = seen.false_alarms / seen.other_glasses
    return float(hits + log_likelihood(seen.false_alarms, seen.other_glasses, false))


def _log_likelihood_at(seen: SingleGlasses, dprime: float) -> float:
    """Log likelihood of a d' at the bar that suits it best."""

    rows = (
        (seen.hits, seen.a_glasses, dprime / 2.0),
        (seen.false_alarms, seen.other_glasses, -dprime / 2.0),
    )

    def at(bar: float) -> float:
        said = (x * normal_log_below(middle - bar) for x, _, middle in rows)
        not_said = ((n - x) * normal_log_below(bar - middle) for x, n, middle in rows)
        return float(sum(said) + sum(not_said))

    reach = abs(dprime) / 2.0 + 8.0
    return at(highest(at, -reach, reach))


def least_hits(glasses: int, false_alarms: int, alpha: float) -> int | None:
    """The fewest hits that show a difference.

    Args:
        glasses: glasses of A, and as many of the other beer.
        false_alarms: glasses of the other beer called "A".
        alpha: highest risk of a false alarm.

    Returns:
        Fewest hits; None when not even a hit in every glass of A would do.

    Raises:
        UnusableInput: counts or an alpha that cannot be.
    """
    require_alpha(alpha)
    require_counts(false_alarms, glasses)
    low, high = 0, glasses + 1
    while high - low > 1:
        middle = (low + high) // 2
        p = fisher_p(SingleGlasses(middle, glasses, false_alarms, glasses))
        low, high = (low, middle) if p <= alpha else (middle, high)
    return high if high <= glasses else None


def power_a_not_a(glasses: int, dprime: float, alpha: float) -> float:
    """The chance that single glasses show a difference, for tasters who favour neither answer.

    Args:
        glasses: glasses of A, and as many of the other beer.
        dprime: distance between the two beers [standard deviations]; 0 gives the true risk
            of a false alarm.
        alpha: highest risk of a false alarm.

    Returns:
        Power.

    Raises:
        UnusableInput: a panel, distance or alpha that cannot be.
    """
    require_answers(glasses)
    if dprime != 0.0:
        require_dprime(dprime)
    counts = np.arange(glasses + 1)
    hits = exactly(counts, glasses, normal_below(dprime / 2.0))
    false = exactly(counts, glasses, normal_below(-dprime / 2.0))
    power = 0.0
    for count in counts:
        least = least_hits(glasses, int(count), alpha)
        power += float(false[count] * hits[least:].sum()) if least is not None else 0.0
    return power
