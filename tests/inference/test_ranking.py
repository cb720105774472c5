"""The ranking: Bayes' rule over one main explanation for each group of words."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Network
from diagnose.inference.posterior import solve
from diagnose.inference.ranking import Ranking, entropy_bits, rank
from tests.inference.networks import random_evidence, small_network, words_piece

TOLERANCE = 1e-10
FARTHEST = 120.0  # decibans

seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=25, deadline=None, derandomize=True)


def drawn(seed: int, words: tuple[int, int, int] = (2, 1, 1)) -> tuple[Network, Evidence]:
    """A small network and evidence of every kind."""
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, words)


def circumstance(network: Network, decibans: float, cause: int = 0) -> Piece:
    return Piece("circumstance", "course", responsible={network.causes[cause]: decibans})


def assert_same_ranking(found: Ranking, wanted: Ranking) -> None:
    for quantity in ("log_evidence", "shares", "spoke", "in_every_group", "happened"):
        np.testing.assert_allclose(
            getattr(found, quantity), getattr(wanted, quantity), rtol=0, atol=TOLERANCE
        )


@quickly
@given(seeds)
def test_the_shares_of_every_group_sum_to_one(seed: int) -> None:
    ranking = rank(*asked_once(seed))
    np.testing.assert_allclose(ranking.shares.sum(axis=2), 1.0, atol=TOLERANCE)


def asked_once(seed: int) -> tuple[Network, list[Evidence]]:
    network, evidence = drawn(seed)
    return network, [evidence]


@quickly
@given(seeds, st.floats(-FARTHEST, FARTHEST))
def test_a_circumstance_moves_what_the_beer_brings_against_the_unknown_by_its_decibans(
    seed: int, decibans: float
) -> None:
    network, evidence = drawn(seed, words=(1, 1, 0))
    told = Piece("circumstance", "course", expected=decibans)
    ranking = rank(network, [evidence, evidence.with_piece(told)])
    odds = ranking.expected_here[:, 0] / ranking.not_in_rule_base[:, 0]
    assert odds[1] == pytest.approx(odds[0] * 10.0 ** (decibans / 10.0), rel=1e-9)


@quickly
@given(seeds)
def test_without_circumstances_the_shares_are_the_responsibilities_to_scale(seed: int) -> None:
    network, evidence = drawn(seed)
    plain = evidence.without("fault")
    ranking, posterior = rank(network, [plain]), solve(network, [plain])
    scale = ranking.not_in_rule_base[0] / posterior.not_in_rule_base[0]
    wanted = posterior.responsible[0] * scale[:, None]
    np.testing.assert_allclose(ranking.responsible[0], wanted, atol=TOLERANCE)
    np.testing.assert_allclose(ranking.log_evidence, posterior.log_evidence, atol=TOLERANCE)


@quickly
@given(seeds, st.floats(-40, 40))
def test_a_circumstance_moves_the_odds_against_the_unknown_by_its_decibans(
    seed: int, decibans: float
) -> None:
    network, evidence = drawn(seed, words=(1, 1, 0))
    before, after = (
        rank(network, [one]) for one in (evidence, with_circumstance(network, evidence, decibans))
    )
    odds = after.responsible[..., 0] * before.not_in_rule_base * 10.0 ** (-decibans / 10.0)
    wanted = before.responsible[..., 0] * after.not_in_rule_base
    np.testing.assert_allclose(odds, wanted, rtol=1e-9, atol=1e-15)


def with_circumstance(network: Network, evidence: Evidence, decibans: float) -> Evidence:
    return evidence.with_piece(circumstance(network, decibans))


@quickly
@given(seeds, st.integers(2, 5))
def test_the_rankings_after_every_value_of_a_circumstance_average_to_the_one_before(
    seed: int, values: int
) -> None:
    random = np.random.default_rng(seed)
    network = small_network(random)
    evidence = Evidence((words_piece(random, network, (2, 1, 1)),))
    share = random.dirichlet(np.ones(values))
    of_cause = random.dirichlet(np.ones(values), len(network.causes))
    told = [
        evidence.with_piece(likeness(network, of_cause[:, value] / share[value]))
        for value in range(values)
    ]
    ranking = rank(network, [evidence, *told])
    chance = share * np.exp(ranking.log_evidence[1:] - ranking.log_evidence[0])
    assert chance.sum() == pytest.approx(1.0, abs=TOLERANCE)
    average = np.einsum("v,vgn->gn", chance, ranking.shares[1:])
    np.testing.assert_allclose(average, ranking.shares[0], atol=TOLERANCE)


def likeness(network: Network, ratios: np.ndarray[tuple[int], np.dtype[np.float64]]) -> Piece:
    decibans = 10.0 * np.log10(ratios)
    return Piece(
        "circumstance", "course", responsible=dict(zip(network.causes, decibans, strict=True))
    )


@quickly
@given(seeds)
def test_a_circumstance_that_fits_all_alike_changes_nothing(seed: int) -> None:
    network, evidence = drawn(seed)
    nothing = Piece("circumstance", "course", responsible=dict.fromkeys(network.causes, 0.0))
    found, wanted = (rank(network, [one]) for one in (evidence.with_piece(nothing), evidence))
    assert_same_ranking(found, wanted)


@quickly
@given(seeds, st.floats(0, 60))
def test_a_circumstance_that_fits_a_cause_never_lowers_its_share(seed: int, weight: float) -> None:
    network, evidence = drawn(seed)
    ranking = rank(network, [evidence, with_circumstance(network, evidence, weight)])
    before, after = ranking.responsible[..., 0]
    assert np.all(after >= before - TOLERANCE)


@quickly
@given(seeds)
def test_rankings_made_together_are_those_made_alone(seed: int) -> None:
    network, evidence = drawn(seed)
    evidences = [
        evidence,
        with_circumstance(network, evidence, 7.0),
        evidence.without("fault"),
        evidence.without("log"),
    ]
    together = rank(network, evidences)
    for column, one in enumerate(evidences):
        alone = rank(network, [one])
        np.testing.assert_allclose(together.shares[column], alone.shares[0], atol=TOLERANCE)
        np.testing.assert_allclose(together.happened[column], alone.happened[0], atol=TOLERANCE)


@quickly
@given(seeds, st.lists(st.floats(-FARTHEST, FARTHEST), min_size=3, max_size=3))
def test_everything_stays_a_probability_for_any_circumstances(
    seed: int, weights: list[float]
) -> None:
    network, evidence = drawn(seed)
    told = dict(zip(network.causes, weights, strict=False))
    ranking = rank(network, [evidence.with_piece(Piece("circumstance", "c", responsible=told))])
    assert np.isfinite(ranking.log_evidence).all()
    for values in (ranking.shares, ranking.spoke, ranking.in_every_group, ranking.happened):
        assert np.all((values >= 0.0) & (values <= 1.0 + TOLERANCE))


@quickly
@given(seeds)
def test_no_cause_is_the_main_explanation_more_often_than_it_happened(seed: int) -> None:
    ranking = rank(*asked_once(seed))
    assert np.all(ranking.responsible <= ranking.happened[:, None, :] + TOLERANCE)


@quickly
@given(seeds)
def test_an_impossible_cause_has_no_share_whatever_the_circumstances(seed: int) -> None:
    network, evidence = drawn(seed)
    (place,) = (network.cause_index[name] for name in evidence.impossible)
    ranking = rank(network, [evidence.with_piece(circumstance(network, FARTHEST, place))])
    assert np.all(ranking.responsible[..., place] == 0.0)
    assert np.all(ranking.happened[..., place] == 0.0)


def test_a_tasting_without_a_reported_word_has_no_groups_to_rank() -> None:
    network, evidence = drawn(0)
    ranking = rank(network, [evidence.without("tasting")])
    assert ranking.shares.shape == (1, 0, len(network.causes) + 2)


# shares and their entropy in bits; by hand
@pytest.mark.parametrize(
    ("shares", "bits"), [((1.0, 0.0), 0.0), ((0.5, 0.5), 1.0), ((0.25,) * 4, 2.0)]
)
def test_entropy_is_in_bits(shares: tuple[float, ...], bits: float) -> None:
    assert entropy_bits(np.array(shares)) == pytest.approx(bits)
