"""What no evidence may break: directions, bounds and impossibilities, however long the odds."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.network import Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.ranking import rank
from tests.inference.networks import (
    REPORTED_SURELY,
    network_with,
    random_evidence,
    realistic_network,
    small_network,
    words_piece,
)

TOLERANCE = 1e-10
FARTHEST = 120.0  # decibans: a trillion to one

seeds = st.integers(0, 2**32 - 1)
decibans = st.floats(-FARTHEST, FARTHEST)
rates, strengths = st.floats(0.01, 0.5), st.floats(0.05, 0.95)
quickly = settings(max_examples=30, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, Evidence]:
    """A small network and evidence of every kind."""
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, (2, 1, 1))


@quickly
@given(rates, strengths, st.floats(-60, 60), st.floats(0, 60))
def test_more_support_on_a_single_chain_never_lowers_its_cause(
    rate: float, strength: float, weight: float, more: float
) -> None:
    network = chain(rate, strength)
    tasting = Piece("tasting", "tasting", words={"word_0": REPORTED_SURELY})
    log = [Piece("log", "log", happened={"cause_0": w}) for w in (weight, weight + more)]
    fault = Piece("fault", "fault", responsible={"cause_0": more})
    compound = Piece("compound", "compound", present={"compound_0": more})
    less = Evidence((tasting, log[0]))
    stronger = [
        Evidence((tasting, log[1])),
        less.with_piece(fault),
        less.with_piece(compound),
    ]
    answers = rank(network, [less, *stronger])
    assert np.all(answers.happened[1:, 0] >= answers.happened[0, 0] - TOLERANCE)
    assert np.all(answers.responsible[1:, 0, 0] >= answers.responsible[0, 0, 0] - TOLERANCE)


@quickly
@given(rates, strengths)
def test_on_a_single_chain_a_reported_word_speaks_for_its_cause_and_an_absent_one_against(
    rate: float, strength: float
) -> None:
    network = chain(rate, strength)
    heard = [
        solve(network, [Evidence((Piece("tasting", "tasting", words={"word_0": said}),))])
        for said in (ABSENT, REPORTED_SURELY)
    ]
    absent, reported = (float(answer.happened[0, 0]) for answer in heard)
    assert absent <= rate <= reported


def chain(rate: float, strength: float) -> Network:
    """One cause, one compound, one word."""
    random = np.random.default_rng(0)
    network = network_with(random, np.array([[strength]]), np.array([[0.7]]))
    return replace(network, base_rate=np.array([rate]))


# kinds of evidence said of every cause or compound at once; no source: the worst that can be told
EXTREMES = ("happened", "present")


@pytest.mark.parametrize("kind", EXTREMES)
@pytest.mark.parametrize("weight", [-FARTHEST, FARTHEST])
def test_everything_stays_a_probability_when_all_evidence_is_extreme(
    kind: str, weight: float
) -> None:
    random = np.random.default_rng(0)
    network = small_network(random)
    assert_probabilities(solve(network, [told_of_all(random, network, kind, weight)]))


@pytest.mark.parametrize("weight", [-FARTHEST, FARTHEST])
def test_everything_stays_a_probability_in_a_large_network_with_one_word(weight: float) -> None:
    random = np.random.default_rng(0)
    network = realistic_network(random)
    assert_probabilities(solve(network, [told_of_all(random, network, "happened", weight)]))


def told_of_all(
    random: np.random.Generator, network: Network, kind: str, weight: float
) -> Evidence:
    names = network.compounds if kind == "present" else network.causes
    piece = Piece("extreme", "extreme", **{kind: dict.fromkeys(names, weight)})
    return Evidence((words_piece(random, network, (1, 0, 0)), piece))


@quickly
@given(st.lists(decibans, min_size=6, max_size=6), seeds)
def test_everything_stays_a_probability_for_any_decibans(weights: list[float], seed: int) -> None:
    network, evidence = drawn(seed)
    piece = Piece(
        "any",
        "any",
        happened=dict(zip(network.causes, weights[:3], strict=False)),
        present=dict(zip(network.compounds, weights[3:], strict=False)),
    )
    assert_probabilities(solve(network, [evidence.with_piece(piece)]))


def assert_probabilities(answer: Posterior) -> None:
    touched = list(answer.structure.compounds)
    assert np.all(np.isfinite(answer.log_evidence))
    for values in (
        answer.happened,
        answer.responsible,
        answer.in_every_group,
        answer.expected_here,
        answer.not_in_rule_base,
        answer.present[:, touched],
    ):
        assert np.all((values >= 0.0) & (values <= 1.0 + 1e-12))


@quickly
@given(seeds)
def test_no_cause_is_responsible_more_often_than_it_happened(seed: int) -> None:
    network, evidence = drawn(seed)
    answer = solve(network, [evidence])
    assert np.all(answer.responsible <= answer.happened[:, None, :] + TOLERANCE)


@quickly
@given(seeds)
def test_an_impossible_cause_neither_happened_nor_is_responsible(seed: int) -> None:
    network, evidence = drawn(seed)
    answer = solve(network, [evidence])
    (place,) = (network.cause_index[name] for name in evidence.impossible)
    assert answer.happened[0, place] == 0.0
    assert np.all(answer.responsible[0, :, place] == 0.0)
