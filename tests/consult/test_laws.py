"""How evidence moves a suspect of the shipped rules, whichever it is and whatever it says."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Network, network_of
from diagnose.inference.ranking import rank
from tests.inference.networks import REPORTED_SURELY
from tests.knowledge.shipped import rule_base

CAUSES = sorted(rule_base().causes)
TOLERANCE = 1e-9
few = settings(max_examples=5)
clearing = st.floats(-25.0, -0.5)


def loudest_word(cause: str) -> str:
    """The word that the cause is likeliest to be reported with."""
    strengths = {
        word: compound.made_by[cause].value * number.value
        for compound in rule_base().compounds.values()
        if cause in compound.made_by
        for word, number in compound.gives.items()
    }
    return max(strengths, key=lambda word: (strengths[word], word))


def reported(cause: str) -> tuple[Network, Evidence]:
    """Nothing is known but the word that speaks loudest of the cause."""
    word = loudest_word(cause)
    evidence = Evidence((Piece("word", word, words={word: REPORTED_SURELY}),))
    return network_of(rule_base(), None, None), evidence


def chances(cause: str, *more: Piece) -> list[tuple[float, float]]:
    """(responsible, happened) of the cause on its word alone, and with each further piece."""
    network, evidence = reported(cause)
    ranking = rank(network, [evidence, *(evidence.with_piece(piece) for piece in more)])
    at = network.cause_index[cause]
    return [
        (float(ranking.responsible[row, 0, at]), float(ranking.happened[row, at]))
        for row in range(1 + len(more))
    ]


@pytest.mark.parametrize("cause", CAUSES)
@few
@given(weight=clearing)
def test_a_finding_that_clears_a_cause_lowers_it(cause: str, weight: float) -> None:
    before, after = chances(cause, Piece("measure", "clears", happened={cause: weight}))
    assert after[0] < before[0]
    assert after[1] < before[1]


@pytest.mark.parametrize("cause", CAUSES)
@few
@given(weight=clearing)
def test_a_finding_against_a_cause_by_as_much_as_one_for_it_cancels_out(
    cause: str, weight: float
) -> None:
    both = (Piece("measure", "for", {cause: -weight}), Piece("measure", "against", {cause: weight}))
    network, evidence = reported(cause)
    found = rank(network, [evidence, Evidence((*evidence.pieces, *both))])
    np.testing.assert_allclose(found.shares[1], found.shares[0], atol=TOLERANCE)


@pytest.mark.parametrize("cause", CAUSES)
def test_the_longer_the_log_speaks_for_a_cause_the_likelier_it_is(cause: str) -> None:
    louder = [Piece("measure", "log", happened={cause: weight}) for weight in (3.0, 10.0, 20.0)]
    found = [responsible for responsible, _ in chances(cause, *louder)]
    assert found == sorted(set(found))


@pytest.mark.parametrize("cause", CAUSES)
def test_a_circumstance_that_fits_a_cause_raises_it(cause: str) -> None:
    before, after = chances(cause, Piece("circumstance", "fits", responsible={cause: 6.0}))
    assert after[0] > before[0]


@pytest.mark.parametrize("cause", CAUSES)
def test_an_impossible_cause_is_neither_to_blame_nor_at_work(cause: str) -> None:
    network, evidence = reported(cause)
    out = rank(network, [Evidence(evidence.pieces, frozenset({cause}))])
    at = network.cause_index[cause]
    assert out.responsible[0, 0, at] == 0.0
    assert out.happened[0, at] == 0.0


@pytest.mark.parametrize("cause", CAUSES)
def test_the_word_a_cause_speaks_loudest_makes_it_likelier_than_before(cause: str) -> None:
    base_rate = rule_base().causes[cause].base_rate.value
    assert chances(cause)[0][1] > base_rate
