"""Which suspect to put to a split: order, readability, bundles, and the arms of every card."""

import re

import pytest
from pydantic import ValidationError

from diagnose.consult.split_choosing import choose, ranking_of
from diagnose.errors import UnusableInput
from diagnose.knowledge.causes import SplitHint
from diagnose.sensory import METHODS
from diagnose.trial.arms import settings_of
from diagnose.trial.choosing import PanelAtHand, choose_split
from diagnose.trial.costs import cost_of
from diagnose.trial.fault import faults_in
from diagnose.trial.fitting import fitting_test
from diagnose.trial.gains import expected_bits
from diagnose.trial.likelihood import readout_of_panel
from diagnose.trial.stages import SPLIT_POINTS, acts_before
from tests.knowledge.shipped import rule_base
from tests.trial.arms import CAUSE, consultation_of, papery

HINT = {
    "stage": "fermentation",
    "factor": "time on the yeast",
    "arms": ("kept", "racked"),
    "litres": 5,
    "weeks": 4,
    "basis": "judgement",
    "source": "trade_judgement",
}
OPEN = "batch: this beer\nstyle: bitter\ntastings: [{who: Pike, words: harsh}]\n"


def chosen(text: str = "", tasters: int = 9, rounds: int = 1, test: str | None = None):
    consultation = consultation_of(text) if text else papery()
    return choose(rule_base(), consultation, PanelAtHand(tasters, rounds, test))


def test_readable_splits_come_by_information_for_their_cost():
    lines = chosen().candidates
    worth = [one.bits_per_unit for one in lines[1:] if one.readable]
    assert worth == sorted(worth, reverse=True)
    assert lines[0].bits_per_unit >= 0.8 * max(one.bits_per_unit for one in lines)


def test_every_live_suspect_with_a_split_is_listed():
    (fault,) = faults_in(ranking_of(rule_base(), papery()))
    rules = rule_base()
    live = {c for c in fault.explanations[:-2] if fault.share(c) >= 0.02 and rules.causes[c].split}
    assert {one.cause for one in chosen().candidates} == live


# Source of the table: the units of `costs` by hand: an extra brew day, four weeks or twenty litres
# is one, an evening of tasting a quarter of one and two hours (practice and judgement). A beer that
# is divided at the filling is brewed two weeks before (practice).
COSTS = [
    ({}, 1, (0.0, 10.0, 4.0, 1.5 + 2.0, 0.0 + 1.0 + 0.5 + 0.25)),
    ({}, 2, (0.0, 20.0, 4.0, 3.0 + 2.0, 0.0 + 1.0 + 1.0 + 0.25)),
    ({"stage": "mash", "weeks": 8}, 2, (2.0, 20.0, 8.0, 12.0 + 2.0, 2.0 + 2.0 + 1.0 + 0.25)),
    ({"stage": "packaging"}, 1, (0.0, 10.0, 6.0, 0.75 + 2.0, 0.0 + 1.5 + 0.5 + 0.25)),
]


@pytest.mark.parametrize(("told", "pairs", "expected"), COSTS)
def test_a_split_costs_its_days_beer_waiting_and_panel(told, pairs, expected):
    cost = cost_of(SplitHint(**{**HINT, **told}), pairs)
    found = (cost.brew_days, cost.litres, cost.weeks, cost.hours, cost.units)
    assert found == pytest.approx(expected)


def test_the_gain_of_a_candidate_is_that_of_its_readout_on_the_ranking():
    line = next(one for one in chosen().candidates if one.cause == CAUSE)
    (fault,) = faults_in(ranking_of(rule_base(), papery()))
    readout = readout_of_panel(METHODS[line.test], 9, line.fires, line.harmless)
    bits = expected_bits(fault.shares, {fault.place(CAUSE): readout})
    assert line.gain_bits == pytest.approx(bits)
    assert line.gain_bits > 0.01


def test_a_guilty_suspect_makes_more_right_answers_than_an_innocent_one():
    for one in chosen().candidates:
        assert one.right_if_so > one.right_if_not >= 0.5 * one.answers * 0.99
        assert one.shown_if_so > one.shown_if_not


def test_more_tasters_teach_more_and_find_more():
    few, many = (
        next(one for one in chosen(tasters=n).candidates if one.cause == CAUSE) for n in (6, 18)
    )
    assert many.gain_bits > few.gain_bits
    assert many.power > few.power


def test_rounds_count_as_answers():
    assert chosen(tasters=3, rounds=4).candidates == chosen(tasters=12).candidates


