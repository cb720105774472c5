"""Single glasses (A-not-A) and ratings of difference from control."""

from itertools import product
from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from diagnose.errors import UnusableInput
from diagnose.sensory import (
    SingleGlasses,
    distance_from_ratings,
    fisher_p,
    least_hits,
    least_rank_sum,
    matched_p,
    power_a_not_a,
    read_a_not_a,
    read_ratings,
)

SMALL = st.integers(1, 12)
RATING = st.integers(0, 10)
# Source of the table: an earlier calculation by other code, 8 glasses each at alpha 0.05.
LEAST_HITS = [(0, 4), (1, 6), (2, 7), (3, 8)]


@given(SMALL, SMALL, st.data())
def test_a_p_of_single_glasses_is_fishers(a, others, data):
    hits, false = data.draw(st.integers(0, a)), data.draw(st.integers(0, others))
    table = [[hits, a - hits], [false, others - false]]
    theirs = stats.fisher_exact(table, alternative="greater").pvalue
    assert fisher_p(SingleGlasses(hits, a, false, others)) == pytest.approx(theirs, abs=1e-9)


@settings(max_examples=40)
@given(SMALL, SMALL, st.data())
def test_the_interval_of_single_glasses_contains_the_best_distance(a, others, data):
    hits, false = data.draw(st.integers(0, a)), data.draw(st.integers(0, others - 1))
    found = read_a_not_a(SingleGlasses(hits, a, false, others)).dprime
    hit, alarm = stats.norm.ppf(hits / a), stats.norm.ppf(false / others)
    best = 0.0 if hit == alarm else hit - alarm
    assert found.low - 1e-6 <= best <= found.high + 1e-6


def test_glasses_told_apart_every_time_have_no_upper_end():
    assert read_a_not_a(SingleGlasses(6, 6, 0, 6)).dprime.high == inf


@pytest.mark.parametrize(("false", "hits"), LEAST_HITS)
def test_the_least_hits_are_those_of_other_code(false, hits):
    assert least_hits(8, false, 0.05) == hits


@given(SMALL, st.sampled_from([0.05, 0.1]), st.data())
def test_one_hit_fewer_than_the_least_is_not_enough(glasses, alpha, data):
    false = data.draw(st.integers(0, glasses))
    least = least_hits(glasses, false, alpha)
    short = glasses if least is None else least - 1
    assert fisher_p(SingleGlasses(short, glasses, false, glasses)) > alpha


@given(st.integers(3, 12), st.floats(0.1, 3.0), st.floats(0.1, 1.0))
def test_single_glasses_find_a_greater_distance_more_often(glasses, d, more):
    near, far = (power_a_not_a(glasses, x, 0.1) for x in (d, d + more))
    assert far >= near - 1e-12


def test_only_tasters_who_answered_differently_count_when_each_had_both():
    assert matched_p(7, 1) == pytest.approx(stats.binomtest(7, 8, alternative="greater").pvalue)


def test_tasters_who_all_answered_alike_show_nothing():
    assert matched_p(0, 0) == 1.0


@given(st.lists(st.integers(-5, 5), min_size=1, max_size=9))
def test_a_p_of_ratings_is_that_of_every_way_to_turn_the_signs(gaps):
    moved = [gap for gap in gaps if gap]
    ranks = stats.rankdata(np.abs(moved)) if moved else np.array([])
    observed = ranks[np.array(moved) > 0].sum() if moved else 0.0
    sums = [ranks @ np.array(signs) for signs in product((0, 1), repeat=len(moved))]
    theirs = np.mean(np.array(sums) >= observed - 1e-9)
    assert read_ratings(gaps, [0] * len(gaps)).p == pytest.approx(theirs, abs=1e-12)


@given(st.lists(st.tuples(RATING, RATING), min_size=1, max_size=12))
def test_swapping_test_and_control_turns_the_difference_round(pairs):
    test, control = zip(*pairs, strict=True)
    there, back = read_ratings(test, control), read_ratings(control, test)
    assert there.mean_difference == pytest.approx(-back.mean_difference)
    assert there.p_two_sided == pytest.approx(back.p_two_sided)


def test_five_tasters_of_one_mind_are_one_in_thirty_two():
    assert read_ratings([3, 4, 5, 6, 7], [1, 1, 1, 1, 1]).p == 0.03125


@pytest.mark.parametrize("tasters", [4, 7, 12])
def test_the_least_rank_sum_has_a_risk_within_alpha(tasters):
    least, risk = least_rank_sum(tasters, 0.1)
    assert least is not None and risk <= 0.1


def test_three_tasters_of_one_mind_are_not_enough():
    assert least_rank_sum(3, 0.1) == (None, 0.0)


def _ratings(random, d, tasters, bounds):
    gaps = np.abs(random.normal(d, np.sqrt(2), tasters))
    return np.bincount(np.searchsorted(bounds, gaps), minlength=len(bounds) + 1).tolist()


@pytest.mark.parametrize("d", [1.0, 2.0])
def test_a_distance_from_ratings_is_the_one_that_made_them(d):
    random = np.random.default_rng(41)
    bounds = np.array([0.7, 1.5, 2.5])
    control, test = (_ratings(random, x, 20_000, bounds) for x in (0.0, d))
    assert distance_from_ratings(control, test).dprime == pytest.approx(d, abs=0.06)


@settings(max_examples=15)
@given(st.lists(st.tuples(st.integers(0, 9), st.integers(0, 9)), min_size=3, max_size=4))
def test_any_ratings_have_a_p_between_nought_and_a_half(pairs):
    control, test = zip(*pairs, strict=True)
    try:
        found = distance_from_ratings(control, test)
    except UnusableInput:
        assert min(sum(control), sum(test)) == 0 or sum(map(any, pairs)) < 2
    else:
        assert 0.0 <= found.p <= 0.5


@pytest.mark.parametrize(
    ("call", "wanted"),
    [
        (lambda: read_ratings([1, 2], [1]), "one of each from every taster"),
        (lambda: read_ratings([], []), "at least one taster"),
        (lambda: read_a_not_a(SingleGlasses(9, 8, 0, 8)), "no more right answers than the 8"),
        (lambda: distance_from_ratings([1, 2], [1, 2, 3]), "the same classes for both"),
        (lambda: power_a_not_a(8, -1.0, 0.1), "above 0"),
        (lambda: least_rank_sum(1001, 0.1), "at most 1000"),
    ],
)
def test_what_cannot_be_read_is_refused(call, wanted):
    with pytest.raises(UnusableInput, match=wanted):
        call()
