"""One tasting read whole: shown, not shown, ruled out, and what could have been missed."""

from dataclasses import dataclass, replace
from typing import Literal

from diagnose.sensory.bayes import OTHER_SPREADS, PRIOR_SPREAD, BayesReading, bayes_reading
from diagnose.sensory.beta_binomial import Counts
from diagnose.sensory.criticals import Critical, critical, exact_p
from diagnose.sensory.estimate import Estimate, able_estimate, dprime_estimate
from diagnose.sensory.methods import Method
from diagnose.sensory.power import power_by_able
from diagnose.sensory.psychometric import share_from_able
from diagnose.sensory.refusing import (
    require_alpha,
    require_counts,
    require_share,
    require_tasters,
)
from diagnose.sensory.replicated import least_power_replicated, similarity_p_replicated
from diagnose.sensory.similarity import similarity_p

Verdict = Literal["shown", "shown_but_small", "ruled_out", "not_shown"]

# Verdicts that show a difference, large or small.
SHOWN: tuple[Verdict, ...] = ("shown", "shown_but_small")
# Risk of a false alarm that a home tasting is shown with; decisions go by the Bayes factor.
USUAL_ALPHA = 0.1
# A difference that half the tasters can taste is one that matters, unless told otherwise.
USUAL_ABLE = 0.5


@dataclass(frozen=True)
class Reading:
    """A tasting read at one risk.

    `missed` is the chance that this panel would have missed a difference which the share
    `able_that_matters` of the tasters can taste. `p_similar` tests that share the other way
    round: it is small when so few right answers speak against it. `p_fewer` is the chance that
    luck alone has as few right, or fewer.
    """

    verdict: Verdict
    right: int
    answers: int
    p: float
    p_fewer: float
    limit: Critical
    able_that_matters: float
    missed: float
    p_similar: float
    dprime: Estimate
    able: Estimate
    bayes: tuple[BayesReading, ...]


def read_tasting(
    method: Method,
    right: int,
    answers: int,
    *,
    alpha: float = USUAL_ALPHA,
    able_that_matters: float = USUAL_ABLE,
) -> Reading:
    """What a forced-choice tasting says, and what it could not say.

    Args:
        method: the test.
        right: number of right answers; in a two-sided test, answers for one of the beers.
        answers: number of answers.
        alpha: highest risk of a false alarm, and of calling beers alike that are not.
        able_that_matters: share of tasters able to tell that would matter, 0 to 1.

    Returns:
        The reading.

    Raises:
        UnusableInput: counts, a risk or a share that cannot be.

    Source: exact binomial tests of difference and of similarity; see the functions called.
    """
    require_counts(right, answers)
    require_alpha(alpha)
    require_share("discriminators", able_that_matters)
    limit = critical(method, answers, alpha)
    p = exact_p(method, right, answers)
    p_similar = similarity_p(method, right, answers, share_from_able(method, able_that_matters))
    spreads = (PRIOR_SPREAD, *OTHER_SPREADS)
    return Reading(
        verdict=_verdict(_is_shown(method, limit, right), p_similar <= alpha),
        right=right,
        answers=answers,
        p=p,
        p_fewer=similarity_p(method, right, answers, method.guess),
        limit=limit,
        able_that_matters=able_that_matters,
        missed=1.0 - power_by_able(method, answers, alpha, able_that_matters),
        p_similar=p_similar,
        dprime=dprime_estimate(method, right, answers),
        able=able_estimate(method, right, answers),
        bayes=tuple(bayes_reading(method, right, answers, spread) for spread in spreads),
    )


def read_rounds(
    method: Method,
    counts: Counts,
    *,
    alpha: float = USUAL_ALPHA,
    able_that_matters: float = USUAL_ABLE,
) -> Reading:
    """A tasting of several rounds by the same tasters.

    The difference is judged by the total, which luck alone makes binomial. To rule a difference
    out is another matter: tasters differ, and two who can tell may hide among four who cannot.

    Args:
        method: the test.
        counts: for each taster, right answers and answers.
        alpha: as for `read_tasting`.
        able_that_matters: as for `read_tasting`; a mean over tasters.

    Returns:
        The reading, with `p_similar` and `missed` at the least favourable spread between
        tasters. In a two-sided test `p_similar` is 1: tasters may favour different beers, so
        nothing is ruled out; and `missed` takes them as alike.

    Raises:
        UnusableInput: counts, a risk or a share that cannot be.
    """
    require_tasters(counts)
    right, answers = (sum(column) for column in zip(*counts, strict=True))
    reading = read_tasting(method, right, answers, alpha=alpha, able_that_matters=able_that_matters)
    if max(rounds for _, rounds in counts) == 1:
        return reading
    p, missed = 1.0, reading.missed
    if not method.two_sided:
        rounds_of, least = [rounds for _, rounds in counts], reading.limit.least_right
        p = similarity_p_replicated(method, counts, able_that_matters)
        missed = 1.0 - least_power_replicated(method, rounds_of, least, able_that_matters)
    verdict = _verdict(_is_shown(method, reading.limit, right), p <= alpha)
    return replace(reading, p_similar=p, missed=missed, verdict=verdict)


def _is_shown(method: Method, limit: Critical, right: int) -> bool:
    leading = max(right, limit.answers - right) if method.two_sided else right
    return limit.least_right is not None and leading >= limit.least_right


def _verdict(is_shown: bool, is_small: bool) -> Verdict:
    if is_shown:
        return "shown_but_small" if is_small else "shown"
    return "ruled_out" if is_small else "not_shown"
