"""Bounds where an exact answer costs too much: they hold the truth, and say when they are it."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.aside import set_aside
from diagnose.inference.bounds import HIGH, LOW, bounded
from diagnose.inference.lines import lines_around
from diagnose.inference.network import Network
from diagnose.inference.plan import QueryTooWide
from diagnose.inference.posterior import solve
from diagnose.inference.ranking import rank
from diagnose.inference.share_bounds import share_bounds
from tests.inference.enumeration import enumerate_posterior
from tests.inference.networks import (
    REPORTED_SURELY,
    random_evidence,
    realistic_network,
    small_network,
    words_piece,
)

TOLERANCE = 1e-12
# Cells of a plan for a small network: nothing at all, a few, and nearly as many as it needs.
COSTS = (1, 6, 14)
ENOUGH = 10_000

# reported, denied and doubtful words; no source: a spread of the mixes that five words allow
TASTINGS = ((2, 1, 1), (1, 3, 0), (2, 2, 0), (3, 1, 0), (1, 2, 1), (2, 0, 2))

shares = st.floats(0.0, 1.0)
seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=40, deadline=None, derandomize=True)


def drawn(seed: int, decibans: float = 15.0) -> tuple[Network, Evidence]:
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, TASTINGS[seed % len(TASTINGS)], decibans)


@given(st.floats(1e-6, 1e3), shares, st.floats(-1.0, 1e3), st.floats(0.0, 30.0), shares)
@settings(max_examples=200, derandomize=True)
def test_the_curve_lies_between_its_lines(
    a: float, near: float, factor: float, end: float, at: float
) -> None:
    b = factor * a * (1.0 - 1e-9)
    above, below = lines_around(a, b, end, near * end)
    t = at * end
    curve = np.log(a + b * np.exp(-t))
    slack = 1e-9 * (1.0 + abs(curve))
    assert below.start + below.slope * t <= curve + slack
    assert above.start + above.slope * t >= curve - slack


@pytest.mark.parametrize("cost", COSTS)
@pytest.mark.parametrize("seed", range(12))
def test_brute_force_lies_within_the_bounds(seed: int, cost: int) -> None:
    assert_bounds_hold(*drawn(seed), cost)


@pytest.mark.parametrize("seed", range(6))
def test_brute_force_lies_within_the_bounds_at_long_odds(seed: int) -> None:
    assert_bounds_hold(*drawn(seed, 120.0), COSTS[1])


def assert_bounds_hold(network: Network, evidence: Evidence, cost: int) -> None:
    truth, found = enumerate_posterior(network, evidence), bounded(network, evidence, cost)
    posterior = found.posterior
    assert posterior.log_evidence[LOW] <= truth.log_evidence + TOLERANCE
    assert posterior.log_evidence[HIGH] >= truth.log_evidence - TOLERANCE
    low, high = found.chance(posterior.happened)
    assert np.all(low <= truth.happened + TOLERANCE)
    assert np.all(high >= truth.happened - TOLERANCE)


@pytest.mark.parametrize("cost", COSTS)
@pytest.mark.parametrize("seed", range(24))
def test_the_ranking_lies_within_its_bounds(seed: int, cost: int) -> None:
    network, evidence = drawn(seed)
    aside = set_aside(network, evidence, cost)
    speaking = frozenset(evidence.reported) - set(aside.words)
    truth = share_bounds(network, evidence, ENOUGH, speaking)
    found = share_bounds(network, evidence, cost, speaking)
    assert truth.exact
    assert found.groups == truth.groups
    assert np.all(found.low <= truth.low + TOLERANCE)
    assert np.all(found.high >= truth.high - TOLERANCE)


@quickly
@given(seeds)
def test_bounds_that_need_not_set_anything_aside_are_the_ranking(seed: int) -> None:
    network, evidence = drawn(seed)
    found, ranking = share_bounds(network, evidence, ENOUGH), rank(network, [evidence])
    assert found.exact
    np.testing.assert_allclose(found.low, ranking.shares[0], rtol=0, atol=TOLERANCE)
    np.testing.assert_allclose(found.high, ranking.shares[0], rtol=0, atol=TOLERANCE)


@quickly
@given(seeds)
def test_a_word_that_only_counts_as_evidence_changes_no_chance_of_having_acted(seed: int) -> None:
    network, evidence = drawn(seed)
    first = frozenset(evidence.reported[:1])
    found = bounded(network, evidence, ENOUGH, first)
    happened = solve(network, [evidence]).happened[0]
    assert found.posterior.structure.groups == (evidence.reported[:1],)
    np.testing.assert_allclose(found.posterior.happened[HIGH], happened, atol=TOLERANCE)


@pytest.mark.parametrize("cost", COSTS)
@pytest.mark.parametrize("seed", range(6))
def test_what_is_set_aside_is_as_much_as_the_cost_asks_for(seed: int, cost: int) -> None:
    network, evidence = drawn(seed)
    more, less = (set_aside(network, evidence, limit) for limit in (cost, 4 * cost))
    assert set(less.words) <= set(more.words)
    assert not set_aside(network, evidence, ENOUGH)


def test_words_that_are_to_go_last_are_kept_longest() -> None:
    network, evidence = drawn(3)
    every = set_aside(network, evidence, 0).words
    last = frozenset(every[:1])
    assert len(every) > 1
    assert set_aside(network, evidence, 0, last).words[-1] == every[0]


# How far denied words that are only bounded leave the evidence open, at most; seen: 0.75 to 1.03.
FARTHEST_APART = 2.0


@pytest.mark.parametrize("seed", range(3))
def test_denied_words_set_aside_leave_useful_bounds(seed: int) -> None:
    random = np.random.default_rng(seed)
    network = realistic_network(random)
    evidence = Evidence((words_piece(random, network, (2, 12, 0)),))
    found = bounded(network, evidence, 2**9)
    assert found.aside
    assert not found.aside.words
    log_evidence = found.posterior.log_evidence
    assert 0.0 < log_evidence[HIGH] - log_evidence[LOW] < FARTHEST_APART


def test_a_tasting_too_wide_to_solve_is_bounded() -> None:
    random = np.random.default_rng(1)
    network = realistic_network(random)
    said = dict.fromkeys(network.descriptors[:40], REPORTED_SURELY)
    said |= dict.fromkeys(network.descriptors[40:], ABSENT)
    evidence = Evidence((Piece("tasting", "tasting", words=said),))
    with pytest.raises(QueryTooWide):
        solve(network, [evidence])
    found = share_bounds(network, evidence, 2**12)
    assert not found.exact
    assert np.all(found.low >= 0.0)
    assert np.all(found.low <= found.high)
    assert np.all(found.high <= 1.0)
