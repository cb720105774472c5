"""Exact tests, adjustments and charts against published worked examples."""

import math

import numpy as np
import pytest

from diagnose.history.statistics.charts import D2, D3, cusum, fault_cusum, individuals
from diagnose.history.statistics.effects import share_difference
from diagnose.history.statistics.ranks import mann_whitney
from diagnose.history.statistics.reach import (
    adjusted,
    can_show,
    clean_in_a_row,
    clean_to_show,
    least_p,
    luck,
)
from diagnose.history.statistics.two_by_two import TwoByTwo, boschloo, fisher, least_fisher

# Fisher (1935), the tea tasting (3 of 4: elementary); scipy 1.17 documentation, its examples.
FISHER = [
    ((4, 0, 0, 4), "greater", 1 / 70, 1e-12),
    ((3, 1, 1, 3), "greater", 17 / 70, 1e-12),
    ((8, 2, 1, 5), "two-sided", 0.034965034965035, 1e-12),
    ((7, 12, 8, 3), "less", 0.0641, 5e-5),
    ((74, 31, 43, 32), "greater", 0.0483, 5e-5),
    ((5, 0, 1, 8), "two-sided", 6 / 2002, 1e-12),
]


@pytest.mark.parametrize(("counts", "alternative", "p", "within"), FISHER)
def test_fishers_p_is_the_published_one(counts, alternative, p, within):
    assert fisher(TwoByTwo(*counts), alternative) == pytest.approx(p, abs=within)


# Own derivation on a grid of the unknown rate: 0.0010604 one-sided; scipy's two-sided is twice
# the smaller one-sided p, here made sharper by the other side's statistic.
def test_boschloo_is_sharper_than_fisher_on_the_worked_log():
    table = TwoByTwo(5, 0, 1, 8)
    assert 0.00106 <= boschloo(table) < fisher(table)


# scipy 1.17 documentation of mannwhitneyu: ages at diagnosis, U = 17, p = 1/9.
def test_the_rank_test_of_the_published_ages():
    test = mann_whitney([19, 22, 16, 29, 24], [20, 11, 17, 12])
    assert (test.u, test.p, test.exact) == (17.0, pytest.approx(1 / 9, abs=1e-12), True)


# Smallest two-sided p with n values on each side: 2 / C(2n, n), computed to six places.
SMALLEST = [(3, 0.1), (4, 0.028571), (5, 0.007937), (6, 0.002165), (8, 0.000155), (10, 1.1e-05)]


@pytest.mark.parametrize(("n", "p"), SMALLEST)
def test_the_smallest_p_of_the_rank_test(n, p):
    assert mann_whitney(range(n), range(n, 2 * n)).p == pytest.approx(p, abs=5e-7)


# Standard tables of critical U, two-sided .05 (recalled): 4+4 to 10+10 values.
CRITICAL = [(4, 0), (5, 2), (6, 5), (7, 8), (8, 13), (9, 17), (10, 23)]


@pytest.mark.parametrize(("n", "critical"), CRITICAL)
def test_u_is_significant_up_to_the_tabled_value_and_no_further(n, critical):
    assert _p_of_u(n, critical) <= 0.05 < _p_of_u(n, critical + 1)


def _p_of_u(n: int, u: int) -> float:
    """The p of two samples of n values whose U is u."""
    first = list(range(1, n + 1))
    for place in range(n - 1, -1, -1):
        step = min(u, n)
        first[place], u = first[place] + step, u - step
    rest = sorted(set(range(1, 2 * n + 1)) - set(first))
    return mann_whitney(first, rest).p


# Benjamini and Hochberg (1995), 15 p values, as quoted in the documentation of scipy.
BH_P = [
    *(0.0001, 0.0004, 0.0019, 0.0095, 0.0201, 0.0278, 0.0298, 0.0344, 0.0459, 0.3240),
    *(0.4262, 0.5719, 0.6528, 0.7590, 1.0),
]
BH_ADJUSTED = {0: 0.0015, 1: 0.003, 2: 0.0095, 3: 0.035625, 4: 0.0603, 5: 0.06385714, 8: 0.0765}


@pytest.mark.parametrize(("place", "p"), BH_ADJUSTED.items())
def test_the_adjusted_p_is_the_published_one(place, p):
    assert adjusted(BH_P)[place] == pytest.approx(p, abs=1e-7)


# Newcombe (1998), 56 of 70 against 48 of 80, method 10 (recalled): 0.0524 to 0.3339.
def test_newcombes_interval():
    effect = share_difference(TwoByTwo(56, 14, 48, 32), 0.05)
    assert (effect.low, effect.high) == pytest.approx((0.0524, 0.3339), abs=5e-5)


# Computed, 1 / C(N, f): (batches, flawed, least one-sided p).
REACH = [(5, 2, 0.1), (6, 3, 0.05), (8, 2, 0.03571), (12, 4, 0.00202), (20, 1, 0.05)]


@pytest.mark.parametrize(("batches", "flawed", "p"), REACH)
def test_what_so_many_batches_can_reach(batches, flawed, p):
    assert least_p(batches, flawed) == pytest.approx(p, rel=1e-3)


