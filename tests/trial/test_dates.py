"""The dates of a split: the brew first where there is one, then vessel and package."""

from datetime import timedelta

import pytest

from diagnose.knowledge.causes import SplitHint
from diagnose.trial.dates import dates_of, waits_of
from diagnose.trial.stages import SPLIT_POINTS
from tests.knowledge.shipped import rule_base
from tests.trial.arms import CAUSE, DAY, plan_of, usual_plan

WITH_SPLIT = [cause for cause, card in rule_base().causes.items() if card.split is not None]


def hint_of(stage: str, weeks: float) -> SplitHint:
    told = {"factor": "f", "arms": ("a", "b"), "litres": 5, "basis": "judgement"}
    return SplitHint.model_validate(
        {"stage": stage, "weeks": weeks, "source": "trade_judgement", **told}
    )


# Source of the table: common practice, no source: two weeks in the fermenter, dry hops at ten days,
# two weeks in the package before the beer is judged.
@pytest.mark.parametrize(
    ("hints", "divided", "packaged", "tasted"),
    [
        ([("mash", 4)], 0, 14, 28),
        ([("pitch", 3)], 0, 10, 21),
        ([("fermentation", 14)], 0, 84, 98),
        ([("dry_hop", 5)], 10, 31, 45),
        ([("transfer", 6)], 14, 42, 56),
        ([("packaging", 6)], 14, 14, 56),
        ([("storage", 8)], 0, 0, 56),
        ([("serving", 0.1)], 0, 0, 1),
        ([("mash", 12), ("packaging", 6)], 0, 70, 112),
        ([("packaging", 6), ("storage", 3)], 14, 14, 56),
    ],
)
def test_a_split_waits_for_the_brew_the_vessel_and_the_package(hints, divided, packaged, tasted):
    waits = waits_of([hint_of(*one) for one in hints])
    assert (waits.divided, waits.packaged, waits.tasted) == (divided, packaged, tasted)


def test_a_beer_that_is_divided_at_the_filling_is_brewed_first():
    first, second, *_, last = usual_plan().dates
    assert first.day == DAY and first.what.startswith("Brew: the whole batch")
    assert second.day == DAY + timedelta(weeks=2) and second.what.startswith("Divide")
    assert last.day == second.day + timedelta(weeks=6)


@pytest.mark.parametrize("cause", WITH_SPLIT)
def test_the_calendar_begins_with_the_brew_wherever_there_is_one(cause):
    hint = rule_base().causes[cause].split
    assert hint is not None
    days = dates_of([hint], DAY)
    there_already = SPLIT_POINTS[hint.stage].place >= SPLIT_POINTS["storage"].place
    assert days[0].day == DAY
    assert days[0].what.startswith("Divide" if there_already else "Brew")
    assert [one.day for one in days] == sorted(one.day for one in days)


def test_the_sheet_that_says_to_brew_has_the_brew_in_its_dates():
    for causes in ((CAUSE,), (CAUSE, "warm_storage"), ("warm_storage",)):
        plan = plan_of(*causes, design="search" if len(causes) > 1 else "isolating")
        says_so = any(step.do.startswith("Brew ") for step in plan.steps)
        assert says_so == plan.dates[0].what.startswith("Brew")
