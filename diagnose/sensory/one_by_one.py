"""Tasting one answer after another: Wald's lines, with their true risks counted."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log

import numpy as np

from diagnose.errors import Fault, UnusableInput
from diagnose.sensory.methods import Method
from diagnose.sensory.refusing import require_alpha, require_answers

_ROUNDING = 1e-9


@dataclass(frozen=True)
class Lines:
    """Wald's two lines: stop at `slope` times answers plus an intercept."""

    slope: float
    same_intercept: float
    different_intercept: float


@dataclass(frozen=True)
class SequentialPlan:
    """When to stop, and the exact risks.

    `different_at` and `same_at` give, for 1, 2, 3 … answers, the right answers at which to
    stop; None where that cannot happen. No decision at `most` answers reads as "not shown".
    """

    lines: Lines
    least: int
    most: int
    different_at: tuple[int | None, ...]
    same_at: tuple[int | None, ...]
    exact_alpha: float
    exact_miss: float
    mean_answers_if_same: float
    mean_answers_if_different: float


def wald_lines(method: Method, share: float, alpha: float, miss: float) -> Lines:
    """Wald's lines for a difference that matters.

    Args:
        method: a one-sided test.
        share: chance of a right answer at the difference that matters.
        alpha: nominal risk of a false alarm.
        miss: nominal risk of missing the difference.

    Returns:
        The lines.

    Raises:
        UnusableInput: a share no better than luck, a risk that decides nothing, a two-sided
            test.

    Source: Wald (1947) Sequential Analysis (from memory); scope of ISO 16820 (seen).
    """
    require_alpha(alpha)
    require_alpha(miss)
    if not method.guess < share < 1.0 or method.two_sided:
        found, wanted = f"{share:g} in a {method.name}", "a one-sided test, and more than luck"
        raise UnusableInput(Fault("panel", 0, "share right", found, wanted))
    return _lines(method, share, log((1.0 - miss) / alpha), log(miss / (1.0 - alpha)))


def _lines(method: Method, share: float, different: float, same: float) -> Lines:
    wrong = log((1.0 - method.guess) / (1.0 - share))
    step = log(share / method.guess) + wrong
    return Lines(wrong / step, same / step, different / step)


def plan_one_by_one(
    method: Method, share: float, risks: tuple[float, float], *, least: int = 6, most: int = 30
) -> SequentialPlan:
    """When to stop tasting, with risks that hold.

    Args:
        method: a one-sided test.
        share: chance of a right answer at the difference that matters.
        risks: highest risk of a false alarm, and nominal risk of a miss.
        least: answers before any decision, so that one lucky taster does not decide.
        most: answers at which tasting ends.

    Returns:
        The plan. Its exact risk of a false alarm is at or below the first of `risks`: should
        Wald's line miss that, the upper line moves to where Ville's inequality promises it.

    Raises:
        UnusableInput: as `wald_lines`, or a span of answers that cannot be.
    """
    require_answers(least)
    require_answers(most)
    if least > most:
        raise UnusableInput(Fault("panel", 0, "most", str(most), f"at least {least} answers"))
    alpha, miss = risks
    plan = _counted(method, share, wald_lines(method, share, alpha, miss), (least, most))
    if plan.exact_alpha > alpha:
        safe = _lines(method, share, log(1.0 / alpha), log(miss / (1.0 - alpha)))
        plan = _counted(method, share, safe, (least, most))
    return plan


def _counted(method: Method, share: float, lines: Lines, span: tuple[int, int]) -> SequentialPlan:
    least, most = span
    different, same = [], []
    for answers in range(1, most + 1):
        middle = lines.slope * answers
        up = ceil(middle + lines.different_intercept - _ROUNDING)
        down = floor(middle + lines.same_intercept + _ROUNDING)
        different.append(max(up, 0) if answers >= least and up <= answers else None)
        same.append(down if answers >= least and down >= 0 else None)
    if_same = _walk(different, same, method.guess)
    if_different = _walk(different, same, share)
    return SequentialPlan(
        lines=lines,
        least=least,
        most=most,
        different_at=tuple(different),
        same_at=tuple(same),
        exact_alpha=if_same[0],
        exact_miss=1.0 - if_different[0],
        mean_answers_if_same=if_same[1],
        mean_answers_if_different=if_different[1],
    )


def _walk(
    different: Sequence[int | None], same: Sequence[int | None], share: float
) -> tuple[float, float]:
    """Chance of ending at "different", and mean number of answers, over every path."""
    going, shown, mean = np.array([1.0]), 0.0, 0.0
    for up, down in zip(different, same, strict=True):
        mean += float(going.sum())
        going = np.convolve(going, [1.0 - share, share])
        if up is not None:
            shown += float(going[up:].sum())
            going[up:] = 0.0
        if down is not None:
            going[: down + 1] = 0.0
    return shown, mean


def read_one_by_one(plan: SequentialPlan, answers: Sequence[bool]) -> tuple[str, int]:
    """What a run of answers comes to.

    Args:
        plan: the plan, made before the first answer.
        answers: right or wrong, in the order of tasting.

    Returns:
        "different", "same", "not shown" (the end of the plan) or "going on", and the number of
        answers it took.
    """
    right = 0
    stops = zip(answers, plan.different_at, plan.same_at, strict=False)
    for count, (is_right, up, down) in enumerate(stops, start=1):
        right += is_right
        if up is not None and right >= up:
            return "different", count
        if down is not None and right <= down:
            return "same", count
    return ("not shown", plan.most) if len(answers) >= plan.most else ("going on", len(answers))
