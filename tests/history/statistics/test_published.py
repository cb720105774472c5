"""Exact tests, adjustments and charts against figures of others.

`seen` rows were read in the source named; `recalled` rows only from memory, and prove little;
`computed-independently` rows come from a closed form, a simulation or other code.
"""

import math
from pathlib import Path

import numpy as np
import pytest

from diagnose.documents import parse_yaml, read_text
from diagnose.history.statistics.charts import cusum, fault_cusum, individuals
from diagnose.history.statistics.effects import share_difference
from diagnose.history.statistics.ranks import mann_whitney
from diagnose.history.statistics.reach import (
    can_show,
    clean_by_counts,
    clean_in_a_row,
    clean_to_show,
    least_p,
    luck,
    luck_by_counts,
)
from diagnose.history.statistics.two_by_two import TwoByTwo, boschloo, fisher, least_fisher
from tests.history.statistics.published import FOLDER, LUCAS, answer_of, by_number, rows_of
from tests.history.statistics.ranges import mean_and_spread
from tests.process.cards import constants

NOT_RUN = Path(__file__).parents[2] / "sensory" / "tables" / "not_run.yaml"
ROWS = rows_of("check_values")
STATUSES = {"seen", "recalled", "computed-independently"}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_we_meet_a_figure_of_others(row):
    assert answer_of(row) == pytest.approx(row["expected"], abs=row["within"])


def test_the_constants_of_pairs_on_our_cards_are_what_their_integrals_give():
    assert mean_and_spread(2) == pytest.approx(
        (constants()["chart_d2_pair"], constants()["chart_d3_pair"]), abs=5e-5
    )


def test_every_figure_names_its_source_and_says_whether_it_was_seen():
    assert [row["id"] for row in ROWS if row["status"] not in STATUSES or not row["source"]] == []


def test_every_figure_that_the_tests_of_tasting_leave_to_us_is_run_here():
    left = parse_yaml(read_text(NOT_RUN), "not_run").data
    ours = {row["id"] for row in left if row["reason"].startswith("run by tests/history")}
    assert ours and ours <= {row["id"] for row in ROWS}


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_first_line_of_a_table_names_its_source(path):
    assert path.read_text(encoding="utf-8").splitlines()[0].startswith("# ")


@pytest.mark.parametrize("row", rows_of("fisher_reach"), ids=str)
def test_what_so_many_batches_can_reach(row):
    assert least_p(row["batches"], row["flawed"]) == pytest.approx(row["least_p"], abs=6e-5)


@pytest.mark.parametrize("row", rows_of("fisher_reach"), ids=str)
def test_the_fewest_flawed_batches_that_must_have_a_factor(row):
    flawed, clean = row["flawed"], row["batches"] - row["flawed"]

    def p(both: int) -> float:
        rest = flawed - both
        # A p of just the level counts, whichever way it was rounded.
        return fisher(TwoByTwo(both, rest, rest, clean - rest), "greater") * (1.0 - 1e-9)

    found = {
        level: next((k for k in range(max(0, flawed - clean), flawed + 1) if p(k) <= level), None)
        for level in by_number(row["overlap"])
    }
    assert found == by_number(row["overlap"])


@pytest.mark.parametrize("row", rows_of("fisher_reach"), ids=str)
def test_no_test_is_worth_it_beyond_the_reach(row):
    known = by_number(row["overlap"])[0.05] is not None
    assert can_show(row["batches"], row["flawed"], 0.05) == known


@pytest.mark.parametrize("row", rows_of("clean_runs"), ids=str)
def test_so_many_clean_batches_in_a_row_mean_something(row):
    known = by_number(row["runs"])
    assert {level: clean_in_a_row(row["rate"], level) for level in known} == known


@pytest.mark.parametrize("row", rows_of("clean_runs"), ids=str)
def test_the_chance_of_a_flaw_within_the_next_batches(row):
    known = by_number(row["flaw_within"])
    found = {within: 1.0 - luck(row["rate"], int(within)) for within in known}
    assert found == pytest.approx(known, abs=6e-4)


@pytest.mark.parametrize("row", rows_of("rank_reach"), ids=str)
def test_the_smallest_p_of_the_rank_test(row):
    n = row["values"]
    found = mann_whitney(range(n), range(n, 2 * n)).p
    assert found == pytest.approx(row["least_p"], abs=6e-7)


