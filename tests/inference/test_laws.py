"""What may be changed about a question without changing its answer, and by how much."""

from dataclasses import replace
from random import Random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from tests.inference.networks import random_evidence, small_network

TOLERANCE = 1e-10

seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=30, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, Evidence]:
    """A small network and evidence of every kind."""
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, (2, 1, 1))


def assert_same(found: Floats, wanted: Floats) -> None:
    np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE)


def assert_same_answers(found: Posterior, wanted: Posterior) -> None:
    """Everything but the compounds, of which one question may touch more than another."""
    assert_same(found.log_evidence, wanted.log_evidence)
    assert_same(found.happened, wanted.happened)
    assert_same(found.responsible, wanted.responsible)
    assert_same(found.expected_here, wanted.expected_here)
    assert_same(found.not_in_rule_base, wanted.not_in_rule_base)


@quickly
@given(seeds, st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_is_irrelevant(seed: int, shuffler: Random) -> None:
    network, evidence = drawn(seed)
    pieces = list(evidence.pieces)
    shuffler.shuffle(pieces)
    shuffled = Evidence(tuple(pieces), evidence.impossible)
    assert_same_answers(solve(network, [shuffled]), solve(network, [evidence]))


@quickly
@given(seeds)
def test_the_order_of_the_words_in_a_tasting_is_irrelevant(seed: int) -> None:
    network, evidence = drawn(seed)
    tasting, *rest = evidence.pieces
    backwards = replace(tasting, words=dict(reversed(tasting.words.items())))
    found = solve(network, [Evidence((backwards, *rest), evidence.impossible)])
    wanted = solve(network, [evidence])
    places = [
        wanted.structure.groups.index(tuple(sorted(group, key=list(tasting.words).index)))
        for group in found.structure.groups
    ]
    assert_same(found.responsible, wanted.responsible[:, places])


@quickly
@given(seeds)
def test_the_order_of_causes_and_compounds_is_irrelevant(seed: int) -> None:
    network, evidence = drawn(seed)
    random = np.random.default_rng(seed)
    causes = random.permutation(len(network.causes))
    compounds = random.permutation(len(network.compounds))
    found = solve(reordered(network, causes, compounds), [evidence])
    wanted = solve(network, [evidence])
    assert_same(found.log_evidence, wanted.log_evidence)
    assert_same(found.happened, wanted.happened[:, causes])
    assert_same(found.responsible, wanted.responsible[:, :, causes])
    assert_same(found.present, wanted.present[:, compounds])


def reordered(network: Network, causes: Floats, compounds: Floats) -> Network:
    return replace(
        network,
        causes=tuple(network.causes[i] for i in causes),
        compounds=tuple(network.compounds[j] for j in compounds),
        base_rate=network.base_rate[causes],
        strength=network.strength[causes][:, compounds],
        expected=network.expected[compounds],
        unexplained=network.unexplained[compounds],
        gives=network.gives[compounds],
    )


@quickly
@given(seeds)
def test_names_are_irrelevant(seed: int) -> None:
    network, evidence = drawn(seed)
    renamed = replace(
        network,
        causes=tuple(map(called, network.causes)),
        compounds=tuple(map(called, network.compounds)),
    )
    pieces = tuple(
        replace(
            piece,
            happened={called(name): weight for name, weight in piece.happened.items()},
            responsible={called(name): weight for name, weight in piece.responsible.items()},
            present={called(name): weight for name, weight in piece.present.items()},
        )
        for piece in evidence.pieces
    )
    told = Evidence(pieces, frozenset(map(called, evidence.impossible)))
    assert_same_answers(solve(renamed, [told]), solve(network, [evidence]))


def called(name: str) -> str:
    """Another name, which sorts the other way round."""
    kind, number = name.split("_")
    return f"{9 - int(number)}_{kind}"


@quickly
@given(seeds, st.sampled_from(["happened", "present", "words"]))
def test_a_likelihood_ratio_of_one_changes_nothing(seed: int, kind: str) -> None:
    network, evidence = drawn(seed)
    names = {"present": network.compounds, "words": network.descriptors}.get(kind, network.causes)
    nothing = (1.0, 1.0) if kind == "words" else 0.0
    piece = Piece("nothing", "nothing", **{kind: dict.fromkeys(names, nothing)})
    found = solve(network, [evidence.with_piece(piece)])
    assert_same_answers(found, solve(network, [evidence]))


@quickly
@given(seeds, st.floats(-120, 120))
def test_an_unlinked_cause_changes_nothing_else(seed: int, weight: float) -> None:
    network, evidence = drawn(seed)
    more = replace(
        network,
        causes=(*network.causes, "idle"),
        base_rate=np.append(network.base_rate, 0.1),
        strength=np.vstack([network.strength, np.zeros(len(network.compounds))]),
    )
    piece = Piece("log", "idle", happened={"idle": weight}, responsible={"idle": weight})
    found, wanted = solve(more, [evidence.with_piece(piece)]), solve(network, [evidence])
    assert_same(found.happened[:, :-1], wanted.happened)
    assert_same(found.responsible[:, :, :-1], wanted.responsible)
    assert_same(found.not_in_rule_base, wanted.not_in_rule_base)


@quickly
@given(seeds, st.floats(-120, 120))
def test_a_cause_of_what_nobody_asked_about_changes_nothing_else(seed: int, weight: float) -> None:
    network, evidence = drawn(seed)
    found = solve(with_another_story(network), [evidence.with_piece(log_of("idle", weight))])
    wanted = solve(network, [evidence])
    assert_same(found.happened[:, :-1], wanted.happened)
    assert_same(found.responsible[:, :, :-1], wanted.responsible)
    assert_same(found.not_in_rule_base, wanted.not_in_rule_base)


def log_of(cause: str, weight: float) -> Piece:
    return Piece("log", cause, happened={cause: weight}, responsible={cause: weight})


def with_another_story(network: Network) -> Network:
    """The network and, apart from it, a cause of a compound that gives a word of its own."""
    return replace(
        network,
        causes=(*network.causes, "idle"),
        compounds=(*network.compounds, "elsewhere"),
        descriptors=(*network.descriptors, "unheard"),
        base_rate=np.append(network.base_rate, 0.1),
        strength=beside(network.strength, 0.8),
        expected=np.append(network.expected, 0.05),
        unexplained=np.append(network.unexplained, 0.01),
        gives=beside(network.gives, 0.7),
        wrong_word=np.append(network.wrong_word, 0.01),
        expected_said=np.append(network.expected_said, 1.0),
    )


def beside(links: Floats, strength: float) -> Floats:
    """The links with one more row and column, joined to each other alone."""
    more = np.pad(links, (0, 1))
    more[-1, -1] = strength
    return more


@quickly
@given(seeds, st.floats(-30, 30))
def test_decibans_on_a_cause_add_to_the_log_odds_that_it_happened(seed: int, weight: float) -> None:
    network, evidence = drawn(seed)
    cause = next(name for name in network.causes if name not in evidence.impossible)
    place = network.cause_index[cause]
    piece = Piece("log", "more", happened={cause: weight})
    before = solve(network, [evidence]).happened[0, place]
    after = solve(network, [evidence.with_piece(piece)]).happened[0, place]
    ratio = 10.0 ** (weight / 10.0)
    assert after == pytest.approx(before * ratio / (1.0 - before + before * ratio), abs=TOLERANCE)
