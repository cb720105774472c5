"""The ballot box, the count, and what a count teaches."""

import json
from itertools import permutations

import pytest

from diagnose.consult.split_panels import pour
from diagnose.errors import UnusableInput
from diagnose.sensory import METHODS, bayes_reading
from diagnose.trial.ballots import Box, Typed, ballot_of, box_of, closing_line, line_of
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from diagnose.trial.readings import Chances, learn
from diagnose.trial.scoring import counts_by_taster, is_right, pairs_from_ratings, ratings_of
from tests.trial.arms import CAUSE, asked_of, plan_of, usual_plan

EMPTY = Box((), None, ())


def poured(test: str = "2-afc", **told):
    return pour(usual_plan(), asked_of(test, **told), (5, "salt"))


def words_for(panel, serving) -> tuple[str, ...]:
    """A ballot that fits the form, right or wrong."""
    if panel.test == "difference-from-control":
        return tuple(f"{code}={number}" for number, code in enumerate(serving.codes))
    return serving.codes[:2] if panel.test == "tetrad" else serving.codes[:1]


@pytest.mark.parametrize("test", TESTS_WITH_BALLOTS)
def test_a_ballot_comes_back_from_its_line_as_it_was(test):
    panel = poured(test, rounds=2).panel
    serving = panel.servings[1]
    typed = Typed(
        serving.taster.upper(), words_for(panel, serving), "guess", "tastes; of, tin", "t"
    )
    ballot = ballot_of(panel, EMPTY, typed)
    assert (ballot.taster, ballot.round) == (serving.taster, serving.round)
    assert box_of(line_of(ballot) + "\n").ballots == (ballot,)


def bad_ballots():
    """Source: the issue's list of bad input."""
    panel = poured("tetrad").panel
    own, other = panel.servings[0], panel.servings[1]
    a, b, c, _ = own.codes
    return [
        (own.taster, ("012", a), "a code on the ballot"),
        (own.taster, (a, other.codes[0]), "somebody else"),
        (own.taster, (a,), "two codes that belong together"),
        (own.taster, (a, a), "two codes that belong together"),
        (own.taster, (a, b, c), "two codes that belong together"),
        (own.taster, (), "codes of one round"),
        (own.taster, (f"{a}=3", b), "codes alone"),
        ("Nobody", (a, b), "one of Wren"),
    ]


@pytest.mark.parametrize(("taster", "words", "says"), bad_ballots())
def test_a_ballot_that_does_not_fit_is_refused(taster, words, says):
    with pytest.raises(UnusableInput, match=says):
        ballot_of(poured("tetrad").panel, EMPTY, Typed(taster, words))


@pytest.mark.parametrize("rating", ["11", "-1", "x", "2.5"])
def test_a_rating_outside_the_scale_is_refused(rating):
    panel = poured("difference-from-control").panel
    first, second = panel.servings[0].codes
    with pytest.raises(UnusableInput, match="0 to 10"):
        ballot_of(panel, EMPTY, Typed("Wren", (f"{first}={rating}", f"{second}=1")))


def test_a_ballot_entered_twice_is_refused_and_the_first_stands():
    panel = poured().panel
    first, second = panel.servings[0].codes
    ballot = ballot_of(panel, EMPTY, Typed("Wren", (first,)))
    with pytest.raises(UnusableInput, match="twice"):
        ballot_of(panel, Box((ballot,), None, ()), Typed("Wren", (second,)))
    other = ballot_of(panel, EMPTY, Typed("Wren", (second,)))
    assert box_of(f"{line_of(ballot)}\n{line_of(other)}\n").ballots == (ballot,)


def test_a_closed_box_takes_nothing_more():
    box = box_of(closing_line("rain", "t") + "\n")
    panel = poured().panel
    with pytest.raises(UnusableInput, match=r"closed \(rain\)"):
        ballot_of(panel, box, Typed("Wren", panel.servings[0].codes[:1]))


@pytest.mark.parametrize("cut", [1, 10, 40])
def test_a_line_cut_short_is_reported_and_the_others_stand(cut):
    panel = poured().panel
    lines = [
        line_of(ballot_of(panel, EMPTY, Typed(one.taster, one.codes[:1])))
        for one in panel.servings[:2]
    ]
    box = box_of(f"{lines[0]}\n{lines[1][:-cut]}")
    assert [one.taster for one in box.ballots] == ["Wren"]
    assert box.broken == (2,)
    assert ("Pike", 1) in box.missing(panel)