# Own derivation on a grid of the unknown rate: 0.0010604 one-sided.
def test_boschloo_is_sharper_than_fisher_on_the_worked_log():
    table = TwoByTwo(5, 0, 1, 8)
    assert 0.00106 <= boschloo(table) < fisher(table)


# Newcombe (1998), 56 of 70 against 48 of 80, method 10 (recalled): 0.0524 to 0.3339.
def test_newcombes_interval():
    effect = share_difference(TwoByTwo(56, 14, 48, 32), 0.05)
    assert (effect.low, effect.high) == pytest.approx((0.0524, 0.3339), abs=5e-5)


def test_two_flawed_batches_need_five_clean_ones():
    assert clean_to_show(2, 0.05) == 5


def test_the_least_p_does_not_jump_where_numbers_grow_too_large():
    assert least_p(501, 3) == pytest.approx(1 / math.comb(501, 3), rel=1e-9)


def test_one_clean_batch_after_one_in_three_is_luck_two_times_in_three():
    assert luck(1 / 3, 1) == pytest.approx(2 / 3)


# By hand: with 3 of 9 before, a uniform prior gives 7 8 9 / (11 12 13) for three clean ones.
def test_a_rate_known_from_few_batches_makes_a_clean_run_luckier():
    assert luck_by_counts(3, 9, 3) == pytest.approx(504 / 1716, rel=1e-9)


def test_a_rate_known_from_many_batches_is_as_good_as_known():
    assert luck_by_counts(30_000, 100_000, 5) == pytest.approx(luck(0.3, 5), rel=1e-3)


@pytest.mark.parametrize(("flawed", "of"), [(1, 4), (3, 9), (8, 25)])
def test_the_clean_run_by_the_counts_is_the_shortest_that_means_anything(flawed, of):
    run = clean_by_counts(flawed, of, 0.05)
    assert luck_by_counts(flawed, of, run) <= 0.05 < luck_by_counts(flawed, of, run - 1)


# Closed forms of the mean and the spread of the range of two normal values.
@pytest.mark.parametrize(
    ("card", "exact"),
    [("chart_d2_pair", 2 / math.sqrt(math.pi)), ("chart_d3_pair", math.sqrt(2 - 4 / math.pi))],
)
def test_the_constants_of_moving_ranges_are_exact(card, exact):
    assert constants()[card] == pytest.approx(exact, abs=6e-7)


# By hand: twelve values that alternate 1 apart have a mean range of 1, so a spread of 1 / d2.
def test_the_limits_of_single_values():
    chart = individuals([10.0, 11.0] * 6, constants())
    assert (chart.low, chart.high, chart.range_high) == pytest.approx(
        (10.5 - 2.6587, 10.5 + 2.6587, 3.2665), abs=1e-4
    )


def test_a_value_beyond_the_limits_is_marked_and_so_is_the_jump():
    chart = individuals([10.0, 11.0] * 8 + [30.0], constants())
    assert (chart.outside, chart.jumps) == ((16,), (16,))


def test_few_values_get_no_limits():
    assert individuals([1.0, 2.0, 30.0], constants()).high == math.inf


def test_eight_in_a_row_on_one_side_are_marked():
    assert individuals([1.0] * 8 + [-1.0] * 8, constants()).one_sided == (7, 15)


def test_the_head_start_signals_at_the_third_value():
    assert cusum(LUCAS, constants(), 2.5).signal == 2


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
    figures = {**constants(), "cusum_limit": h}
    found = [cusum(one.tolist(), figures).signal for one in series]
    assert np.mean([longest if one is None else one + 1 for one in found]) == pytest.approx(
        length, abs=within
    )


# p0 .10, p1 .40 (computed): +1.386 for a flawed batch, -0.405 for a clean one.
def test_the_steps_of_the_fault_cusum():
    assert fault_cusum([True, False, True], constants()).sums == pytest.approx(
        (1.386, 0.981, 2.367), abs=2e-3
    )


# Computed exactly: h = 3 signals within 20 batches in 8 % of series at the usual rate.
def test_the_false_signals_of_the_fault_cusum():
    series = np.random.default_rng(5).random((4000, 20)) < 0.1
    share = np.mean([fault_cusum(one.tolist(), constants()).signal is not None for one in series])
    assert share == pytest.approx(0.08, abs=0.018)


def test_the_least_fisher_is_that_of_the_perfect_table():
    assert least_fisher(TwoByTwo(4, 4, 4, 13)) == fisher(TwoByTwo(8, 0, 0, 17))
