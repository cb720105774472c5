"""Several rounds by the same tasters, and several evenings, in words."""

from diagnose.answers.panels import EveningLine, PanelRead, TastersLine
from diagnose.consult.panel_counts import counts_by_evening
from diagnose.consult.panel_words import few_words, p_words, share_words, times_words
from diagnose.sensory import (
    EveningsPlan,
    EveningsReading,
    Method,
    chance_to_show,
    plan_evenings,
    read_evenings,
    read_replicated,
    share_from_able,
)
from diagnose.sensory.refusing import require_share


def tasters_line(method: Method, counts: tuple[tuple[int, int], ...]) -> TastersLine:
    """What the answers are worth when tasters may differ."""
    found = read_replicated(method, counts)
    worth = f"{found.answers} answers are worth about {found.worth_answers:.1f} independent ones"
    return TastersLine(
        tasters=found.tasters,
        answers=found.answers,
        worth_answers=found.worth_answers,
        gamma=found.gamma,
        p_tasters_alike=found.p_alike,
        p_elsewhere=found.p_elsewhere,
        says=f"{worth} for what other people would taste ({p_words(found.p_elsewhere)})",
    )


def about_rounds(method: Method, alpha: float, line: TastersLine) -> tuple[str, ...]:
    """What to keep in mind when the same tasters answered several times."""
    found = ["the result holds for these tasters; other people may taste more, or less"]
    if line.p_tasters_alike <= alpha:
        found.append("the tasters differ: a total hides those who can tell, so ask them again")
    if method.two_sided:
        found.append("tasters may favour different beers, so nothing is ruled out here")
    return tuple(found)


def read_by_evening(method: Method, typed: str, alpha: float, able: float) -> PanelRead:
    """Where a tasting planned over several evenings stands.

    Raises:
        UnusableInput: evenings that cannot be read, or counts that cannot be.
    """
    require_share("discriminators", able)
    told = counts_by_evening(typed)
    plan = plan_evenings(method, [size for _, size in told], alpha)
    tasted = [right for right, _ in told if right is not None]
    found = read_evenings(method, plan, tasted)
    missed = 1.0 - chance_to_show(plan, share_from_able(method, able))[0]
    is_over = found.shown_on is not None or found.tasted == len(plan.evenings)
    verdict = "shown" if found.shown_on is not None else "not_shown" if is_over else "going_on"
    few = few_words(method, found.answers) if is_over else ""
    return PanelRead(
        test=method.id,
        name=method.name,
        given=f"{found.right} of {found.answers} right after {found.tasted} evenings",
        correct=found.right,
        of=found.answers,
        alpha=alpha,
        p=found.p,
        exact_alpha=plan.exact_alpha,
        verdict=verdict,
        says=_evening_words(plan, found, (able, missed), few=bool(few)),
        too_few=bool(few),
        able_that_matters=able,
        missed=missed,
        evenings=_evening_lines(plan, tasted),
        remarks=(
            *((few,) if few else ()),
            "the p counts every chance there was to stop earlier",
            "holds only if these evenings were planned before the first glass",
        ),
    )


def _evening_words(
    plan: EveningsPlan, found: EveningsReading, matters: tuple[float, float], *, few: bool
) -> str:
    able, missed = matters
    if found.shown_on is not None and found.p is not None:
        end = "too few to rely on, so repeat it" if few else "stop here"
        return f"shown on evening {found.shown_on} ({p_words(found.p)}); {end}"
    if found.tasted == len(plan.evenings):
        taste = f"a difference {share_words(able)} could taste"
        return f"not shown; {taste} would still be missed {times_words(missed)}"
    after = plan.evenings[found.tasted]
    if after.least_right is None:
        return "undecided; go on, the next evening cannot show a difference yet"
    return (
        f"undecided; go on: {after.least_right} right of {after.answers} in all would show a "
        "difference after the next evening"
    )


def _evening_lines(plan: EveningsPlan, tasted: list[int]) -> tuple[EveningLine, ...]:
    lines = []
    for number, evening in enumerate(plan.evenings):
        so_far = sum(tasted[: number + 1]) if number < len(tasted) else None
        lines.append(
            EveningLine(
                answers_so_far=evening.answers,
                least_correct=evening.least_right,
                correct_so_far=so_far,
            )
        )
    return tuple(lines)
