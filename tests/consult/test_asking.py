"""What is asked next: only what is open, only what tells, in words a brewer can answer."""

import pytest

from diagnose.consult import diagnose
from diagnose.consult.asked_before import asked_in_vain
from diagnose.consult.asking import questions_about
from diagnose.consult.stepping import LEAST_BITS, SHOWN_STEPS
from diagnose.inference.question import Question
from tests.consult.asked import asked
from tests.knowledge.shipped import rule_base

SUSPECTS = [
    ["diacetyl_left_at_packaging", "hop_creep", "lactic_contamination"],
    ["chlorinated_water", "wild_yeast_contamination"],
    ["overprimed"],
]


def questions(suspects: list[str], words: str = "", record: str = "batch: b") -> list[Question]:
    return questions_about(rule_base(), asked(words, record).known, suspects)


@pytest.mark.parametrize("suspects", SUSPECTS)
def test_no_question_is_put_twice(suspects: list[str]) -> None:
    keys = [question.key for question in questions(suspects)]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("suspects", SUSPECTS)
def test_every_question_has_two_answers_that_can_come_up(suspects: list[str]) -> None:
    for question in questions(suspects):
        assert len(question.answers) >= 2
        assert all(answer.share > 0.0 and answer.label.strip() for answer in question.answers)


@pytest.mark.parametrize("suspects", SUSPECTS)
def test_an_entry_is_asked_for_only_if_a_suspect_listens_to_it(suspects: list[str]) -> None:
    heard = {i.measure for suspect in suspects for i in rule_base().causes[suspect].indicators}
    entries = {question.key for question in questions(suspects) if question.kind == "entry"}
    assert entries == heard


@pytest.mark.parametrize("suspects", SUSPECTS)
def test_a_circumstance_is_asked_for_only_if_it_tells_of_a_suspect(suspects: list[str]) -> None:
    told = {key for suspect in suspects for key in rule_base().causes[suspect].circumstances}
    asked_for = {q.key for q in questions(suspects) if q.kind == "question" and q.word is None}
    assert asked_for == told


# Source of the table: first principles; what is known is not asked for.
@pytest.mark.parametrize(
    ("words", "record", "known"),
    [
        ("", "fault: {spread: every_package}", "spread"),
        ("butter, every bottle", "batch: b", "spread"),
        ("", "mash: {ph: 5.4}", "mash_ph"),
        ("", "checks: {warm_hold_butter_test: neither}", "warm_hold_butter_test"),
        ("butter", "batch: b", "butter"),
        ("no butter", "batch: b", "butter"),
    ],
)
def test_what_is_known_is_not_asked(words: str, record: str, known: str) -> None:
    suspects = [*SUSPECTS[0], "tannin_extraction"]
    assert known in {question.key for question in questions(suspects)}
    assert known not in {question.key for question in questions(suspects, words, record)}


def test_nothing_is_asked_about_no_suspect() -> None:
    assert questions([]) == []


def test_a_beer_of_which_nothing_is_said_raises_no_question() -> None:
    assert diagnose(rule_base(), asked("")).next_ == ()


def test_only_a_few_steps_are_shown_and_each_is_worth_it() -> None:
    steps = diagnose(rule_base(), asked("butter")).next_
    assert 0 < len(steps) <= SHOWN_STEPS
    assert all(step.gain_bits >= LEAST_BITS for step in steps)


@pytest.mark.parametrize("words", ["butter", "sticking plaster", "wet cardboard", "sour milk"])
def test_a_step_is_a_question_with_its_answers(words: str) -> None:
    for step in diagnose(rule_base(), asked(words)).next_:
        assert step.text.endswith("?")
        assert len(step.answers) >= 2


BUTTER = "batch: b\nstyle: pale ale\n"


# Source of the table: where `batch new` writes what it asked and nobody knew.
@pytest.mark.parametrize(
    ("unknown", "key"),
    [
        ("fault: {changed_before: unknown}", "changed_before"),
        ("fault: {changed_before: '?'}", "changed_before"),
        ("fault: {green_apple: unknown}", "green_apple"),
        ("gravity: {forced_final: not known}", "points_left_to_ferment"),
        ("equipment: {shared_with_sour_or_wild: unknown}", "bacteria_or_wild_kit"),
        ("checks: {warm_hold_butter_test: unknown}", "warm_hold_butter_test"),
    ],
)
def test_what_nobody_knew_is_not_asked_again(unknown: str, key: str) -> None:
    consultation = asked("butter, gushing", f"{BUTTER}{unknown}")
    assert key in asked_in_vain(rule_base(), consultation.batch)
    assert key not in {step.id for step in diagnose(rule_base(), consultation).next_}


def test_a_record_without_unknowns_has_no_question_asked_in_vain() -> None:
    consultation = asked("butter", f"{BUTTER}gravity: {{final: 1.010}}")
    assert asked_in_vain(rule_base(), consultation.batch) == frozenset()


def test_one_unknown_entry_does_not_close_what_goes_without_it() -> None:
    consultation = asked("butter", f"{BUTTER}gravity: {{forced_final: unknown}}")
    assert asked_in_vain(rule_base(), consultation.batch) == {"points_left_to_ferment"}