def test_every_forced_choice_is_scored_as_its_test_wants():
    """By definition: the odd one, a pair of one beer, the suspect arm, the arm of the reference."""
    for test in ("triangle", "tetrad", "2-afc", "3-afc", "duo-trio"):
        drawn = poured(test)
        for serving in drawn.panel.servings:
            size = 2 if test == "tetrad" else 1
            for chosen in permutations(serving.codes, size):
                arms = [drawn.key.arms[code] for code in serving.codes]
                own = [drawn.key.arms[code] for code in chosen]
                expected = {
                    "triangle": arms.count(own[0]) == 1,
                    "tetrad": len(set(own)) == 1,
                    "duo-trio": own[0] == drawn.key.open_glass.get(f"{serving.taster} 1"),
                }.get(test, own[0] == "S")
                typed = Typed(serving.taster, chosen)
                ballot = ballot_of(drawn.panel, EMPTY, typed)
                assert is_right(test, drawn.key, ballot, serving.codes) is expected


@pytest.mark.parametrize("test", ["triangle", "tetrad", "2-afc", "3-afc", "duo-trio"])
def test_a_guess_is_right_as_often_as_the_test_says(test):
    drawn = poured(test)
    hits = tries = 0
    for serving in drawn.panel.servings:
        for chosen in permutations(serving.codes, 2 if test == "tetrad" else 1):
            ballot = ballot_of(drawn.panel, EMPTY, Typed(serving.taster, chosen))
            hits += is_right(test, drawn.key, ballot, serving.codes)
            tries += 1
    assert hits / tries == pytest.approx(METHODS[test].guess)


def test_answers_are_counted_by_taster():
    drawn = poured("2-afc", rounds=2)
    ballots = []
    for serving in drawn.panel.servings:
        suspect = next(code for code in serving.codes if drawn.key.arms[code] == "S")
        ballots.append(ballot_of(drawn.panel, EMPTY, Typed(serving.taster, (suspect,))))
    counts = counts_by_taster(drawn.panel, Box(tuple(ballots), None, ()), drawn.key)
    assert counts == dict.fromkeys(drawn.panel.tasters, (2, 2))


def test_ratings_are_paired_with_the_control_in_disguise():
    drawn = poured("difference-from-control")
    ballots = []
    for place, serving in enumerate(drawn.panel.servings):
        ratings = [
            f"{code}={place if drawn.key.arms[code] == 'S' else 3}" for code in serving.codes
        ]
        ballots.append(ballot_of(drawn.panel, EMPTY, Typed(serving.taster, tuple(ratings))))
    suspect, control = ratings_of(drawn.panel, Box(tuple(ballots), None, ()), drawn.key)
    assert suspect == tuple(map(float, range(9)))
    assert control == (3.0,) * 9
    assert pairs_from_ratings(suspect, control) == (5, 8)


def learned(right: int, answers: int = 9, **told):
    return learn(usual_plan(), ("A", "B"), (METHODS["2-afc"], right, answers), Chances(**told))


def test_the_ranking_moves_with_the_answers_and_stays_a_whole():
    before = learned(0).of(CAUSE).before
    after = [learned(right).of(CAUSE).after for right in range(10)]
    assert after == sorted(after)
    assert after[0] < before < after[-1]
    for right in (0, 5, 9):
        assert sum(one.after for one in learned(right).moved) == pytest.approx(1.0, abs=0.01)


def test_the_ratio_is_the_formula_on_the_bayes_factor():
    factor = bayes_reading(METHODS["2-afc"], 8, 9).factor
    lesson = learned(8, fires=0.6, harmless=0.1)
    assert lesson.ratios[0] == pytest.approx((0.6 * factor + 0.4) / (0.1 * factor + 0.9))


def test_a_fault_in_both_arms_clears_the_suspect_whatever_the_count():
    assert learned(9, pattern="both").of(CAUSE).after < learned(0).of(CAUSE).after
    assert learned(9, pattern="neither").ratios == (1.0,)


def test_a_harmless_difference_that_is_likely_leaves_little_to_learn():
    calm, noisy = (learned(9, harmless=s).ratios[0] for s in (0.05, 0.5))
    assert calm > noisy >= 1.0


def test_a_two_by_two_teaches_about_the_factor_that_differs():
    plan = plan_of(CAUSE, "warm_storage", design="2x2")
    lesson = learn(plan, ("A", "B"), (METHODS["2-afc"], 9, 9), Chances())
    assert lesson.causes == ("warm_storage",)


def test_a_search_raises_every_suspect_of_the_bundle():
    plan = plan_of(CAUSE, "warm_storage", design="search")
    lesson = learn(plan, ("A", "B"), (METHODS["2-afc"], 9, 9), Chances())
    assert set(lesson.causes) == {CAUSE, "warm_storage"}
    assert all(lesson.of(cause).after > lesson.of(cause).before for cause in lesson.causes)


def test_a_ballot_keeps_nothing_but_what_was_answered():
    panel = poured().panel
    ballot = ballot_of(panel, EMPTY, Typed("Wren", panel.servings[0].codes[:1], "", "", "t"))
    assert set(json.loads(line_of(ballot))) == {"taster", "round", "chosen", "at"}
