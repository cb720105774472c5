"""A panel of few tasters: warned of before it is poured, and never the ground for a firm step."""

import re

import pytest

from diagnose.consult.panel_reading import ReadAsked, read_panel
from diagnose.sensory import METHODS, STRONG_FACTOR, bayes_reading, fewest_answers
from tests.cli.split_folder import Folder

# Source of the tables below: the definition of the Bayes factor; what counts as strong is the
# custom named beside the bands. No published table of these counts is known to us.
FIRM = re.compile("for good|[Cc]lose|Turn to|Look elsewhere")


@pytest.mark.parametrize("test", METHODS)
def test_fewer_answers_than_the_fewest_are_never_strong_evidence(test: str) -> None:
    method = METHODS[test]
    fewest = fewest_answers(method)
    factors = [
        bayes_reading(method, right, answers).factor
        for answers in range(1, fewest)
        for right in range(answers + 1)
    ]
    assert max(factors) < STRONG_FACTOR <= bayes_reading(method, fewest, fewest).factor


def test_three_of_nine_planned_are_warned_of_before_they_are_poured(folder: Folder) -> None:
    folder.plan()
    few = folder.ballots(tasters=3)["few"]
    assert "3 answers are too few to rely on" in few[0]
    assert few[1] == "3 answers where 9 were planned"


def test_nine_of_nine_planned_are_not_warned_of(folder: Folder) -> None:
    folder.plan()
    assert folder.ballots()["few"] == []


def test_rounds_of_the_same_tasters_count_as_answers(folder: Folder) -> None:
    folder.plan()
    assert folder.ballots("--rounds", 3, tasters=3)["few"] == []


@pytest.mark.parametrize(("right", "share"), [(0, 0.06), (3, 0.9)])
def test_nothing_firm_is_said_on_three_answers(folder: Folder, right: int, share: float) -> None:
    read = folder.read(right, of=3, share=share)
    assert not FIRM.search(" ".join(read["next"]))
    assert "neither change nor drop anything" in read["next"][0]
    assert "3 answers are too few to rely on" in " ".join(read["not_known"])


def test_a_suspect_that_was_likely_is_not_changed_for_good_where_nothing_is_shown(
    folder: Folder,
) -> None:
    read = folder.read(6, of=8, share=0.9)
    assert read["ratios"][0]["ratio"] > 1.25
    assert read["panel"]["verdict"] == "not_shown"
    assert "Confirm by repeat" in read["next"][0]


def test_nine_right_of_nine_change_it_for_good(folder: Folder) -> None:
    assert "Change it for good" in folder.read(9, share=0.9)["next"][0]


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (ReadAsked("triangle", 3, 3), "shown, but by too few to rely on"),
        (ReadAsked("2-afc", 0, 3), "not shown, but by too few to rely on"),
        (ReadAsked("triangle", evenings="3 of 3, - of 3"), "too few to rely on, so repeat it"),
        (ReadAsked("dfc", ratings="5,4,6,5", control="2,1,3,1"), "shown, but by too few"),
    ],
)
def test_a_panel_of_few_is_read_with_a_grain_of_salt(asked: ReadAsked, says: str) -> None:
    answer = read_panel(asked)
    assert says in answer.says
    assert any("too few to rely on: a perfect score" in words for words in answer.remarks)
