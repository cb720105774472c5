"""Distances and shares with their intervals, and what speaks for similarity."""

from math import inf, isfinite

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import optimize, stats

from diagnose.sensory import (
    METHODS,
    able_estimate,
    critical,
    dprime_estimate,
    share_from_able,
    share_right,
    similarity_limit,
    similarity_p,
    similarity_sizes,
)
from tests.sensory.other_routes import OTHER_ROUTES
from tests.sensory.tables import Row, rows_of

EVERY = sorted(METHODS)
ONE_SIDED = [test for test in EVERY if not METHODS[test].two_sided]


def _counts(answers):
    return st.tuples(st.just(answers), st.integers(0, answers))


RESULTS = st.integers(1, 60).flatmap(_counts)


@pytest.mark.parametrize(
    "row", rows_of("dprime"), ids=lambda r: f"{r['test']} {r['right']}/{r['answers']}"
)
def test_a_distance_and_its_interval_are_those_of_other_code(row: Row) -> None:
    found = dprime_estimate(METHODS[row["test"]], row["right"], row["answers"])
    wanted = [row["dprime"], row["low"], row["high"]]
    assert [found.value, found.low, found.high] == pytest.approx(wanted, abs=1e-4)


def _distance_by_scipy(test, share):
    """Root of another formula for the share of right answers."""
    return optimize.brentq(lambda d: OTHER_ROUTES[test](d) - share, 0.0, 12.0, xtol=1e-10)


def _ends_by_scipy(test, right, answers):
    """Where the likelihood falls by half the 95 % quantile of chi-square."""
    best = stats.binom.logpmf(right, answers, right / answers)
    lowest = best - stats.chi2.ppf(0.95, 1) / 2

    def above(share):
        return stats.binom.logpmf(right, answers, share) - lowest

    high = optimize.brentq(above, right / answers, 1 - 1e-12, xtol=1e-14)
    if above(METHODS[test].guess) >= 0:
        return 0.0, _distance_by_scipy(test, high)
    low = optimize.brentq(above, METHODS[test].guess, right / answers, xtol=1e-14)
    return _distance_by_scipy(test, low), _distance_by_scipy(test, high)


@pytest.mark.parametrize("right", [7, 9, 11])
@pytest.mark.parametrize("test", EVERY)
def test_a_distance_and_its_interval_are_those_of_scipy(test, right):
    found = dprime_estimate(METHODS[test], right, 12)
    wanted = [_distance_by_scipy(test, right / 12), *_ends_by_scipy(test, right, 12)]
    assert [found.value, found.low, found.high] == pytest.approx(wanted, abs=1e-6)


@given(st.sampled_from(EVERY), RESULTS)
def test_an_interval_contains_its_estimate(test, result):
    answers, right = result
    for found in (f(METHODS[test], right, answers) for f in (dprime_estimate, able_estimate)):
        assert found.low - 1e-9 <= found.value <= found.high + 1e-9


@given(st.sampled_from(EVERY), RESULTS)
def test_no_interval_goes_below_luck(test, result):
    answers, right = result
    assert dprime_estimate(METHODS[test], right, answers).low >= 0.0


@given(st.sampled_from(EVERY), RESULTS)
def test_a_higher_level_widens_the_interval(test, result):
    answers, right = result
    narrow, wide = (dprime_estimate(METHODS[test], right, answers, x) for x in (0.8, 0.99))
    assert wide.low <= narrow.low and wide.high >= narrow.high


@pytest.mark.parametrize("test", EVERY)
def test_few_right_answers_leave_room_for_a_difference(test):
    assert dprime_estimate(METHODS[test], 6 if METHODS[test].two_sided else 0, 12).high > 0.2


@pytest.mark.parametrize("test", EVERY)
def test_a_perfect_score_has_no_upper_end(test):
    found = dprime_estimate(METHODS[test], 12, 12)
    assert (found.value, found.high, isfinite(found.low)) == (inf, inf, True)


@pytest.mark.parametrize("test", ONE_SIDED)
def test_fewer_right_than_luck_leave_as_many_tasters_able_to_tell_as_luck_does(test):
    ends = [able_estimate(METHODS[test], right, 12).high for right in (0, 1, 2)]
    lucky = able_estimate(METHODS[test], round(12 * METHODS[test].guess), 12).high
    assert ends == pytest.approx([lucky] * 3, abs=1e-9)


@given(st.sampled_from(ONE_SIDED), RESULTS)
def test_the_interval_of_the_share_is_that_of_scipy_above_luck(test, result):
    answers, right = result
    method = METHODS[test]
    theirs = stats.binomtest(right, answers).proportion_ci(0.95, method="exact")
    if right >= method.guess * answers:
        found = able_estimate(method, right, answers)
        ends = [share_from_able(method, able) for able in (found.low, found.high)]
        wanted = [max(theirs.low, method.guess), theirs.high]
        assert ends == pytest.approx(wanted, abs=1e-6)


