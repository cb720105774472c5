"""Tasting over several evenings: limits that may be looked at after each, without cheating."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate

import numpy as np

from diagnose.errors import Fault, UnusableInput
from diagnose.sensory.distributions import Numbers, exactly
from diagnose.sensory.methods import Method
from diagnose.sensory.refusing import require_alpha, require_answers, require_counts

_MOST_EVENINGS = 20


@dataclass(frozen=True)
class Evening:
    """One look: all answers so far, the fewest right ones that show a difference, risk so far.

    `least_right` is None when the difference cannot be shown this evening.
    """

    answers: int
    least_right: int | None
    exact_alpha_so_far: float


@dataclass(frozen=True)
class EveningsPlan:
    """The looks of a plan, with the exact risk of a false alarm over all of them."""

    alpha: float
    evenings: tuple[Evening, ...]
    exact_alpha: float


@dataclass(frozen=True)
class EveningsReading:
    """Where a plan stands: the evening that showed a difference, if any, and the p so far.

    `shown_on` counts from 1. `p` is the chance that luck alone stops as early or earlier
    with at least as many right answers; None while no planned evening has been tasted.
    """

    tasted: int
    right: int
    answers: int
    shown_on: int | None
    p: float | None


def plan_evenings(method: Method, sizes: Sequence[int], alpha: float) -> EveningsPlan:
    """Limits for a tasting that is looked at after each evening.

    The risk is spent in step with the answers: after a third of them, at most a third of
    alpha. What the whole numbers leave unspent is carried on to the next evening.

    Args:
        method: a one-sided test.
        sizes: planned answers of each evening.
        alpha: highest risk of a false alarm over the whole tasting.

    Returns:
        The limits; the exact risk of the plan is at or below alpha by construction.

    Raises:
        UnusableInput: no evening, too many, an evening without tasters, a two-sided test.

    Source: alpha spending after Lan & DeMets (1983) Biometrika 70:659 (from memory), with
        every path of the binomial counted.
    """
    require_alpha(alpha)
    _require_sizes(method, sizes)
    total = sum(sizes)
    going, spent, looks = np.array([1.0]), 0.0, []
    for size, answers in zip(sizes, accumulate(sizes), strict=True):
        going = _after(going, size, method.guess)
        allowed = alpha * answers / total * (1.0 + 1e-12) - spent
        least = _least(going, allowed)
        spent += float(going[least:].sum())
        going = going[:least]
        looks.append(Evening(answers, least if least <= answers else None, spent))
    return EveningsPlan(alpha, tuple(looks), spent)


def _require_sizes(method: Method, sizes: Sequence[int]) -> None:
    if not 1 <= len(sizes) <= _MOST_EVENINGS:
        wanted = f"1 to {_MOST_EVENINGS} evenings, such as 8,8,8"
        raise UnusableInput(Fault("panel", 0, "evenings", str(len(sizes)), wanted))
    for size in (*sizes, sum(sizes)):
        require_answers(size)
    if method.two_sided:
        wanted = "a one-sided test: say beforehand which beer has more of the flavour"
        raise UnusableInput(Fault("panel", 0, "evenings", f"a {method.name}", wanted))


def _after(going: Numbers, size: int, share: float) -> Numbers:
    """Chances of each total after another evening, for tastings still going."""
    return np.convolve(going, exactly(np.arange(size + 1), size, share))


def _least(chances: Numbers, allowed: float) -> int:
    """The smallest total above which no more than the allowed chance lies."""
    above = np.cumsum(chances[::-1])[::-1]
    within = np.flatnonzero(above <= allowed)
    return int(within[0]) if within.size else chances.size


def read_evenings(method: Method, plan: EveningsPlan, right: Sequence[int]) -> EveningsReading:
    """Where a planned tasting stands after some of its evenings.

    Args:
        method: the test the plan was made for.
        plan: the plan, made before the first evening.
        right: right answers of each evening tasted so far.

    Returns:
        The reading. Evenings after the one that showed a difference do not count.

    Raises:
        UnusableInput: more evenings than planned, or more right answers than tasters.
    """
    if len(right) > len(plan.evenings):
        found, wanted = f"{len(right)} evenings", f"the {len(plan.evenings)} evenings planned"
        raise UnusableInput(Fault("panel", 0, "evenings", found, wanted))
    earlier = 0
    for count, look in zip(right, plan.evenings, strict=False):
        require_counts(count, look.answers - earlier)
        earlier = look.answers
    totals = list(accumulate(right))
    for place, (total, look) in enumerate(zip(totals, plan.evenings, strict=False)):
        if look.least_right is not None and total >= look.least_right:
            p = _chance_by(method, plan, place, total)
            return EveningsReading(place + 1, total, look.answers, place + 1, p)
    if not totals:
        return EveningsReading(0, 0, 0, None, None)
    last = len(totals) - 1
    p = _chance_by(method, plan, last, totals[-1])
    return EveningsReading(len(totals), totals[-1], plan.evenings[last].answers, None, p)


def _chance_by(method: Method, plan: EveningsPlan, place: int, total: int) -> float:
    """Chance of stopping before this evening, or of at least this total on it."""
    going, stopped, earlier = np.array([1.0]), 0.0, 0
    for look in plan.evenings[:place]:
        going = _after(going, look.answers - earlier, method.guess)
        least = going.size if look.least_right is None else look.least_right
        stopped, going, earlier = stopped + float(going[least:].sum()), going[:least], look.answers
    now = _after(going, plan.evenings[place].answers - earlier, method.guess)
    return min(1.0, stopped + float(now[total:].sum()))


def chance_to_show(plan: EveningsPlan, share: float) -> tuple[float, float]:
    """The chance that a plan shows a difference, and how many answers it takes on average.

    Args:
        plan: the plan.
        share: true chance of a right answer.

    Returns:
        Power, and mean number of answers.
    """
    going, shown, earlier, mean = np.array([1.0]), 0.0, 0, 0.0
    for look in plan.evenings:
        size = look.answers - earlier
        mean += size * float(going.sum())
        going = _after(going, size, share)
        least = going.size if look.least_right is None else look.least_right
        shown, going, earlier = shown + float(going[least:].sum()), going[:least], look.answers
    return shown, mean
