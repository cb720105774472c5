"""Laws of the statistics, and their equality with scipy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from diagnose.history.statistics.aliasing import aliases_of, moved_together
from diagnose.history.statistics.changes import change_points, days_near
from diagnose.history.statistics.columns import Column, columns_of
from diagnose.history.statistics.effects import _outside, _untied, share_difference, shift
from diagnose.history.statistics.ranks import mann_whitney, permutation_of_means
from diagnose.history.statistics.reach import adjusted, clean_in_a_row, luck
from diagnose.history.statistics.screening import screen
from diagnose.history.statistics.two_by_two import TwoByTwo, fisher, least_fisher
from tests.history.statistics.brewers import brew
from tests.process.cards import constants

COUNTS = st.tuples(*(st.integers(0, 12) for _ in range(4))).filter(
    lambda c: c[0] + c[1] > 0 and c[2] + c[3] > 0
)
VALUES = st.lists(st.integers(0, 9).map(float), min_size=2, max_size=8)
ODD_ONES = st.lists(st.floats(-50, 50, allow_nan=False), min_size=2, max_size=9, unique=True)
CHANCES = st.lists(st.floats(0.0, 1.0), min_size=1, max_size=12)


@given(COUNTS)
def test_fisher_is_as_scipy_has_it(counts):
    a, b, c, d = counts
    for side in ("two-sided", "less", "greater"):
        known = stats.fisher_exact([[a, b], [c, d]], alternative=side).pvalue
        assert fisher(TwoByTwo(*counts), side) == pytest.approx(known, abs=1e-10)


@given(COUNTS)
def test_no_table_beats_the_least_p_of_its_margins(counts):
    table = TwoByTwo(*counts)
    assert fisher(table) >= least_fisher(table) - 1e-12


@given(ODD_ONES, ODD_ONES)
def test_the_rank_test_is_as_scipy_has_it_where_nothing_is_tied(one, other):
    if set(one) & set(other):
        return
    known = stats.mannwhitneyu(one, other, method="exact")
    found = mann_whitney(one, other)
    assert (found.u, found.p) == pytest.approx((known.statistic, known.pvalue), abs=1e-10)


@settings(max_examples=20, deadline=None)
@given(VALUES, VALUES)
def test_the_rank_test_stays_exact_with_ties(one, other):
    ranks = stats.rankdata([*one, *other])
    known = stats.permutation_test(
        (ranks[: len(one)], ranks[len(one) :]),
        lambda a, b: a.sum(),
        n_resamples=20_000,
        alternative="two-sided",
    )
    assert mann_whitney(one, other).p == pytest.approx(known.pvalue, abs=1e-9)


@settings(max_examples=20, deadline=None)
@given(VALUES, VALUES)
def test_the_permutation_of_means_is_as_scipy_has_it(one, other):
    known = stats.permutation_test(
        (one, other),
        lambda a, b: abs(np.mean(a) - np.mean(b)),
        n_resamples=20_000,
        alternative="greater",
    )
    assert permutation_of_means(one, other) == pytest.approx(known.pvalue, abs=1e-9)


def test_drawn_permutations_repeat_by_their_seed():
    values = np.random.default_rng(3).normal(size=25).tolist()
    found = [permutation_of_means(values[:8], values[8:], seed=4) for _ in range(2)]
    assert found[0] == found[1]


def test_drawn_permutations_come_near_the_exact_test():
    # t test of normal values, as a second route; five standard errors of 9,999 draws.
    values = np.random.default_rng(3).normal(size=40)
    values[:10] += 0.6
    known = stats.ttest_ind(values[:10], values[10:]).pvalue
    found = permutation_of_means(values[:10].tolist(), values[10:].tolist())
    assert found == pytest.approx(known, abs=0.025)


@settings(max_examples=10, deadline=None)
@given(st.integers(0, 10_000))
def test_many_batches_take_the_normal_approximation_of_scipy(seed):
    random = np.random.default_rng(seed)
    one, other = random.integers(0, 40, 400).tolist(), random.integers(0, 40, 900).tolist()
    known = stats.mannwhitneyu(one, other, method="asymptotic").pvalue
    found = mann_whitney(one, other)
    assert (found.exact, found.p) == (False, pytest.approx(known, rel=1e-9))


@given(CHANCES)
def test_the_adjusted_p_is_as_scipy_has_it(chances):
    known = stats.false_discovery_control(chances, method="bh")
    assert adjusted(chances).tolist() == pytest.approx(known.tolist(), abs=1e-12)


@given(COUNTS, st.sampled_from([0.2, 0.1, 0.05]))
def test_a_difference_lies_in_its_interval(counts, level):
    effect = share_difference(TwoByTwo(*counts), level)
    assert -1.0 <= effect.low <= effect.value + 1e-12 <= effect.high + 2e-12 <= 1.0 + 3e-12


@given(VALUES, VALUES, st.integers(-20, 20))
def test_the_shift_moves_with_the_values(one, other, by):
    before = shift(one, other, 0.1)
    after = shift([value + by for value in one], other, 0.1)
    assert after.value == pytest.approx(before.value + by)


# Wilcoxon's interval in the textbooks: for 5 and 5 values the third smallest difference is the
# lower end at 95 % (critical U 2, recalled).
def test_the_ends_of_a_shift_are_those_of_the_rank_test():
    one, other = [1.1, 2.2, 3.4, 4.7, 6.1], [0.0, 0.3, 0.7, 1.2, 1.9]
    differences = sorted(a - b for a in one for b in other)
    effect = shift(one, other, 0.05)
    assert (effect.low, effect.high) == pytest.approx((differences[2], differences[-3]))


# Source: the exact count of the same test; the normal curve may be one difference off.
@pytest.mark.parametrize(("few", "many"), [(51, 50), (40, 80), (30, 100)])
@pytest.mark.parametrize("level", [0.2, 0.1, 0.05])
def test_the_ends_of_a_shift_of_many_values_are_those_of_the_exact_count(few, many, level):
    exact = int((np.cumsum(_untied(few, many)) <= level / 2.0).sum())
    assert _outside(few, many, level) == pytest.approx(exact, abs=1)


@given(st.floats(0.01, 0.99), st.floats(0.001, 0.5))
def test_the_clean_run_is_the_shortest_that_means_anything(rate, level):
    run = clean_in_a_row(rate, level)
    assert luck(rate, run) <= level < luck(rate, run - 1)


def _column(name: str, values: list[bool]) -> Column:
    return Column(name, "yes", np.array(values), np.ones(len(values), dtype=bool))


@given(st.lists(st.booleans(), min_size=4, max_size=12).filter(lambda v: 0 < sum(v) < len(v)))
def test_a_factor_moves_exactly_with_itself_and_with_its_reverse(values):
    same, reverse = _column("a", values), _column("b", [not one for one in values])
    assert moved_together(same, reverse) == pytest.approx(1.0)


def test_two_factors_that_part_too_seldom_cannot_be_told_apart():
    flawed = np.array([True] * 10 + [False] * 15)
    lead = _column("lead", flawed.tolist())
    near = _column("near", [*flawed.tolist()[1:], True])
    alias = aliases_of(lead, [lead, near], flawed, 0.05)[0]
    assert (alias.differ, alias.separable) == (2, False)
    # One batch with the lead alone, flawed; one with the other alone, clean.
    assert alias.apart == TwoByTwo(0, 1, 1, 0)


@given(st.lists(st.tuples(st.booleans(), st.booleans(), st.booleans()), min_size=4, max_size=30))
def test_where_two_factors_part_every_batch_counts_once(batches):
    flawed = np.array([one[0] for one in batches])
    lead = _column("lead", [one[1] for one in batches])
    other = _column("other", [one[2] for one in batches])
    for alias in aliases_of(lead, [lead, other], flawed, 0.05):
        if alias.apart is not None:
            assert alias.apart.flawed + alias.apart.clean == alias.differ
            assert alias.apart.with_it == sum(o and not a for _, a, o in batches)
            assert alias.apart.flawed == sum(bad for bad, a, o in batches if a != o)


def test_a_number_that_a_factor_sorts_perfectly_moved_with_it():
    yes = _column("yes", [False, False, True, True, True])
    numbers = Column("n", None, np.array([1.0, 2.0, 3.0, 4.0, 5.0]), yes.logged)
    assert moved_together(yes, numbers) == 1.0


def test_factors_that_never_part_are_one_suspect():
    flawed = np.array([True] * 4 + [False] * 8)
    columns = [_column(name, flawed.tolist()) for name in ("a", "b", "c")]
    assert len(screen(columns, flawed, 0.05).suspects) == 1


def test_what_cannot_reach_the_level_is_not_tested():
    flawed = np.array([True] * 4 + [False] * 8)
    once = _column("once", [True] + [False] * 11)
    assert screen([once], flawed, 0.05).beyond_reach == (once,)


def test_a_batch_that_was_not_logged_does_not_count():
    brews = [brew(i, i < 3, factors={"hop": ("old" if i < 3 else "new",)}) for i in range(6)]
    columns = columns_of([*brews, brew(6, False)])
    assert [int(one.logged.sum()) for one in columns if one.factor == "hop"] == [6, 6]


def test_what_was_done_splits_the_batches_by_their_brew_day():
    brews = [brew(i, False) for i in range(6)]
    since = [one for one in columns_of(brews, [(brews[4].brewed_on, "new hose")]) if one.word]
    assert [one.values.tolist() for one in since if "hose" in one.word] == [
        [False] * 4 + [True] * 2
    ]


def test_a_change_of_level_is_found_where_it_is():
    values = [0.0] * 15 + [1.0] * 12
    assert [
        (one.place, one.before, one.after) for one in change_points(values, 0.05, constants())
    ] == [(15, 0.0, 1.0)]


def test_a_level_series_is_said_to_change_no_more_often_than_the_level():
    # 200 series at .05: ten are expected, 19 are three standard deviations more.
    random = np.random.default_rng(8)
    found = [
        change_points(random.normal(size=20).tolist(), 0.05, constants(), seed)
        for seed in range(200)
    ]
    assert 1 <= sum(map(bool, found)) <= 19


@pytest.mark.parametrize(
    ("day", "near"),
    [("2025-05-30", True), ("2025-06-20", True), ("2025-07-01", False), (None, False)],
)
def test_what_was_done_shortly_before_a_change_is_near_it(day, near):
    assert days_near(("2025-06-10", "2025-06-25"), day, 45) is near