@given(st.sampled_from(ONE_SIDED), RESULTS, st.sampled_from([0.05, 0.1]))
def test_a_difference_is_shown_just_when_the_interval_leaves_luck(test, result, alpha):
    answers, right = result
    least = critical(METHODS[test], answers, alpha).least_right
    low = able_estimate(METHODS[test], right, answers, 1 - 2 * alpha).low
    assert (least is not None and right >= least) is (low > 1e-12)


@given(st.sampled_from(ONE_SIDED), RESULTS, st.sampled_from([0.3, 0.5, 0.7]))
def test_a_difference_is_ruled_out_just_when_it_lies_above_the_interval(test, result, able):
    answers, right = result
    method = METHODS[test]
    p = similarity_p(method, right, answers, share_from_able(method, able))
    if right >= method.guess * answers:
        high = able_estimate(method, right, answers, 0.8).high
        assert (p <= 0.1) is (high <= able)


def _coverage(method, answers, d, ends):
    """Exact chance that the interval holds the true distance."""
    chances = stats.binom.pmf(np.arange(answers + 1), answers, float(share_right(method, d)))
    held = [found.low - 1e-9 <= d <= found.high + 1e-9 for found in ends]
    return float(chances @ held)


@pytest.mark.parametrize("test", EVERY)
def test_the_likelihood_interval_covers_about_as_often_as_it_says(test):
    method, distances = METHODS[test], np.linspace(0.0, 3.0, 31)
    ends = [dprime_estimate(method, x, 24) for x in range(25)]
    coverage = [_coverage(method, 24, d, ends) for d in distances]
    # Whole numbers make it wander: now and then it falls short by a tenth.
    assert np.mean(coverage) > 0.93 and min(coverage) > 0.82


# Source of the table: exact binomial limits of an earlier calculation by other code, risk 0.05
# and 0.2, for shares of 0.3, 0.5 and 0.7 able to tell.
MOST_RIGHT = [
    ("triangle", 12, [3, 4, 4, 6, 6, 7]),
    ("triangle", 24, [8, 10, 11, 13, 15, 17]),
    ("duo-trio", 12, [4, 5, 5, 7, 7, 8]),
    ("duo-trio", 36, [18, 20, 22, 24, 26, 28]),
]


@pytest.mark.parametrize(("test", "answers", "most"), MOST_RIGHT)
def test_the_most_right_answers_that_rule_out_are_those_of_other_code(test, answers, most):
    found = [
        similarity_limit(METHODS[test], answers, able, alpha).most_right
        for able in (0.3, 0.5, 0.7)
        for alpha in (0.05, 0.2)
    ]
    assert found == most


@given(st.sampled_from(EVERY), st.integers(1, 40), st.sampled_from([0.3, 0.5]))
def test_the_limit_is_the_largest_count_that_still_rules_out(test, answers, able):
    method, share = METHODS[test], share_from_able(METHODS[test], able)
    counts = range(-(-answers // 2) if method.two_sided else 0, answers)
    within = [right for right in counts if similarity_p(method, right, answers, share) <= 0.2]
    most = similarity_limit(method, answers, able, 0.2).most_right
    assert most == max(within, default=None)


@given(st.sampled_from(EVERY), st.integers(1, 100), st.sampled_from([0.3, 0.5]))
def test_the_true_risk_of_ruling_out_is_within_alpha(test, answers, able):
    assert similarity_limit(METHODS[test], answers, able, 0.1).exact_alpha <= 0.1


@given(st.sampled_from(EVERY), RESULTS)
def test_a_larger_difference_is_easier_to_rule_out(test, result):
    answers, right = result
    near, far = (
        similarity_p(METHODS[test], right, answers, share_from_able(METHODS[test], able))
        for able in (0.3, 0.6)
    )
    assert far <= near + 1e-12


@pytest.mark.parametrize("test", EVERY)
@pytest.mark.parametrize("able", [0.1, 0.2])
def test_a_home_panel_never_shows_a_difference_and_rules_a_small_one_out_as_well(test, able):
    for answers in range(1, 31):
        most = similarity_limit(METHODS[test], answers, able, 0.1).most_right
        least = critical(METHODS[test], answers, 0.1).least_right
        assert most is None or least is None or most < least


def test_the_sizes_for_ruling_out_are_those_of_other_code():
    found = similarity_sizes(METHODS["triangle"], (0.3, 0.0), alpha=0.05, power=0.8)
    assert found == (39, 46)


def test_a_two_sided_test_rules_out_by_the_beer_in_front():
    method = METHODS["2-afc-two-sided"]
    share = share_from_able(method, 0.5)
    theirs = stats.binom.cdf(7, 12, share) - stats.binom.cdf(4, 12, share)
    both = [similarity_p(method, right, 12, share) for right in (5, 7)]
    assert both == pytest.approx([theirs, theirs], abs=1e-12)
