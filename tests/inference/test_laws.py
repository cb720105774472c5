"""What must hold for any network and any evidence, whatever the numbers."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import ABSENT, REPORTED_SURELY, Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from tests.inference.networks import network_with, random_evidence, realistic_network, small_network

TOLERANCE = 1e-10
FARTHEST = 120.0  # decibans: a trillion to one

seeds = st.integers(0, 2**32 - 1)
decibans = st.floats(-FARTHEST, FARTHEST)
quickly = settings(max_examples=30, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, Evidence]:
    """A small network and evidence of every kind."""
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, (2, 1, 1))


def assert_same(found: Floats, wanted: Floats) -> None:
    np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE)


def assert_same_answers(found: Posterior, wanted: Posterior, columns: slice = slice(None)) -> None:
    """Everything but the compounds, of which one question may touch more than another."""
    assert_same(found.log_evidence, wanted.log_evidence[columns])
    assert_same(found.happened, wanted.happened[columns])
    assert_same(found.responsible, wanted.responsible[columns])
    assert_same(found.expected_here, wanted.expected_here[columns])
    assert_same(found.not_in_rule_base, wanted.not_in_rule_base[columns])


@quickly
@given(seeds, st.randoms(use_true_random=False))
def test_the_order_of_the_pieces_is_irrelevant(seed: int, shuffler: object) -> None:
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
@given(seeds, st.sampled_from(["happened", "responsible", "present", "words"]))
def test_a_likelihood_ratio_of_one_changes_nothing(seed: int, kind: str) -> None:
    network, evidence = drawn(seed)
    names = {"present": network.compounds, "words": network.descriptors}.get(kind, network.causes)
    nothing = (1.0, 1.0) if kind == "words" else 0.0
    piece = Piece("nothing", "nothing", **{kind: dict.fromkeys(names, nothing)})
    found = solve(network, [evidence.with_piece(piece)])
    assert_same_answers(found, solve(network, [evidence]))


@quickly
@given(seeds, decibans)
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


@quickly
@given(st.floats(0.01, 0.5), st.floats(0.05, 0.95), st.floats(-60, 60), st.floats(0, 60))
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
    answers = solve(network, [less, *stronger])
    assert np.all(answers.happened[1:, 0] >= answers.happened[0, 0] - TOLERANCE)
    assert np.all(answers.responsible[1:, 0, 0] >= answers.responsible[0, 0, 0] - TOLERANCE)


@quickly
@given(st.floats(0.01, 0.5), st.floats(0.05, 0.95))
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


@quickly
@given(seeds, st.sampled_from([-FARTHEST, FARTHEST]), st.booleans())
def test_everything_stays_a_probability_however_extreme_the_evidence(
    seed: int, farthest: float, mixed: bool
) -> None:
    random = np.random.default_rng(seed)
    network = realistic_network(random)
    _, evidence = network, random_evidence(random, network, (2, 2, 0))
    signs = random.choice([-1.0, 1.0], (3, len(network.causes))) if mixed else np.ones((3, 36))
    extreme = Piece(
        "extreme",
        "extreme",
        happened=dict(zip(network.causes, farthest * signs[0], strict=True)),
        responsible=dict(zip(network.causes, farthest * signs[1], strict=True)),
        present=dict(zip(network.compounds[:6], farthest * signs[2], strict=False)),
    )
    assert_probabilities(solve(network, [evidence.with_piece(extreme)]))


@quickly
@given(st.lists(decibans, min_size=9, max_size=9), seeds)
def test_everything_stays_a_probability_for_any_decibans(weights: list[float], seed: int) -> None:
    network, evidence = drawn(seed)
    piece = Piece(
        "any",
        "any",
        happened=dict(zip(network.causes, weights[:3], strict=False)),
        responsible=dict(zip(network.causes, weights[3:6], strict=False)),
        present=dict(zip(network.compounds, weights[6:], strict=False)),
    )
    assert_probabilities(solve(network, [evidence.with_piece(piece)]))


def assert_probabilities(answer: Posterior) -> None:
    touched = list(answer.structure.compounds)
    assert np.all(np.isfinite(answer.log_evidence))
    for values in (
        answer.happened,
        answer.responsible,
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
