"""From tasting to cause: the ratio and its bounds, against tables and plain enumeration."""

from math import comb

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.inference.ranking import entropy_bits
from diagnose.sensory import METHODS, share_right
from diagnose.trial.gains import expected_bits, shares_after, worth_of_more
from diagnose.trial.likelihood import (
    STRONGEST_RATIO,
    Readout,
    both,
    harmless_after_alike,
    ratio_of_pattern,
    ratio_on_cause,
    reach_of_ratio,
    readout_of_panel,
    readout_of_patterns,
)

CHANCES = st.floats(0.02, 0.98)
# Source: table of the sensory fact sheet, computed there by the same formula: m, s, BF, ratio.
RATIOS = [
    (0.3, 0.05, 3.0, 1.45),
    (0.3, 0.1, 10.0, 1.95),
    (0.6, 0.05, 0.3, 0.60),
    (0.6, 0.1, 30.0, 4.72),
    (0.9, 0.05, 30.0, 11.06),
    (0.9, 0.3, 10.0, 2.46),
]


@pytest.mark.parametrize(("fires", "harmless", "factor", "ratio"), RATIOS)
def test_the_ratio_is_that_of_the_table(fires, harmless, factor, ratio):
    assert ratio_on_cause(factor, fires, harmless) == pytest.approx(ratio, abs=0.006)


# Source: the sheet's worked example: triangle, m 0.6, s 0.1, prior 30 %: right, ratio, posterior.
@pytest.mark.parametrize(("right", "ratio", "after"), [(8, 2.60, 0.53), (3, 0.75, 0.24)])
def test_the_worked_example_holds(right, ratio, after):
    readout = readout_of_panel(METHODS["triangle"], 12, 0.6, 0.1)
    assert readout.ratio[right] == pytest.approx(ratio, abs=0.006)
    moved = shares_after(np.array([0.3, 0.7]), {0: float(readout.ratio[right])})
    assert moved[0] == pytest.approx(after, abs=0.006)


# Source: the sheet's table of bits about the cause, prior 30 %, m 0.6, s 0.1.
BITS = [("2-afc", 6, 0.055), ("2-afc", 12, 0.079), ("tetrad", 12, 0.055), ("triangle", 18, 0.038)]


@pytest.mark.parametrize(("test", "answers", "bits"), BITS)
def test_the_information_of_a_panel_is_that_of_the_table(test, answers, bits):
    readout = readout_of_panel(METHODS[test], answers, 0.6, 0.1)
    assert expected_bits(np.array([0.3, 0.7]), {0: readout}) == pytest.approx(bits, abs=0.0011)


# Source: the sheet: two pairs of 12 paired answers against one of 24, prior 30 %.
def test_two_pairs_of_vessels_teach_more_than_twice_the_answers():
    worth = worth_of_more(np.array([0.3, 0.7]), 0, METHODS["2-afc"], 12, (0.6, 0.1))
    bits = {one.what: one.bits for one in worth}
    assert bits["the same pair tasted twice as often"] == pytest.approx(0.102, abs=0.001)
    again = bits["a second pair of vessels, tasted as often again"]
    assert again == pytest.approx(0.149, abs=0.001)


def enumerated(test: str, answers: int, chance: float) -> np.ndarray:
    """Chances of every count, by summing over a fine grid of d' and over luck."""
    method = METHODS[test]
    grid = (np.arange(3000) + 0.5) * 0.004
    prior = np.exp(-0.5 * (grid / 1.5) ** 2)
    prior /= prior.sum()
    right = share_right(method, grid)
    counts = np.arange(answers + 1)[:, None]
    ways = np.array([comb(answers, k) for k in range(answers + 1)], dtype=float)[:, None]
    apart = ways * right**counts * (1 - right) ** (answers - counts) @ prior
    luck = (ways * method.guess**counts * (1 - method.guess) ** (answers - counts))[:, 0]
    return chance * apart + (1 - chance) * luck


@pytest.mark.parametrize("test", ["triangle", "tetrad", "2-afc", "3-afc", "duo-trio"])
def test_the_results_of_a_panel_equal_enumeration(test):
    readout = readout_of_panel(METHODS[test], 9, 0.7, 0.1)
    if_so, if_not = enumerated(test, 9, 0.7), enumerated(test, 9, 0.1)
    assert readout.if_so == pytest.approx(if_so, rel=1e-4)
    assert readout.if_not == pytest.approx(if_not, rel=1e-4)
    assert readout.ratio == pytest.approx(np.clip(if_so / if_not, 0.05, 20), rel=1e-4)


@given(CHANCES, CHANCES, st.integers(1, 12))
def test_the_chances_of_all_results_sum_to_one(fires, harmless, answers):
    readout = readout_of_panel(METHODS["triangle"], answers, fires, harmless)
    assert readout.if_so.sum() == pytest.approx(1.0, abs=1e-7)
    assert readout.if_not.sum() == pytest.approx(1.0, abs=1e-7)


