"""How many answers have to be right: the limits of each test."""

from diagnose.answers.panels import CriticalLine, PanelCriticals
from diagnose.consult.panel_counts import sizes_by_evening
from diagnose.consult.panel_words import limit_words
from diagnose.consult.type_next import after_criticals
from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import (
    A_NOT_A,
    DIFFERENCE_FROM_CONTROL,
    METHODS,
    Method,
    critical,
    least_hits,
    least_rank_sum,
    name_of_test,
    plan_evenings,
    power_a_not_a,
)
from diagnose.sensory.refusing import require_alpha, require_answers

_MOST_SINGLE_GLASSES = 200


def panel_criticals(
    test: str, alpha: float, tasters: int | None = None, evenings: str | None = None
) -> PanelCriticals:
    """How many answers have to be right.

    Args:
        test: the test as typed.
        alpha: highest risk of a false alarm.
        tasters: number of answers.
        evenings: planned answers of each evening, such as "8,8,8", instead of `tasters`.

    Raises:
        UnusableInput: something asked that cannot be.
    """
    answer = _criticals(test, alpha, tasters, evenings)
    return answer.model_copy(update={"type_next": after_criticals(answer)})


def _criticals(
    test: str, alpha: float, tasters: int | None, evenings: str | None
) -> PanelCriticals:
    require_alpha(alpha)
    if (tasters is None) == (evenings is None):
        found = "neither" if tasters is None else "both"
        raise UnusableInput(Fault("panel", 0, "", found, "either --tasters or --evenings"))
    name = name_of_test(test)
    if name in METHODS:
        method = METHODS[name]
        return (
            _evening_limits(method, alpha, evenings)
            if evenings is not None
            else _limit(method, alpha, tasters or 0)
        )
    if tasters is None:
        wanted = f"one of {', '.join(METHODS)} for tasting over several evenings"
        raise UnusableInput(Fault("panel", 0, "test", repr(test), wanted))
    require_answers(tasters)
    return _hit_limits(alpha, tasters) if name == A_NOT_A else _rank_limit(alpha, tasters)


def _limit(method: Method, alpha: float, tasters: int) -> PanelCriticals:
    found = critical(method, tasters, alpha)
    line = CriticalLine(
        answers=tasters, least_correct=found.least_right, exact_alpha=found.exact_alpha
    )
    return PanelCriticals(
        test=method.id,
        name=method.name,
        alpha=alpha,
        exact_alpha=found.exact_alpha,
        lines=(line,),
        says=limit_words(method, tasters, found.least_right, found.exact_alpha),
    )


def _evening_limits(method: Method, alpha: float, typed: str) -> PanelCriticals:
    plan = plan_evenings(method, sizes_by_evening(typed), alpha)
    return PanelCriticals(
        test=method.id,
        name=method.name,
        alpha=alpha,
        exact_alpha=plan.exact_alpha,
        lines=tuple(
            CriticalLine(
                answers=evening.answers,
                least_correct=evening.least_right,
                exact_alpha=evening.exact_alpha_so_far,
                note=f"after evening {number}, all answers so far",
            )
            for number, evening in enumerate(plan.evenings, start=1)
        ),
        says="stop after the first evening that reaches its limit; else go on to the last",
        remarks=("fix the evenings before the first glass; adding one later undoes the limits",),
    )


def _hit_limits(alpha: float, tasters: int) -> PanelCriticals:
    if tasters > _MOST_SINGLE_GLASSES:
        wanted = f"at most {_MOST_SINGLE_GLASSES} glasses of each beer for this test"
        raise UnusableInput(Fault("panel", 0, "tasters", str(tasters), wanted))
    hits = [(false, least_hits(tasters, false, alpha)) for false in range(tasters)]
    true_risk = power_a_not_a(tasters, 0.0, alpha)
    return PanelCriticals(
        test=A_NOT_A,
        name="A-not-A test",
        alpha=alpha,
        exact_alpha=true_risk,
        lines=tuple(
            CriticalLine(
                answers=tasters,
                least_correct=least,
                exact_alpha=true_risk,
                note=f"with {false} false alarms",
            )
            for false, least in hits
            if least is not None
        ),
        says=f"hits needed among {tasters} glasses of A, by false alarms among {tasters} others",
        remarks=("the true risk is that of tasters who say 'A' every second time",),
    )


def _rank_limit(alpha: float, tasters: int) -> PanelCriticals:
    least, p = least_rank_sum(tasters, alpha)
    line = CriticalLine(
        answers=tasters, least_correct=least, exact_alpha=p, note="sum of the ranks"
    )
    reach = tasters * (tasters + 1) // 2
    says = (
        f"{tasters} ratings of one mind are not enough"
        if least is None
        else f"a rank sum of {least} of {reach} for the test beer shows a difference"
    )
    return PanelCriticals(
        test=DIFFERENCE_FROM_CONTROL,
        name="difference from control",
        alpha=alpha,
        exact_alpha=p,
        lines=(line,),
        says=says,
        remarks=("subtract each taster's rating of the blind control first",),
    )
