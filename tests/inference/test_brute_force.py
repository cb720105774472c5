"""The sweep against brute force: every state of small networks, summed by definition."""

import numpy as np
import pytest

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Network
from diagnose.inference.posterior import solve
from tests.inference.enumeration import enumerate_posterior
from tests.inference.networks import random_evidence, small_network

TOLERANCE = 1e-12
FARTHEST = 120.0  # decibans
QUANTITIES = (
    "log_evidence",
    "happened",
    "responsible",
    "in_every_group",
    "expected_here",
    "not_in_rule_base",
    "present",
)

# reported, absent and doubtful words; no source: a spread of the mixes that five words allow
TASTINGS = ((1, 0, 0), (2, 0, 0), (2, 1, 0), (3, 0, 0), (2, 1, 1), (2, 0, 2), (1, 2, 2), (4, 0, 1))


def drawn(seed: int, decibans: float = 15.0) -> tuple[Network, Evidence]:
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, TASTINGS[seed % len(TASTINGS)], decibans)


def assert_same_as_brute_force(network: Network, evidence: Evidence) -> None:
    posterior, truth = solve(network, [evidence]), enumerate_posterior(network, evidence)
    touched = list(posterior.structure.compounds)
    for quantity in QUANTITIES:
        found, wanted = getattr(posterior, quantity)[0], getattr(truth, quantity)
        if quantity == "present":
            found, wanted = found[touched], wanted[touched]
        np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE, err_msg=quantity)


@pytest.mark.parametrize("seed", range(40))
def test_every_answer_on_a_small_network_is_that_of_brute_force(seed: int) -> None:
    assert_same_as_brute_force(*drawn(seed))


@pytest.mark.parametrize("seed", range(16))
def test_long_odds_leave_every_answer_that_of_brute_force(seed: int) -> None:
    assert_same_as_brute_force(*drawn(seed, FARTHEST))


@pytest.mark.parametrize("seed", range(8))
def test_a_word_that_two_tasters_judge_counts_twice(seed: int) -> None:
    network, evidence = drawn(seed)
    word = evidence.judged[0]
    second = Piece("tasting", "second", words={word: (0.4, 0.8)})
    assert_same_as_brute_force(network, evidence.with_piece(second))


def test_compounds_that_no_evidence_touches_are_left_open() -> None:
    network, evidence = drawn(2)
    answer = solve(network, [Evidence(evidence.pieces[1:2])])
    assert np.isnan(answer.present).all()


def test_enough_of_the_small_networks_hold_several_faults() -> None:
    answers = [solve(network, [evidence]) for network, evidence in map(drawn, range(40))]
    assert sum(len(answer.structure.groups) > 1 for answer in answers) >= 10