@given(st.floats(0.0, 1e9), CHANCES, CHANCES)
def test_no_tasting_moves_the_odds_beyond_its_bounds(factor, fires, harmless):
    low, high = reach_of_ratio(fires, harmless)
    ratio = ratio_on_cause(factor, fires, harmless)
    assert 1 / STRONGEST_RATIO <= low <= ratio * (1 + 1e-9)
    assert ratio <= high * (1 + 1e-9) <= STRONGEST_RATIO * (1 + 1e-9)


@given(st.floats(1.0, 1e6), CHANCES, CHANCES)
def test_a_shown_difference_never_clears_the_suspect(factor, fires, harmless):
    assert ratio_on_cause(factor, fires, harmless) >= 1.0 - 1e-12


def by_definition(shares: np.ndarray, table: np.ndarray) -> float:
    """Mutual information of explanation and result, term by term."""
    joint = shares[:, None] * table
    result = joint.sum(axis=0)
    return sum(
        joint[e, r] * np.log2(joint[e, r] / (shares[e] * result[r]))
        for e in range(len(shares))
        for r in range(len(result))
        if joint[e, r] > 0
    )


@given(st.lists(st.floats(0.01, 1.0), min_size=3, max_size=6), st.floats(0.3, 0.9))
def test_the_gain_equals_brute_force(weights, fires):
    shares = np.array(weights) / sum(weights)
    readout = readout_of_panel(METHODS["2-afc"], 7, fires, 0.1)
    table = np.array([readout.if_so] + [readout.if_not] * (len(shares) - 1))
    assert expected_bits(shares, {0: readout}) == pytest.approx(
        by_definition(shares, table), abs=1e-7
    )


@given(st.lists(st.floats(0.01, 1.0), min_size=4, max_size=6))
def test_the_gain_of_a_bundle_equals_brute_force(weights):
    shares = np.array(weights) / sum(weights)
    one, other = (readout_of_panel(METHODS["tetrad"], 9, fires, 0.15) for fires in (0.8, 0.4))
    table = np.array([one.if_so, other.if_so] + [one.if_not] * (len(shares) - 2))
    bits = expected_bits(shares, {0: one, 1: other})
    assert bits == pytest.approx(by_definition(shares, table), abs=1e-7)


@given(st.lists(st.floats(0.01, 1.0), min_size=2, max_size=5), CHANCES, CHANCES)
def test_a_gain_is_between_nothing_and_all_there_is_to_learn(weights, fires, harmless):
    shares = np.array(weights) / sum(weights)
    readout = readout_of_panel(METHODS["triangle"], 6, fires, harmless)
    bits = expected_bits(shares, {0: readout})
    assert 0.0 <= bits <= float(entropy_bits(shares)) + 1e-9


@given(st.lists(st.floats(0.01, 1.0), min_size=2, max_size=5), st.floats(0.05, 20.0))
def test_bayes_rule_multiplies_the_odds_and_leaves_the_others_their_proportions(weights, ratio):
    shares = np.array(weights) / sum(weights)
    after = shares_after(shares, {0: ratio})
    odds = shares[0] / (1 - shares[0]), after[0] / (1 - after[0])
    assert odds[1] == pytest.approx(ratio * odds[0], rel=1e-6)
    assert after[1:] / after[1:].sum() == pytest.approx(shares[1:] / shares[1:].sum())
    assert after.sum() == pytest.approx(1.0)


def test_independent_splits_multiply():
    one = readout_of_panel(METHODS["2-afc"], 3, 0.6, 0.1)
    pair = both(one, one)
    assert pair.ratio.size == 16
    assert pair.ratio.max() == pytest.approx(one.ratio.max() ** 2)
    assert pair.if_so.sum() == pytest.approx(1.0)


# Source: the sheet's table of patterns with r = 0.05 and kappa = 0.9.
@pytest.mark.parametrize(
    ("pattern", "ratio"), [("suspect", 9.5), ("both", 0.0556), ("neither", 1.0), ("other", 1.0)]
)
def test_where_the_fault_is_says_what_the_table_says(pattern, ratio):
    assert ratio_of_pattern(pattern) == pytest.approx(ratio, abs=0.001)


def test_patterns_are_chances():
    readout: Readout = readout_of_patterns(0.7)
    assert readout.if_so.sum() == pytest.approx(1.0)
    assert readout.if_not.sum() == pytest.approx(1.0)


@given(CHANCES, st.integers(0, 5), st.integers(0, 5))
def test_splits_that_come_out_alike_lower_the_harmless_chance_and_others_raise_it(s, d, more):
    of = d + more
    after = harmless_after_alike(s, d, of)
    assert min(s, d / of if of else s) - 1e-9 <= after <= max(s, d / of if of else s) + 1e-9
