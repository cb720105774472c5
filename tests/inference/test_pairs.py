"""Two causes behind all groups, against every state of small networks enumerated."""

from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import Evidence
from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.network import Network
from diagnose.inference.pairs import pair_covers
from diagnose.inference.posterior import solve
from tests.inference.enumeration import States, weights_of
from tests.inference.networks import random_evidence, small_network

TOLERANCE = 1e-12
seeds = st.integers(0, 2**32 - 1)
rarely = settings(max_examples=12, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, Evidence]:
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, (3, 1, 0))


def pairs_of(network: Network) -> list[tuple[str, str]]:
    return list(combinations(network.causes, 2))


def enumerated(network: Network, evidence: Evidence, pair: tuple[str, str]) -> float:
    states = States(network, evidence.reported)
    weight = weights_of(network, evidence, states)
    groups = [compounds_behind(network, words) for words in groups_of(network, evidence.reported)]
    one, other = (network.cause_index[cause] for cause in pair)
    covered = [states.spoke(one, group) | states.spoke(other, group) for group in groups]
    return float(weight @ np.all(covered, axis=0) / weight.sum())


@rarely
@given(seeds)
def test_a_pair_is_as_likely_as_the_states_in_which_one_or_the_other_spoke(seed: int) -> None:
    network, evidence = drawn(seed)
    pairs = pairs_of(network)
    wanted = [enumerated(network, evidence, pair) for pair in pairs]
    np.testing.assert_allclose(pair_covers(network, evidence, pairs), wanted, atol=TOLERANCE)


@rarely
@given(seeds)
def test_a_pair_is_never_less_likely_than_either_of_its_causes_alone(seed: int) -> None:
    network, evidence = drawn(seed)
    alone = solve(network, [evidence]).in_every_group[0]
    pairs = [(i, j) for i, j in combinations(range(len(network.causes)), 2)]
    names = [(network.causes[i], network.causes[j]) for i, j in pairs]
    covers = pair_covers(network, evidence, names)
    least = [max(alone[i], alone[j]) for i, j in pairs]
    assert all(cover >= one - TOLERANCE for cover, one in zip(covers, least, strict=True))


@rarely
@given(seeds)
def test_it_does_not_matter_which_of_two_is_named_first(seed: int) -> None:
    network, evidence = drawn(seed)
    pairs = pairs_of(network)
    turned = [(other, one) for one, other in pairs]
    covers = pair_covers(network, evidence, pairs)
    assert covers == pytest.approx(pair_covers(network, evidence, turned), abs=TOLERANCE)
