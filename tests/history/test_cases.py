"""When a case is closed, what opens it again, and what is left of the old conclusion."""

import pytest

from diagnose.history.cases import cases_of
from diagnose.history.learning_facts import taught
from diagnose.history.learning_telling import Tellings
from tests.history.brewed import brew, buttery, clean, tasting, verdict
from tests.knowledge.shipped import rule_base

LEFT = "diacetyl_left_at_packaging"
CLOSED = verdict(LEFT, 0.9, basis="repeat", at="2026-02-01")
BEFORE = [clean(1), clean(2), buttery(3, CLOSED)]
AFTER = 60


def case(*later, first=BEFORE):
    found = cases_of(Tellings(rule_base()), taught([*first, *later], [], []))
    return next(one for one in found if one.batch == "b3")


# (what the verdict rests on, the state of the case)
BASES = [
    ("brewer", "not closed"),
    ("bench check", "not closed"),
    ("repeat", "closed"),
    ("split", "closed"),
    ("panel", "closed"),
]


@pytest.mark.parametrize(("basis", "state"), BASES)
def test_a_repeat_or_a_blind_test_closes_a_case(basis, state):
    said = verdict(LEFT, 0.9, basis=basis, at="2026-02-01")
    assert case(first=[buttery(3, said)]).state == state


def test_what_the_brewer_says_afterwards_does_not_open_a_closed_case():
    words = verdict(LEFT, 0.95, at="2026-03-01")
    one = case(first=[clean(1), buttery(3, CLOSED, words)])
    assert (one.state, one.basis, one.said) == ("closed", "repeat", 0.95)


def test_nor_does_it_close_one_that_is_open_again():
    words = verdict(LEFT, 0.95, at="2026-11-01")
    one = case(buttery(AFTER), first=[clean(1), buttery(3, CLOSED, words)])
    assert (one.state, one.since) == ("open again", f"b{AFTER}")


def test_a_new_repeat_closes_it_anew():
    again = verdict(LEFT, 0.95, basis="repeat", at="2026-11-01")
    assert case(buttery(AFTER), first=[clean(1), buttery(3, CLOSED, again)]).state == "closed"


def test_a_repeat_that_was_taken_for_wrong_since_closes_nothing():
    doubt = verdict(LEFT, 0.9, "ruled out", at="2026-03-01")
    words = verdict(LEFT, 0.9, at="2026-04-01")
    assert case(first=[buttery(3, CLOSED, doubt, words)]).state == "not closed"


def test_a_blind_test_that_leaves_much_doubt_closes_nothing():
    said = verdict(LEFT, 0.7, basis="panel", at="2026-02-01")
    assert case(first=[buttery(3, said)]).state == "not closed"


def test_clean_batches_leave_it_closed():
    one = case(clean(AFTER), clean(AFTER + 9))
    assert (one.state, one.now) == ("closed", 0.9)


def test_a_later_batch_with_the_flaw_opens_it_and_lowers_the_conclusion():
    one = case(clean(AFTER), buttery(AFTER + 9))
    assert (one.state, one.since) == ("open again", f"b{AFTER + 9}")
    assert 0.0 < one.now < one.said == 0.9


def test_another_one_lowers_it_further():
    one, two = case(buttery(AFTER)), case(buttery(AFTER), buttery(AFTER + 1))
    assert (two.since, two.now < one.now) == (one.since, True)


def test_clean_batches_since_then_never_raise_it_above_what_was_said():
    one = case(buttery(AFTER), *(clean(AFTER + number) for number in range(1, 40)))
    assert (one.state, one.now) == ("open again", pytest.approx(0.9))


def test_the_same_cause_again_opens_it_and_leaves_the_conclusion():
    one = case(buttery(AFTER, verdict(LEFT, 0.8)))
    assert (one.state, one.same_cause, one.now) == ("open again", True, 0.9)


# What does not open a case: (why, the later batch)
OTHERS = [
    ("it has another confirmed cause", buttery(AFTER, verdict("hop_creep", 0.8))),
    ("it has another flaw", brew(AFTER, tasting("vinegar", "Wren", "vinegar"))),
    ("it was brewed before", buttery(10)),
]


@pytest.mark.parametrize("later", [one for _, one in OTHERS], ids=[why for why, _ in OTHERS])
def test_what_has_nothing_to_do_with_it_does_not_open_it(later):
    assert case(later).state == "closed"
