"""The shipped cases: what each teaches must come out, and each is fit to be shown."""

import re

import pytest

from diagnose.casebook import demo_case, read_cases, score_case
from diagnose.casebook.case import Expect
from diagnose.consult import check_batch
from tests.casebook.replayed import case_called, consultation_of, diagnosis_of
from tests.knowledge.shipped import CASES, case_folders, case_ids, rule_base

every_case = pytest.mark.parametrize("case_id", case_ids())
CAUSES = sorted(rule_base().causes)
HOUSEHOLD_NAMES = sorted(
    {name for card in rule_base().descriptors.values() for name in card.match_only}
)
FEWEST_CASES, FEWEST_PAIRS = 12, 2
TEXTS = (".yaml", ".csv", ".md", ".txt")


@every_case
def test_what_the_case_teaches_comes_out(case_id: str) -> None:
    score = score_case(case_called(case_id), diagnosis_of(case_id))
    assert score.holds, score.why


@every_case
def test_a_case_expects_something(case_id: str) -> None:
    assert case_called(case_id).card.expect != Expect()


@every_case
def test_a_case_expects_only_causes_and_questions_there_are(case_id: str) -> None:
    rules, expect = rule_base(), case_called(case_id).card.expect
    asked = {*rules.measures, *rules.circumstances, *rules.checks, *rules.descriptors}
    assert {*expect.first, *expect.quiet} <= set(rules.causes)
    assert set(expect.asks) <= asked


@every_case
def test_no_cause_is_expected_both_first_and_quiet(case_id: str) -> None:
    expect = case_called(case_id).card.expect
    assert not set(expect.first) & set(expect.quiet)


@every_case
def test_every_flavour_word_of_a_case_is_understood(case_id: str) -> None:
    assert consultation_of(case_id).known.heard


@every_case
def test_a_case_s_record_can_be_checked(case_id: str) -> None:
    assert check_batch(rule_base(), consultation_of(case_id)).entries > 0


@every_case
def test_a_case_names_no_household_brand(case_id: str) -> None:
    files = [path for path in (CASES / case_id).iterdir() if path.suffix in TEXTS]
    for path in files:
        text = path.read_text(encoding="utf-8")
        named = [
            name for name in HOUSEHOLD_NAMES if re.search(rf"\b{re.escape(name)}\b", text, re.I)
        ]
        assert named == [], path.name


@every_case
def test_a_pair_names_each_other(case_id: str) -> None:
    pair = case_called(case_id).card.pair
    assert pair is None or case_called(pair).card.pair == case_id


@every_case
def test_a_case_s_probe_log_stands_beside_its_record_and_is_named_in_it(case_id: str) -> None:
    logs = {path.name for path in (CASES / case_id).glob("*.csv")}
    named = consultation_of(case_id).batch.record.fermentation.probe_log
    assert logs == ({named} if isinstance(named, str) else set())


@pytest.mark.parametrize("cause", CAUSES)
def test_every_cause_has_a_case_that_it_must_win(cause: str) -> None:
    loud = rule_base().causes[cause].loud_case
    assert cause in case_called(loud).card.expect.first


@pytest.mark.parametrize("cause", CAUSES)
def test_every_cause_has_a_case_in_which_it_must_stay_quiet(cause: str) -> None:
    quiet = rule_base().causes[cause].quiet_case
    assert cause in case_called(quiet).card.expect.quiet


def test_there_are_enough_cases_and_pairs() -> None:
    cards = [case.card for case in read_cases(CASES)]
    pairs = {frozenset((card.id, card.pair)) for card in cards if card.pair}
    assert len(cards) >= FEWEST_CASES
    assert len(pairs) >= FEWEST_PAIRS


def test_there_is_one_demo() -> None:
    demos = [case.card.id for case in read_cases(CASES) if case.card.demo]
    assert demos == [demo_case(CASES).card.id]


def test_every_folder_of_cases_holds_a_case() -> None:
    assert [f.name for f in case_folders() if not (f / "case.yaml").is_file()] == []


def test_every_case_has_a_record() -> None:
    assert [f.name for f in case_folders() if not (f / "batch.yaml").is_file()] == []
