"""A tasting read whole."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.sensory import METHODS, method_named, name_of_test, read_rounds, read_tasting

EVERY = sorted(METHODS)
TRIANGLE = METHODS["triangle"]
RESULTS = st.integers(1, 60).flatmap(lambda n: st.tuples(st.just(n), st.integers(0, n)))


def test_five_of_nine_is_not_shown_and_could_be_missed_one_time_in_three():
    found = read_tasting(TRIANGLE, 5, 9)
    assert (found.verdict, found.missed) == ("not_shown", pytest.approx(0.35, abs=0.005))


@given(st.sampled_from(EVERY), RESULTS, st.sampled_from([0.05, 0.1, 0.2]))
def test_a_difference_is_shown_just_when_the_p_is_within_alpha(test, result, alpha):
    answers, right = result
    found = read_tasting(METHODS[test], right, answers, alpha=alpha)
    assert found.verdict.startswith("shown") is (found.p <= alpha * (1 + 1e-9))


@given(st.sampled_from(EVERY), RESULTS)
def test_a_difference_is_ruled_out_just_when_the_test_for_similarity_says_so(test, result):
    answers, right = result
    found = read_tasting(METHODS[test], right, answers)
    assert (found.verdict in {"ruled_out", "shown_but_small"}) is (found.p_similar <= 0.1)


@given(st.sampled_from(EVERY), st.integers(1, 25), st.data())
def test_a_home_panel_never_shows_and_rules_out_what_a_quarter_could_taste(test, answers, data):
    right = data.draw(st.integers(0, answers))
    found = read_tasting(METHODS[test], right, answers, able_that_matters=0.25)
    assert found.verdict != "shown_but_small"


def test_a_large_panel_can_show_a_difference_that_is_small():
    assert read_tasting(TRIANGLE, 80, 200).verdict == "shown_but_small"


def test_a_two_sided_reading_does_not_care_which_beer_is_in_front():
    there, back = (read_tasting(METHODS["2-afc-two-sided"], x, 12) for x in (10, 2))
    assert (there.verdict, there.p, there.dprime) == (back.verdict, back.p, back.dprime)


def test_rounds_of_two_opposite_tasters_rule_nothing_out():
    counts = [(5, 5), (0, 5)]
    plain = read_tasting(METHODS["2-afc"], 5, 10).verdict
    assert (plain, read_rounds(METHODS["2-afc"], counts).verdict) == ("ruled_out", "not_shown")


def test_one_answer_each_is_read_as_without_rounds():
    counts = [(1, 1)] * 5 + [(0, 1)] * 4
    assert read_rounds(TRIANGLE, counts) == read_tasting(TRIANGLE, 5, 9)


@settings(max_examples=40)
@given(st.sampled_from(EVERY), st.lists(st.integers(0, 3), min_size=1, max_size=6))
def test_rounds_never_rule_out_more_than_the_plain_reading(test, rights):
    counts = [(right, 3) for right in rights]
    plain = read_tasting(METHODS[test], sum(rights), 3 * len(rights))
    assert read_rounds(METHODS[test], counts).p_similar >= plain.p_similar - 1e-4


def test_tasters_who_differ_may_miss_more_than_tasters_alike():
    plain, rounds = read_tasting(TRIANGLE, 4, 12), read_rounds(TRIANGLE, [(1, 3)] * 4)
    assert rounds.missed > plain.missed + 0.03


# Source of the table: spellings that people use.
SPELLINGS = [
    ("Triangle", "triangle"),
    ("duo trio", "duo-trio"),
    ("2AFC", "2-afc"),
    ("paired", "2-afc"),
    ("paired two-sided", "2-afc-two-sided"),
    ("specified tetrad", "tetrad-specified"),
    ("A - not A", "a-not-a"),
    ("difference from control", "difference-from-control"),
]


@pytest.mark.parametrize(("typed", "meant"), SPELLINGS)
def test_a_test_is_known_by_its_usual_spellings(typed, meant):
    assert name_of_test(typed) == meant


@pytest.mark.parametrize(
    ("call", "wanted"),
    [
        (lambda: name_of_test("pentagon"), "one of triangle"),
        (lambda: method_named("a-not-a"), "right and wrong answers"),
        (lambda: read_tasting(TRIANGLE, 5, 9, able_that_matters=1.0), "below 1"),
        (lambda: read_rounds(TRIANGLE, []), "1 to 500 tasters"),
        (lambda: read_rounds(TRIANGLE, [(1, 101)]), "at most 100 answers of one taster"),
    ],
)
def test_a_reading_that_cannot_be_is_refused(call, wanted):
    with pytest.raises(UnusableInput, match=wanted):
        call()
