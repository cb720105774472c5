"""The exam of real accounts: every figure worked by hand on answers made by hand."""

import math
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers import Diagnosis, ExamAnswer, ExamLine
from diagnose.casebook import Case
from diagnose.casebook.exam import EDGES, LEAST_PROBABILITY, hold_exam, lookup
from diagnose.knowledge import Compound, RuleBase
from tests.casebook.made import account, answer, group
from tests.knowledge.shipped import rule_base


def number(value: float) -> dict[str, Any]:
    sides = {"value": value, "low": value, "high": value}
    return {**sides, "basis": "judgement", "source": "trade_judgement"}


def compound(name: str, gives: dict[str, float], made_by: dict[str, float]) -> Compound:
    card = {
        **{"id": name, "name": name, "kind": "state", "says": "s", "trend": "steady"},
        "brings": {"unexplained": number(0.01)},
        "gives": {key: number(value) for key, value in gives.items()},
        "made_by": {key: number(value) for key, value in made_by.items()},
    }
    return Compound.model_validate(card)


SMALL = [
    compound("x", {"butter": 0.8}, {"a": 0.5, "b": 0.25}),
    compound("y", {"butter": 0.5, "soap": 0.5}, {"a": 0.9, "c": 0.6}),
]
WORDS = {"butter": "reported"}


@pytest.fixture(scope="module")
def small() -> RuleBase:
    """Three causes, two compounds, two words."""
    causes = dict.fromkeys("cba", next(iter(rule_base().causes.values())))
    return replace(rule_base(), causes=causes, compounds={card.id: card for card in SMALL})


# Four scored accounts and one that is not. Their answers, worked by hand:
# first in 2 of 4 (the fault a, the normal beer), in three in 3 of 4.
ANSWERED: list[tuple[Case, Diagnosis]] = [
    (account(("a",), "fault"), answer(group({"a": 0.6, "b": 0.3}, 0.1), words=WORDS)),
    (
        account(("c",), "fault", also=("d",)),
        answer(group({"b": 0.5, "c": 0.2, "d": 0.1}), words=WORDS),
    ),
    (account(("z",), "fault"), answer(group({"b": 0.9, "a": 0.1}), words=WORDS)),
    (account(("c",), "normal"), answer(group({"b": 0.2}, 0.7), words={"soap": "reported"})),
    (account(("a",), "fault", scored=False), answer(group({"a": 0.9}), words=WORDS)),
]


@pytest.fixture(scope="module")
def held(small: RuleBase) -> ExamAnswer:
    return hold_exam(small, ANSWERED)


# Source of the table: worked by hand from the accounts above. The plain lookup puts a first under
# "butter" (0.9 x 0.5 = 0.45, c 0.30, b 0.20) and under "soap" (a 0.45, c 0.30).
FIGURES = [
    ("scored", 4.0),
    ("top_1", 2 / 4),
    ("top_3", 3 / 4),
    ("mean_log_loss", (-math.log(0.6) - math.log(0.3) - math.log(0.001)) / 3),
    ("brier", (0.4**2 + 0.7**2 + 1.0) / 3),
    ("lookup_top_1", 1 / 4),
    ("lookup_top_3", 3 / 4),
]


@pytest.mark.parametrize(("figure", "worked"), FIGURES)
def test_a_figure_of_the_exam_is_as_worked_by_hand(
    held: ExamAnswer, figure: str, worked: float
) -> None:
    assert getattr(held, figure) == pytest.approx(worked)


def test_an_account_that_is_not_scored_is_listed_all_the_same(held: ExamAnswer) -> None:
    assert len(held.lines) == len(ANSWERED)


# Source of the table: worked by hand; the claims of the three scored faults are
# a .6 right, b .3; b .5, c .2 right, d .1 right; b .9, a .1.
BINS = [
    (0.05, 0.2, 2, 0.1, 0.5),
    (0.2, 0.4, 2, 0.25, 0.5),
    (0.4, 0.6, 1, 0.5, 0.0),
    (0.6, 0.8, 1, 0.6, 1.0),
    (0.8, 1.0, 1, 0.9, 0.0),
]


@pytest.mark.parametrize(("low", "high", "claims", "mean", "right"), BINS)
def test_a_bin_holds_its_claims_and_how_many_were_right(
    held: ExamAnswer, low: float, high: float, claims: int, mean: float, right: float
) -> None:
    (row,) = [row for row in held.calibration if (row.low, row.high) == (low, high)]
    assert row.claims == claims
    assert (row.mean_claim, row.right) == pytest.approx((mean, right))


