"""The accounts of the exam: each has a source and an answer, can be diagnosed, and is no lesson."""

import pytest

from diagnose.answers import Diagnosis
from diagnose.casebook import Case, read_cases, replay
from tests.knowledge.shipped import CASES, TODAY, case_ids, rule_base

ACCOUNTS = read_cases(CASES / "field")
LEAST_ACCOUNTS = 50


@pytest.fixture(scope="module")
def answers() -> dict[str, Diagnosis]:
    return {case.card.id: replay(rule_base(), case, TODAY) for case in ACCOUNTS}


def test_there_are_enough_accounts_to_mean_something() -> None:
    assert len(ACCOUNTS) >= LEAST_ACCOUNTS


@pytest.mark.parametrize("case", ACCOUNTS, ids=lambda case: case.card.id)
def test_an_account_names_its_source_and_its_answer(case: Case) -> None:
    exam = case.card.exam
    assert exam is not None
    assert exam.source
    assert exam.truth or exam.verdict != "fault"
    assert {*exam.truth, *exam.also} <= set(rule_base().causes)


@pytest.mark.parametrize("case", ACCOUNTS, ids=lambda case: case.card.id)
def test_an_account_is_diagnosed_with_shares_that_sum_to_no_more_than_one(
    case: Case, answers: dict[str, Diagnosis]
) -> None:
    for group in answers[case.card.id].faults:
        shares = sum(cause.responsible for cause in group.causes)
        assert shares + group.expected_here + group.not_in_rule_base <= 1.0 + 1e-9


def test_no_cause_takes_an_account_for_its_lesson() -> None:
    lessons = {
        name
        for cause in rule_base().causes.values()
        for name in (cause.loud_case, cause.quiet_case)
    }
    assert lessons <= set(case_ids())