def test_a_panel_that_cannot_read_a_split_is_told_what_would_help():
    for one in chosen(tasters=6, test="triangle").candidates:
        assert not one.readable
        assert any("answers instead of 6" in words for words in one.would_help)
        assert any("spiked" in words for words in one.would_help)


def test_a_readable_split_needs_no_help():
    assert all(one.readable and not one.would_help for one in chosen().candidates)


def test_a_cheap_check_goes_before_a_split():
    answer = chosen()
    assert answer.check_first is not None
    assert answer.says.startswith("Not worth a split yet")
    assert answer.check_first.text in answer.says


def test_where_no_suspect_leads_half_of_them_are_bundled():
    answer = chosen(OPEN)
    assert max(one.responsible for one in answer.candidates) <= 0.30
    assert answer.bundle is not None
    assert 2 <= len(answer.bundle.causes) <= 4
    assert answer.bundle.gain_bits > 0.0
    assert "search, not proof" in answer.bundle.says


def test_where_one_suspect_leads_there_is_no_bundle():
    assert chosen().bundle is None


def test_a_batch_that_must_not_be_tasted_is_marked():
    answer = chosen("batch: b\ntastings: [{who: Pike, words: 'wet cardboard, mouldy, petrol'}]\n")
    assert answer.cautions
    assert all(one.not_served for one in answer.candidates)


def test_nothing_said_of_the_taste_is_refused():
    with pytest.raises(UnusableInput, match="no word about the flavour"):
        chosen("batch: b\nstyle: bitter\n")


@pytest.mark.parametrize(("tasters", "rounds"), [(0, 1), (-1, 1), (9, 0), (200_000, 1)])
def test_a_panel_of_nobody_or_of_a_town_is_refused(tasters, rounds):
    with pytest.raises(UnusableInput, match=r"taster|answers"):
        chosen(tasters=tasters, rounds=rounds)


# Source of the table: the text, "the default test follows the fault".
FITTING = [
    (("butter",), True, {}, "2-afc"),
    (("something_off",), False, {}, "tetrad"),
    (("tea_bag",), True, {}, "triangle"),
    (("smoke", "butter"), True, {}, "triangle"),
    (("butter",), True, {"spread": "some_packages"}, "difference-from-control"),
    (("tea_bag",), True, {"spread": "one_package"}, "difference-from-control"),
    (("butter",), True, {"spread": "every_package"}, "2-afc"),
]


@pytest.mark.parametrize(("words", "named", "told", "test"), FITTING)
def test_the_test_follows_the_fault(words, named, told, test):
    assert fitting_test(words, named, told).test == test


def test_a_fault_nobody_could_name_can_still_be_split():
    text = "batch: b\npackaging: {package: bottle, fill: open pour}\ntastings: [{words: odd}]\n"
    choice = choose_split(
        rule_base(), ranking_of(rule_base(), consultation_of(text)), {}, PanelAtHand(9)
    )
    assert all(one.test == "tetrad" for one in choice.candidates)


@pytest.mark.parametrize(
    ("suspect", "settings"),
    [({}, ("kept", "racked")), ({"suspect": "second"}, ("racked", "kept"))],
    ids=["unsaid", "second"],
)
def test_the_arm_that_a_card_names_brings_the_fault(suspect, settings):
    assert settings_of(SplitHint.model_validate(HINT | suspect)) == settings


def test_a_card_has_no_third_arm():
    with pytest.raises(ValidationError, match="'first' or 'second'"):
        SplitHint.model_validate(HINT | {"suspect": "third"})


# Words by which a card says that an arm is as the faulty batch was.
AS_IT_WAS = re.compile(r"\b(as before|as usual|as brewed|as used|as it comes|suspect|in doubt)\b")


def test_a_setting_that_is_as_the_faulty_batch_was_is_the_suspect_one():
    for cause in rule_base().causes.values():
        if cause.split is None:
            continue
        suspect, other = settings_of(cause.split)
        assert not (AS_IT_WAS.search(other) and not AS_IT_WAS.search(suspect)), cause.id


def test_every_stage_of_a_split_has_its_moment():
    stages = {c.split.stage for c in rule_base().causes.values() if c.split is not None}
    assert stages <= set(SPLIT_POINTS)


@pytest.mark.parametrize(
    ("stage", "split", "over"),
    [("mash", "pitch", True), ("pitch", "mash", False), ("cleaning", "storage", False)],
)
def test_what_was_over_at_the_division_is_shared(stage, split, over):
    assert acts_before(stage, split) is over
