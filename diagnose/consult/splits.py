"""What a brewer can ask of a split: choose, plan, check, serve, enter and read."""

from pathlib import Path

from diagnose.answers.splits import BallotsMade, DayLine, SplitChecked, SplitChoice, SplitPlanned
from diagnose.consult.gathering import Consultation
from diagnose.consult.split_checking import check, check_text
from diagnose.consult.split_choosing import choose
from diagnose.consult.split_files import (
    BALLOTS_PAGE,
    BOX,
    CALENDAR,
    CHECK,
    HOST_PAGE,
    KEY,
    PANEL,
    PLAN,
    PLAN_PAGE,
    POURER_PAGE,
    PlanAt,
    plan_at,
    require_new,
    write_whole,
)
from diagnose.consult.split_kept import reading_kept, taught_by
from diagnose.consult.split_learning import few_answers
from diagnose.consult.split_panels import (
    PouredPanel,
    arms_words,
    ballots_made,
    enter,
    glasses_each,
    pour,
)
from diagnose.consult.split_planning import cautions_of, planned
from diagnose.consult.split_reading import ReadBack, read_back
from diagnose.consult.type_next import after_check, after_choice, command, folder_of_pair
from diagnose.documents import read_text
from diagnose.knowledge import RuleBase
from diagnose.trial.fitting import counting_method
from diagnose.trial.plan import Plan
from diagnose.trial.plan_file import text_of
from diagnose.trial.sealing import sealed
from diagnose.trial.steps import setting_words
from diagnose.trial.waiting import calendar_text


def priced(choice: SplitChoice, litre_costs: float | None) -> SplitChoice:
    """The choice with what the beer of each split costs.

    Args:
        choice: what could be split.
        litre_costs: what a litre costs the brewer, in whatever money; None leaves it out.
    """
    if litre_costs is None:
        return choice
    candidates = tuple(
        one.model_copy(update={"money": one.litres * litre_costs}) for one in choice.candidates
    )
    return choice.model_copy(update={"candidates": candidates})


def keep_plan(folder: Path, plan: Plan, page: str) -> SplitPlanned:
    """Write a plan down: the file that later steps read, its page and its calendar.

    Args:
        folder: where; made if need be.
        plan: the plan.
        page: the plan as a printable page.

    Raises:
        UnusableInput: there is a plan in it already.
    """
    names = (PLAN, PLAN_PAGE, CALENDAR)
    require_new(folder, names)
    heading = "A split as it was planned; change nothing here once the brew is under way."
    texts = (text_of(plan, heading), page, calendar_text(plan))
    for name, text in zip(names, texts, strict=True):
        write_whole(folder / name, text)
    return SplitPlanned(
        batch=plan.batch,
        causes=tuple(factor.cause for factor in plan.factors),
        names=tuple(factor.name for factor in plan.factors),
        design=plan.design,
        files=tuple(str(folder / name) for name in names),
        arms={arm.label: setting_words(plan.factors, arm) for arm in plan.arms},
        vessels={vessel.number: vessel.arm for vessel in plan.vessels},
        seed=plan.seed,
        litres_per_vessel=plan.litres_per_arm,
        test=plan.test,
        tasters=plan.tasters,
        dates=tuple(DayLine(day=one.day, what=one.what) for one in plan.dates),
        tasting_on=None if plan.not_served_because else plan.dates[-1].day,
        not_served_because=plan.not_served_because,
        remarks=_remarks(plan),
        cautions=cautions_of(plan),
        next_=command("split", "check", "A.yaml", "B.yaml", "--plan", folder / PLAN),
    )


def _remarks(plan: Plan) -> tuple[str, ...]:
    few = few_answers(plan, counting_method(plan.test), plan.tasters)
    started = ("starts from the ranking that the splits before left",) if plan.taught else ()
    return (*few, *started, *plan.remarks)


def keep_panel(
    at: PlanAt, pair: int, poured: PouredPanel, pages: tuple[str, str, str]
) -> BallotsMade:
    """Write a panel down: ballots, host's and pourer's sheets, the sealed key, an empty box.

    A further pair of vessels, where one was served already, gets a folder of its own with the
    plan and the check of the arms in it.

    Args:
        at: the plan and its folder.
        pair: the pair of vessels that is served.
        poured: the panel as drawn.
        pages: the ballots, the host's sheet and the pourer's.

    Raises:
        UnusableInput: a panel was made there already.
    """
    names = (PANEL, KEY, BALLOTS_PAGE, HOST_PAGE, POURER_PAGE)
    further = pair > 1 and (at.folder / PANEL).exists()
    folder = at.folder / folder_of_pair(pair) if further else at.folder
    require_new(folder, (*names, BOX))
    texts = (
        text_of(poured.panel, "A blind panel; the key is kept apart."),
        sealed(poured.key),
        *pages,
    )
    for name, text in zip(names, texts, strict=True):
        write_whole(folder / name, text)
    if further:
        _copy_plan(at.folder, folder)
    answer = ballots_made(poured, tuple(str(folder / name) for name in names))
    typed = command("split", "enter", folder, answer.tasters[0], "CODE")
    return answer.model_copy(update={"type_next": typed, "arms": arms_words(folder)})


def _copy_plan(base: Path, folder: Path) -> None:
    for name in (PLAN, CHECK):
        if (base / name).is_file():
            write_whole(folder / name, read_text(base / name))


def check_arms(
    rules: RuleBase, first: Consultation, second: Consultation, plan: Path | None
) -> SplitChecked:
    """Compare two arms; with a plan, what was found is written beside it for the reading.

    Raises:
        UnusableInput: see `check`.
    """
    planned_at = None if plan is None else plan_at(plan)
    answer = check(rules, first, second, planned_at)
    if planned_at is None:
        typed = command("split", "choose", first.batch.document.name)
        return answer.model_copy(update={"type_next": typed})
    path = planned_at.folder / CHECK
    write_whole(path, check_text(answer))
    files = (first.batch.document.name, second.batch.document.name)
    typed = after_check(answer, files, str(planned_at.folder), planned_at.plan)
    return answer.model_copy(update={"written": str(path), "type_next": typed})


__all__ = [
    "PouredPanel",
    "ReadBack",
    "after_choice",
    "check_arms",
    "choose",
    "enter",
    "glasses_each",
    "keep_panel",
    "keep_plan",
    "plan_at",
    "planned",
    "pour",
    "priced",
    "read_back",
    "reading_kept",
    "taught_by",
]