@given(st.floats(EDGES[0], 1.0))
def test_every_claim_worth_a_row_falls_in_one_bin(claim: float) -> None:
    held = hold_exam(rule_base(), [(account(("a",), "fault"), answer(group({"a": claim})))])
    assert sum(row.claims for row in held.calibration) == 1


@pytest.mark.parametrize("verdict", ["normal", "ask_first", "no_fault_found"])
def test_only_faults_make_claims_and_losses(verdict: str) -> None:
    held = hold_exam(rule_base(), [(account(("a",), verdict), answer(group({"b": 0.9})))])
    assert sum(row.claims for row in held.calibration) == 0
    assert (held.mean_log_loss, held.brier) == (0.0, 0.0)


@given(st.floats(0.0, 1.0))
def test_no_loss_is_greater_than_that_of_the_least_probability(chance: float) -> None:
    held = hold_exam(rule_base(), [(account(("a",), "fault"), answer(group({"a": chance})))])
    assert held.mean_log_loss == pytest.approx(-math.log(max(chance, LEAST_PROBABILITY)))


def test_an_exam_without_a_scored_account_has_no_right_answers() -> None:
    held = hold_exam(rule_base(), ANSWERED[-1:])
    assert (held.scored, held.top_1, held.top_3, held.lookup_top_1) == (0, 0.0, 0.0, 0.0)


def line_of(case: Case, diagnosis: Diagnosis) -> ExamLine:
    (line,) = hold_exam(rule_base(), [(case, diagnosis)]).lines
    return line


A_FIRST = group({"a": 0.6, "b": 0.3}, 0.05)
A_THIRD = group({"b": 0.4, "c": 0.3, "a": 0.2}, 0.05)
A_FOURTH = group({"b": 0.4, "c": 0.3, "d": 0.2, "a": 0.1})
BEER_FIRST = group({"b": 0.3, "c": 0.1}, 0.6)
BEER_THIRD = group({"b": 0.4, "c": 0.3}, 0.2)

# Source of the table: worked by hand from what each kind of account calls right. A normal beer is
# right when the beer itself leads; an open question when the answer asks; where no fault was found
# nothing may be accused; the named cause is right for all but the last.
RIGHTS = [
    ("fault", answer(A_FIRST), (True, True)),
    ("fault", answer(A_THIRD), (False, True)),
    ("fault", answer(A_FOURTH), (False, False)),
    ("fault", answer(BEER_FIRST, verdict="expected"), (False, False)),
    ("fault", answer(A_THIRD, verdict="open", asks=True), (False, True)),
    ("fault", answer(), (False, False)),
    ("normal", answer(BEER_FIRST), (True, True)),
    ("normal", answer(BEER_THIRD), (False, True)),
    ("normal", answer(A_FOURTH), (False, False)),
    ("normal", answer(A_FOURTH, verdict="expected"), (True, True)),
    ("normal", answer(A_FIRST), (True, True)),
    ("normal", answer(), (False, False)),
    ("ask_first", answer(A_FOURTH, verdict="open", asks=True), (True, True)),
    ("ask_first", answer(A_FOURTH, verdict="close", asks=True), (True, True)),
    ("ask_first", answer(A_FOURTH, verdict="open"), (False, False)),
    ("ask_first", answer(A_FOURTH, verdict="separated", asks=True), (False, False)),
    ("ask_first", answer(A_THIRD, verdict="separated", asks=True), (False, True)),
    ("ask_first", answer(A_FIRST, verdict="separated"), (True, True)),
    ("no_fault_found", answer(A_FIRST, verdict="open"), (True, True)),
    ("no_fault_found", answer(BEER_FIRST, verdict="expected"), (True, True)),
    ("no_fault_found", answer(A_FIRST, verdict="separated"), (False, False)),
    ("no_fault_found", answer(A_FIRST, verdict="close", asks=True), (False, False)),
]


@pytest.mark.parametrize(("verdict", "diagnosis", "rights"), RIGHTS)
def test_what_is_right_depends_on_the_kind_of_account(
    verdict: str, diagnosis: Diagnosis, rights: tuple[bool, bool]
) -> None:
    line = line_of(account(("a",), verdict), diagnosis)
    assert (line.right_first, line.right_in_three) == rights


