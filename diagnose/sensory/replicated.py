"""Panels that taste several rounds: what the answers are worth when tasters differ."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.sensory.beta_binomial import (
    Counts,
    TasterSpread,
    able_interval,
    chance_of_rounds,
    fit_spread,
)
from diagnose.sensory.criticals import exact_p
from diagnose.sensory.distributions import Numbers, at_least, chi_square_above
from diagnose.sensory.estimate import Estimate
from diagnose.sensory.methods import Method
from diagnose.sensory.refusing import require_share, require_tasters

_NO_SPREAD = 1e-6
# Spreads between tasters among which the least favourable one is looked for.
_SPREADS = (_NO_SPREAD, *np.linspace(0.02, 0.98, 49), 1.0 - _NO_SPREAD)


@dataclass(frozen=True)
class ReplicatedReading:
    """What several rounds by the same tasters say.

    `p` is exact for "nobody here can tell". `p_elsewhere` counts only what the answers are
    worth when tasters differ (`worth_answers`), and is never below `p`. `p_alike` tests whether
    the tasters differ at all. `able` is None in a two-sided test.
    """

    tasters: int
    right: int
    answers: int
    p: float
    p_elsewhere: float
    worth_answers: float
    gamma: float
    p_alike: float
    able: Estimate | None


def read_replicated(method: Method, counts: Counts, level: float = 0.95) -> ReplicatedReading:
    """Several rounds by the same tasters.

    Args:
        method: the test.
        counts: for each taster, right answers and answers; in a two-sided test, answers for
            one of the beers.
        level: confidence of the interval.

    Returns:
        The reading, for this panel and for other people.

    Raises:
        UnusableInput: a taster with counts that cannot be.

    Source: pooled answers are binomial when nobody can tell; overdispersion test and
        chance-corrected beta-binomial as in Brockhoff (2003) and Bi (2006) (seen through the
        sensR tests). The p of that test is halved, as no spread is the edge of the model.
    """
    require_tasters(counts)
    guess = 0.0 if method.two_sided else method.guess
    right, answers = (sum(column) for column in zip(*counts, strict=True))
    fit = fit_spread(counts, guess)
    worth = _worth(counts, _correlation(fit, guess))
    p = exact_p(method, right, answers)
    return ReplicatedReading(
        tasters=len(counts),
        right=right,
        answers=answers,
        p=p,
        p_elsewhere=max(p, _p_elsewhere(method, counts, worth)),
        worth_answers=worth,
        gamma=fit.gamma,
        p_alike=p_tasters_alike(fit),
        able=None if method.two_sided else _able(fit, counts, guess, level),
    )


def overdispersion(fit: TasterSpread) -> float:
    """The likelihood ratio statistic G2 for tasters who differ against tasters alike."""
    return max(2.0 * (fit.log_likelihood - fit.alike), 0.0)


def p_tasters_alike(fit: TasterSpread) -> float:
    """The p of the test for overdispersion, halved as gamma cannot fall below 0."""
    return chi_square_above(overdispersion(fit)) / 2.0


def _able(fit: TasterSpread, counts: Counts, guess: float, level: float) -> Estimate:
    low, high = able_interval(counts, guess, level)
    return Estimate(min(max(fit.able, low), high), low, high, level)


def _correlation(fit: TasterSpread, guess: float) -> float:
    """How alike two answers of one taster are: gamma on the scale of right and wrong."""
    share = guess + (1.0 - guess) * fit.able
    between = (1.0 - guess) ** 2 * fit.gamma * fit.able * (1.0 - fit.able)
    return between / (share * (1.0 - share))


def _worth(counts: Counts, correlation: float) -> float:
    return sum(rounds / (1.0 + (rounds - 1) * correlation) for _, rounds in counts)


def _p_elsewhere(method: Method, counts: Counts, worth: float) -> float:
    if method.two_sided:
        return sign_flip_p([2 * right - rounds for right, rounds in counts])
    right, answers = (sum(column) for column in zip(*counts, strict=True))
    return float(at_least(right * worth / answers, worth, method.guess))


def sign_flip_p(leads: Sequence[int]) -> float:
    """Two-sided p of a sum whose parts would be as likely the other way round.

    Args:
        leads: for each taster, answers for one beer less answers for the other.

    Returns:
        Exact p: the share of all ways to turn the signs that lead as far or farther.

    Source: Fisher's randomisation test, all ways counted.
    """
    reach = sum(abs(lead) for lead in leads)
    ways = np.zeros(2 * reach + 1)
    ways[reach] = 1.0
    for lead in leads:
        ways = (np.roll(ways, lead) + np.roll(ways, -lead)) / 2.0
    far = np.abs(np.arange(-reach, reach + 1)) >= abs(sum(leads))
    return min(1.0, float(ways[far].sum()))


def similarity_p_replicated(method: Method, counts: Counts, limit_able: float) -> float:
    """The test for similarity when tasters differ by an unknown amount.

    Args:
        method: a one-sided test.
        counts: for each taster, right answers and answers.
        limit_able: mean share able to tell that would matter, 0 to 1.

    Returns:
        p-value at the least favourable spread between tasters.

    Raises:
        UnusableInput: a share or counts that cannot be.

    Source: exact, by convolution of beta-binomials; the spread is searched over a grid.
    """
    require_share("limit", limit_able)
    require_tasters(counts)
    total = sum(right for right, _ in counts)
    rounds_of = [rounds for _, rounds in counts]
    chances = (_totals(method.guess, rounds_of, limit_able, gamma) for gamma in _SPREADS)
    return min(1.0, max(float(chance[: total + 1].sum()) for chance in chances))


def _totals(guess: float, rounds_of: Sequence[int], able: float, gamma: float) -> Numbers:
    """Chances of all totals of a panel."""
    one = {
        rounds: np.array(
            [float(chance_of_rounds(x, rounds, guess)(able, gamma)) for x in range(rounds + 1)]
        )
        for rounds in set(rounds_of)
    }
    total = np.array([1.0])
    for rounds in rounds_of:
        total = np.convolve(total, one[rounds])
    return total


def power_replicated(
    method: Method, rounds_of: Sequence[int], least_right: int | None, spread: tuple[float, float]
) -> float:
    """The chance that a panel which tastes several rounds finds a difference.

    Args:
        method: a one-sided test.
        rounds_of: answers of each taster.
        least_right: fewest right answers in all; None if there is no limit.
        spread: mean share able to tell, and gamma, both between 0 and 1.

    Returns:
        Power.
    """
    if least_right is None:
        return 0.0
    return float(_totals(method.guess, rounds_of, *spread)[least_right:].sum())


def least_power_replicated(
    method: Method, rounds_of: Sequence[int], least_right: int | None, able: float
) -> float:
    """The power at the least favourable spread between tasters; see `power_replicated`."""
    return min(
        power_replicated(method, rounds_of, least_right, (able, gamma)) for gamma in _SPREADS
    )
