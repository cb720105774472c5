"""Reported words that share a compound, directly or through others, form one group."""

import networkx as nx
import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.network import Network
from tests.inference.networks import network_with, realistic_network

seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=30, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, tuple[str, ...]]:
    """A large network and a dozen reported words."""
    random = np.random.default_rng(seed)
    network = realistic_network(random)
    return network, tuple(str(word) for word in random.permutation(network.descriptors)[:12])


@quickly
@given(seeds)
def test_groups_are_the_connected_parts_of_the_graph_of_words_and_compounds(seed: int) -> None:
    network, words = drawn(seed)
    graph = nx.Graph()
    graph.add_nodes_from(words)
    for word in words:
        graph.add_edges_from((word, j) for j in compounds_behind(network, (word,)))
    wanted = {frozenset(part & set(words)) for part in nx.connected_components(graph)}
    assert {frozenset(group) for group in groups_of(network, words)} == wanted


@quickly
@given(seeds)
def test_groups_and_their_words_keep_the_order_in_which_they_were_given(seed: int) -> None:
    network, words = drawn(seed)
    groups = groups_of(network, words)
    assert [group[0] for group in groups] == sorted((g[0] for g in groups), key=words.index)
    assert all(list(group) == sorted(group, key=words.index) for group in groups)


def test_a_word_that_joins_two_groups_leaves_a_third_alone() -> None:
    gives = np.array([[1, 0, 0, 1], [0, 1, 0, 1], [0, 0, 1, 0]]) * 0.5
    network = network_with(np.random.default_rng(0), np.eye(3) * 0.5, gives)
    groups = groups_of(network, network.descriptors)
    assert groups == (("word_0", "word_1", "word_3"), ("word_2",))


def test_the_compounds_behind_words_are_those_that_give_any_of_them() -> None:
    gives = np.array([[0.5, 0.0], [0.0, 0.0], [0.03, 0.5]])
    network = network_with(np.random.default_rng(0), np.eye(3) * 0.5, gives)
    assert compounds_behind(network, ("word_0",)) == (0, 2)


def test_no_words_have_no_compounds_behind_them() -> None:
    network = network_with(np.random.default_rng(0), np.eye(2) * 0.5, np.eye(2) * 0.5)
    assert compounds_behind(network, ()) == ()
    assert groups_of(network, ()) == ()
