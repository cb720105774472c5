"""A plan does not contradict itself: the factor is not held equal, unserved beer has no panel."""

import re
from dataclasses import replace

import pytest

from diagnose.consult.split_choosing import ranking_of
from diagnose.report.sheets import plan_page
from diagnose.trial.choosing import READABLE_FROM, PanelAtHand, what_would_help
from diagnose.trial.equal import equal_in_all_arms
from diagnose.trial.fault import faults_in
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from tests.knowledge.shipped import rule_base
from tests.trial.arms import FAULTY, papery, plan_of, usual_plan

BUTTER = FAULTY.replace("wet cardboard", "butter")
PETROL = FAULTY.replace("wet cardboard", "wet cardboard and petrol")
(FAULT,) = faults_in(ranking_of(rule_base(), papery()))
WITH_SPLIT = [cause for cause, card in rule_base().causes.items() if card.split is not None]


@pytest.mark.parametrize("cause", WITH_SPLIT)
def test_no_factor_is_listed_as_equal(cause: str) -> None:
    rules = rule_base()
    hint = rules.causes[cause].split
    assert hint is not None
    compounds = tuple(name for name, card in rules.compounds.items() if cause in card.made_by)
    fault = replace(FAULT, compounds=compounds)
    listed = equal_in_all_arms(rules, fault, {cause: hint})
    assert hint.factor not in {one.what for one in listed.equal}
    assert not {one.what for one in listed.equal} & {one.what for one in listed.tied}


# Source of the table: what each factor is, by its card.
@pytest.mark.parametrize(
    ("cause", "text", "words"),
    [
        ("oxygen_at_packaging", FAULTY, "headspace, at most"),
        ("diacetyl_left_at_packaging", BUTTER, "temperature of the last third"),
        ("diacetyl_left_at_packaging", BUTTER, "days on the yeast"),
        ("uneven_fill_headspace", FAULTY, "carbonation and fill height"),
    ],
)
def test_what_goes_with_the_factor_is_tied_and_not_equal(cause: str, text: str, words: str) -> None:
    plan = plan_of(cause, text=text)
    assert any(one.what.startswith(words) for one in plan.tied)
    assert not any(one.what.startswith(words) for one in plan.equal)


def test_the_same_temperature_is_asked_for_but_for_the_factor() -> None:
    steps = [one.do for one in plan_of("diacetyl_left_at_packaging", text=BUTTER).steps]
    (same,) = (do for do in steps if "same temperature" in do)
    assert same.startswith("But for the factor itself (warm rest before the crash)")


def test_the_brew_sheet_points_nowhere_for_the_draw() -> None:
    steps = " ".join(one.do for one in usual_plan().steps)
    assert not re.search(r"made (above|below)", steps)


def test_a_beer_that_is_not_served_has_no_panel_in_its_plan() -> None:
    plan = plan_of(text=PETROL)
    assert plan.not_served_because
    assert not any(one.what.startswith("Taste:") for one in plan.dates)
    assert "Taste and serve nothing" in plan.steps[-1].do
    page = plan_page(plan)
    assert "no panel can read" in page
    assert "Chance</th>" not in page and "<h2>Controls" not in page


# Source: the definition of a readable split; the remedies are those of the card's words.
@pytest.mark.parametrize("tasters", [1, 2, 3, 4, 6, 8])
@pytest.mark.parametrize("test", TESTS_WITH_BALLOTS)
def test_no_remedy_is_offered_that_would_still_miss_the_fault(test: str, tasters: int) -> None:
    for words in what_would_help(test, PanelAtHand(tasters)):
        for share in re.findall(r"found in (\d+) %|finds it in (\d+) %", words):
            assert int("".join(share)) >= 100 * READABLE_FROM