@pytest.mark.parametrize(("batches", "flawed", "p"), REACH)
def test_no_test_is_worth_it_beyond_the_reach(batches, flawed, p):
    assert can_show(batches, flawed, 0.05) == (p <= 0.05)


def test_two_flawed_batches_need_five_clean_ones():
    assert clean_to_show(2, 0.05) == 5


def test_the_least_p_does_not_jump_where_numbers_grow_too_large():
    assert least_p(501, 3) == pytest.approx(1 / math.comb(501, 3), rel=1e-9)


# Computed, smallest k with (1 - rate)^k <= level: (rate, for .05, for .10, for .20).
CLEAN_RUNS = [
    (0.05, 59, 45, 32),
    (0.1, 29, 22, 16),
    (0.15, 19, 15, 10),
    (0.2, 14, 11, 8),
    (0.25, 11, 9, 6),
    (0.3, 9, 7, 5),
    (0.4, 6, 5, 4),
    (0.5, 5, 4, 3),
    (0.6, 4, 3, 2),
    (0.7, 3, 2, 2),
]


@pytest.mark.parametrize("row", CLEAN_RUNS)
def test_so_many_clean_batches_in_a_row_mean_something(row):
    assert tuple(clean_in_a_row(row[0], level) for level in (0.05, 0.1, 0.2)) == row[1:]


def test_one_clean_batch_after_one_in_three_is_luck_two_times_in_three():
    assert luck(1 / 3, 1) == pytest.approx(2 / 3)


# Constants of control charts for n = 2 (a seen table): d2, d3, D4 and E2 = 3 / d2.
def test_the_constants_of_moving_ranges():
    found = (D2, D3, 1 + 3 * D3 / D2, 3 / D2)
    assert found == pytest.approx((1.1284, 0.8525, 3.2665, 2.6587), abs=6e-5)


# By hand: twelve values that alternate 1 apart have a mean range of 1, so a spread of 1 / d2.
def test_the_limits_of_single_values():
    chart = individuals([10.0, 11.0] * 6)
    assert (chart.low, chart.high, chart.range_high) == pytest.approx(
        (10.5 - 2.6587, 10.5 + 2.6587, 3.2665), abs=1e-4
    )


def test_a_value_beyond_the_limits_is_marked_and_so_is_the_jump():
    chart = individuals([10.0, 11.0] * 8 + [30.0])
    assert (chart.outside, chart.jumps) == ((16,), (16,))


def test_few_values_get_no_limits():
    assert individuals([1.0, 2.0, 30.0]).high == math.inf


def test_eight_in_a_row_on_one_side_are_marked():
    assert individuals([1.0] * 8 + [-1.0] * 8).one_sided == (7, 15)


# The worked example of Lucas and Crosier, values seen in a table: with and without head start.
LUCAS = [0.8, 1.9, 1.4, 2.0, 1.1, 0.7, 2.6]


@pytest.mark.parametrize(
    ("head_start", "sums"),
    [
        (0.0, (0.3, 1.7, 2.6, 4.1, 4.7, 4.9, 7.0)),
        (2.5, (2.8, 4.2, 5.1, 6.6, 7.2, 7.4, 9.5)),
    ],
)
def test_the_sums_of_the_published_cusum(head_start, sums):
    assert cusum(LUCAS, head_start=head_start).above == pytest.approx(sums, abs=1e-9)


def test_the_head_start_signals_at_the_third_value():
    assert cusum(LUCAS, head_start=2.5).signal == 2


# Average run lengths, k = .5, by Markov chain, in agreement with recalled tables: (h, shift in
# spreads, run length, runs, within four standard errors).
RUN_LENGTHS = [
    (4.0, 1.0, 8.38, 3000, 0.35),
    (5.0, 1.0, 10.38, 3000, 0.4),
    (4.0, 0.0, 167.7, 250, 42),
]


@pytest.mark.parametrize(("h", "shift", "length", "runs", "within"), RUN_LENGTHS)
def test_the_run_lengths_of_the_cusum(h, shift, length, runs, within):
    random = np.random.default_rng(11)
    longest = 60 if shift else 1500
    series = random.normal(shift, 1.0, (runs, longest))
    found = [cusum(one.tolist(), limit=h).signal for one in series]
    assert np.mean([longest if one is None else one + 1 for one in found]) == pytest.approx(
        length, abs=within
    )


# p0 .10, p1 .40 (computed): +1.386 for a flawed batch, -0.405 for a clean one.
def test_the_steps_of_the_fault_cusum():
    assert fault_cusum([True, False, True]).sums == pytest.approx((1.386, 0.981, 2.367), abs=2e-3)


# Computed exactly: h = 3 signals within 20 batches in 8 % of series at the usual rate.
def test_the_false_signals_of_the_fault_cusum():
    series = np.random.default_rng(5).random((4000, 20)) < 0.1
    share = np.mean([fault_cusum(one.tolist()).signal is not None for one in series])
    assert share == pytest.approx(0.08, abs=0.018)


def test_the_least_fisher_is_that_of_the_perfect_table():
    assert least_fisher(TwoByTwo(4, 4, 4, 13)) == fisher(TwoByTwo(8, 0, 0, 17))
