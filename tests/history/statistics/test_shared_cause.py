"""The model's view across batches: right as often as it says, and no surer than luck allows."""

import math
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers.chances import odds_text
from diagnose.consult.history_looking import contrast
from diagnose.consult.history_shared_cause import over_batches, shared_causes
from diagnose.history.statistics.columns import columns_of
from diagnose.history.statistics.pattern import pattern_log_ratio
from tests.history.statistics.brewers import BUTTERY, FLAW, brew, nothing_planted, planted
from tests.history.statistics.simulated import NOTHING, VESSEL, named, simulated

SEEDS = 20
FLAGS = st.lists(st.booleans(), min_size=3, max_size=9).filter(lambda f: 0 < sum(f) < len(f))


@pytest.fixture(scope="module")
def views(rules):
    """What was planted and what was named, by kind of brewer."""
    kinds = ("a cause", NOTHING, VESSEL)
    return {
        kind: [(truth, *named(found)) for truth, found in _simulated(rules, kind)] for kind in kinds
    }


def _simulated(rules, kind):
    return [simulated(rules, seed, kind) for seed in range(SEEDS)]


# Over a hundred brewers each: a cause put first in 0.59, nothing in 0.89, the vessel in 0.83; the
# bounds are three standard deviations of twenty draws below.
@pytest.mark.parametrize(("kind", "least"), [("a cause", 0.26), (NOTHING, 0.68), (VESSEL, 0.58)])
def test_what_was_planted_is_mostly_put_first(views, kind, least):
    assert np.mean([truth == name for truth, name, _ in views[kind]]) >= least


def test_a_wrong_cause_is_seldom_put_first_where_nothing_was_planted(views):
    assert np.mean([name not in (NOTHING, VESSEL) for _, name, _ in views[NOTHING]]) <= 0.32


# Over all brewers the chances given to what is put first must add up to how often it is right.
def test_the_model_is_no_surer_than_it_is_right(views):
    every = [one for some in views.values() for one in some]
    right = np.array([truth == name for truth, name, _ in every])
    said = np.array([share for *_, share in every])
    spread = math.sqrt(float((said * (1.0 - said)).sum()))
    assert float(said.sum()) - right.sum() <= 3.0 * spread


def _view(rules, brews):
    flawed = np.array([FLAW in one.reported for one in brews])
    return over_batches(rules, {FLAW}, (brews, flawed), columns_of(brews))


def test_the_chances_sum_to_one(rules):
    view = _view(rules, planted())
    assert view.shares.sum() + view.none + view.unknown + view.own == pytest.approx(1.0)


@pytest.mark.parametrize(("clean", "rises"), [("recent", True), ("overdue", False)])
def test_only_a_measure_that_parts_flawed_from_clean_speaks_by_its_pattern(rules, clean, rises):
    brews = [brew(i, True, {"line_cleaned": "overdue"}) for i in range(3)]
    brews += [brew(i, False, {"line_cleaned": clean}) for i in range(3, 9)]
    view = _view(rules, brews)
    assert (view.pattern[view.causes.index("dirty_draught_line")] > 1e-9) == rises


def test_a_habit_in_all_batches_does_not_grow_surer_with_their_number(rules):
    def share(times: int) -> float:
        bad = [brew(i, True, {"line_cleaned": "overdue"}) for i in range(2 * times)]
        good = [brew(i, False, {"line_cleaned": "overdue"}) for i in range(2 * times, 5 * times)]
        view = _view(rules, [*bad, *good])
        return float(view.shares[view.causes.index("dirty_draught_line")])

    assert share(4) == pytest.approx(share(1), rel=1e-6)


def test_what_the_rule_base_lacks_goes_with_the_factor_that_fits(rules):
    brews = [
        brew(i, i % 3 == 0, factors={"vessel": ("steel" if i % 3 == 0 else "glass",)})
        for i in range(24)
    ]
    view = _view(rules, brews)
    assert (view.unknown > view.none, [one.name for one in view.goes_with]) == (
        True,
        ["vessel: steel"],
    )


def test_with_nothing_planted_no_cause_in_common_is_the_likeliest(rules):
    assert any(
        "no cause in common" in one for one in contrast(rules, nothing_planted(3), BUTTERY).says
    )


def test_of_many_batches_the_clean_ones_of_the_same_time_are_looked_at(rules):
    brews = [brew(i, i % 10 == 0, weeks=1) for i in range(400)]
    flawed = np.array([FLAW in one.reported for one in brews])
    answer = shared_causes(rules, {FLAW}, (brews, flawed), columns_of(brews))
    assert (answer.flawed, answer.clean) == (25, 75)


@given(FLAGS, st.data())
def test_a_pattern_speaks_no_louder_than_the_number_of_patterns(flags, data):
    signs = np.array(
        data.draw(st.lists(st.floats(-30, 30), min_size=len(flags), max_size=len(flags)))
    )
    most = math.log(math.comb(len(flags), sum(flags)))
    assert pattern_log_ratio(signs, np.array(flags), 0.1) <= most + 1e-9


@given(FLAGS, st.floats(-20, 20))
def test_what_all_batches_have_in_common_says_nothing_of_the_pattern(flags, sign):
    flawed = np.array(flags)
    assert pattern_log_ratio(np.full(flawed.size, sign), flawed, 0.1) == pytest.approx(
        0.0, abs=1e-9
    )


@given(FLAGS)
def test_the_chances_of_all_patterns_average_to_luck(flags):
    # By definition: over every pattern with so many flawed, the mean likelihood ratio is 1.
    signs = np.linspace(-2.0, 3.0, len(flags))
    ratios = []
    for places in combinations(range(len(flags)), sum(flags)):
        flawed = np.isin(np.arange(len(flags)), places)
        ratios.append(math.exp(pattern_log_ratio(signs, flawed, 0.1)))
    assert np.mean(ratios) == pytest.approx(1.0)


def test_one_batch_that_does_not_fit_does_not_rule_a_cause_out():
    flawed = np.array([True] * 5 + [False] * 10)
    signs = np.where(flawed, 3.0, -3.0)
    signs[0] = -np.inf
    assert pattern_log_ratio(signs, flawed, 0.1) > 0.0


@pytest.mark.parametrize(
    ("chance", "odds"),
    [
        (0.5, "about even"),
        (0.2, "4 to 1 against"),
        (0.6, "1.5 to 1 for"),
        (1.0, "over 99 to 1 for"),
        (0.0, "over 99 to 1 against"),
    ],
)
def test_odds_claim_no_more_than_they_know(chance, odds):
    assert odds_text(chance) == odds