TWO_FAULTS = answer(group({"a": 0.5, "b": 0.4}), group({"b": 0.7, "c": 0.2}, 0.1))

# Source of the table: worked by hand; over two groups the place is by the mean (b 0.55, a 0.25,
# c 0.1, the beer 0.05), the probability that of the group which claims most.
OVER_GROUPS = [
    (("a",), (), 0.5, False, True),
    (("b",), (), 0.7, True, True),
    (("c",), (), 0.2, False, True),
    (("a",), ("b",), 0.9, True, True),
    (("z",), (), 0.0, False, False),
]


@pytest.mark.parametrize(("truth", "also", "chance", "first", "three"), OVER_GROUPS)
def test_an_account_of_two_faults_is_scored_over_both(
    truth: tuple[str, ...], also: tuple[str, ...], chance: float, first: bool, three: bool
) -> None:
    line = line_of(account(truth, "fault", also=also), TWO_FAULTS)
    assert line.probability == pytest.approx(chance)
    assert (line.right_first, line.right_in_three) == (first, three)


# Source of the table: worked by hand on the small rule base: the strongest way of each cause to
# each reported word, added up over the words; equal ones by name.
LOOKED_UP = [
    ({"butter": "reported"}, ["a", "c", "b"]),
    ({"soap": "reported"}, ["a", "c"]),
    ({"butter": "reported", "soap": "reported"}, ["a", "c", "b"]),
    ({"butter": "reported", "soap": "absent"}, ["a", "c", "b"]),
    ({"butter": "absent"}, []),
    ({}, []),
]


@pytest.mark.parametrize(("words", "ranked"), LOOKED_UP)
def test_the_plain_lookup_adds_up_the_strongest_way_to_each_word(
    small: RuleBase, words: dict[str, str], ranked: list[str]
) -> None:
    assert lookup(small, answer(words=words)) == ranked


def test_the_plain_lookup_knows_no_second_way(small: RuleBase) -> None:
    # By both ways a would have 0.85 and by the stronger one 0.45, less than this c.
    louder = compound("y", {"butter": 0.5}, {"a": 0.9, "c": 0.99})
    rules = replace(small, compounds={**small.compounds, "y": louder})
    assert lookup(rules, answer(words=WORDS))[0] == "c"


# Source of the table: first principles; a table of faults can neither ask nor call beer sound.
LOOKUP_RIGHTS = [
    ("fault", "a", WORDS, (True, True)),
    ("fault", "b", WORDS, (False, True)),
    ("fault", "z", WORDS, (False, False)),
    ("normal", "a", WORDS, (True, True)),
    ("ask_first", "b", WORDS, (False, True)),
    ("no_fault_found", "a", WORDS, (False, False)),
    ("no_fault_found", "a", {}, (True, True)),
]


@pytest.mark.parametrize(("verdict", "truth", "words", "rights"), LOOKUP_RIGHTS)
def test_the_lookup_is_judged_by_what_a_table_can_do(
    small: RuleBase, verdict: str, truth: str, words: dict[str, str], rights: tuple[bool, bool]
) -> None:
    (line,) = hold_exam(small, [(account((truth,), verdict), answer(words=words))]).lines
    assert (line.lookup_first, line.lookup_in_three) == rights


# Source of the table: worked by hand from the same answers.
WHYS = [
    (answer(A_FIRST), ""),
    (answer(A_THIRD), "separated; b first, the answer at place 3"),
    (answer(BEER_FIRST, verdict="expected"), "expected; expected here first, the answer at not"),
    (answer(), "no flavour word was understood"),
]


@pytest.mark.parametrize(("diagnosis", "why"), WHYS)
def test_a_miss_says_what_came_first_and_where_the_answer_stood(
    diagnosis: Diagnosis, why: str
) -> None:
    said = line_of(account(("a",), "fault"), diagnosis).why
    assert said.startswith(why) and bool(said) == bool(why)


def test_a_case_without_an_exam_cannot_be_put_to_it() -> None:
    case = account(("a",), "fault")
    plain = case.model_copy(update={"card": case.card.model_copy(update={"exam": None})})
    with pytest.raises(ValueError, match="has no exam"):
        hold_exam(rule_base(), [(plain, answer())])
