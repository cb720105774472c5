"""Several sets of evidence solved together, as columns, against each solved alone."""

from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference import posterior as posterior_module
from diagnose.inference.network import Network
from diagnose.inference.posterior import Posterior, solve
from tests.inference.networks import (
    REPORTED_SURELY,
    log_pieces,
    network_with,
    random_evidence,
    realistic_network,
    small_network,
    words_piece,
)

TOLERANCE = 1e-12
QUANTITIES = (
    "log_evidence",
    "happened",
    "responsible",
    "in_every_group",
    "expected_here",
    "not_in_rule_base",
)

seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=30, deadline=None, derandomize=True)


def assert_columns_agree(network: Network, evidences: Sequence[Evidence]) -> None:
    together = solve(network, evidences)
    for column, evidence in enumerate(evidences):
        assert_column_agrees(together, column, solve(network, [evidence]))


def assert_column_agrees(together: Posterior, column: int, alone: Posterior) -> None:
    for quantity in QUANTITIES:
        found, wanted = getattr(together, quantity)[column], getattr(alone, quantity)[0]
        np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE, err_msg=quantity)


@quickly
@given(seeds)
def test_columns_with_other_findings_are_those_solved_alone(seed: int) -> None:
    random = np.random.default_rng(seed)
    network = small_network(random)
    first = random_evidence(random, network, (2, 1, 1))
    tasting = first.pieces[0]
    others = [Evidence((tasting, *log_pieces(random, network))) for _ in range(3)]
    assert_columns_agree(network, [first, *others, Evidence((tasting,))])


@quickly
@given(seeds)
def test_columns_that_judge_further_words_are_those_solved_alone(seed: int) -> None:
    random = np.random.default_rng(seed)
    network = small_network(random)
    first = Evidence((words_piece(random, network, (2, 1, 0)),))
    unheard = next(word for word in network.descriptors if word not in first.judged)
    answers = [Piece("word", unheard, words={unheard: said}) for said in (ABSENT, (0.9, 0.2))]
    assert_columns_agree(network, [first, *map(first.with_piece, answers)])


@quickly
@given(seeds)
def test_columns_that_lack_an_absent_word_are_those_solved_alone(seed: int) -> None:
    random = np.random.default_rng(seed)
    network = small_network(random)
    first = word_by_word(random_evidence(random, network, (2, 2, 1)))
    absent = [piece for piece in first.pieces if ABSENT in piece.words.values()]
    assert_columns_agree(network, [first, *(first.without(piece.key) for piece in absent)])


@quickly
@given(seeds)
def test_a_column_that_lacks_a_reported_word_has_the_causes_of_one_solved_alone(seed: int) -> None:
    random = np.random.default_rng(seed)
    network = small_network(random)
    blameless = random_evidence(random, network, (2, 2, 1)).without("fault")
    first = word_by_word(blameless)
    columns = [first, *(first.without(word) for word in first.reported)]
    together = solve(network, columns)
    for column, evidence in enumerate(columns):
        alone = solve(network, [evidence])
        assert together.happened[column] == pytest.approx(alone.happened[0], abs=TOLERANCE)
        assert together.log_evidence[column] == pytest.approx(alone.log_evidence[0], abs=TOLERANCE)


def word_by_word(evidence: Evidence) -> Evidence:
    """The same evidence with a piece for each word of its tasting."""
    tasting, *rest = evidence.pieces
    words = [Piece("word", word, words={word: said}) for word, said in tasting.words.items()]
    return Evidence((*words, *rest), evidence.impossible)


def test_a_column_may_take_back_that_a_word_is_absent() -> None:
    network = two_compounds()
    reported = Piece("word", "word_0", words={"word_0": REPORTED_SURELY})
    absent, doubted = (
        Piece("word", "word_1", words={"word_1": said}) for said in (ABSENT, (0.9, 0.2))
    )
    assert_columns_agree(network, [Evidence((reported, absent)), Evidence((reported, doubted))])


def test_a_column_may_answer_a_question_again_about_another_compound() -> None:
    network = two_compounds()
    reported = Piece("word", "word_0", words={"word_0": REPORTED_SURELY})
    before, after = (Piece("check", "look", present={f"compound_{j}": 20.0}) for j in range(2))
    assert_columns_agree(network, [Evidence((reported, before)), Evidence((reported, after))])


def two_compounds() -> Network:
    """One cause of two compounds, each with a word of its own."""
    return network_with(np.random.default_rng(0), np.full((1, 2), 0.5), np.eye(2) * 0.5)


def test_the_size_of_the_blocks_is_irrelevant(monkeypatch: pytest.MonkeyPatch) -> None:
    random = np.random.default_rng(1)
    network = realistic_network(random)
    first = random_evidence(random, network, (2, 2, 0))
    others = [Evidence((first.pieces[0], *log_pieces(random, network))) for _ in range(6)]
    whole = solve(network, [first, *others])
    monkeypatch.setattr(posterior_module, "LARGEST_BLOCK_CELLS", 1)
    one_by_one = solve(network, [first, *others])
    for quantity in QUANTITIES:
        np.testing.assert_allclose(getattr(one_by_one, quantity), getattr(whole, quantity))
