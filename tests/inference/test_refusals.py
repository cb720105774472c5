"""Questions that cannot be answered are refused in a sentence."""

import numpy as np
import pytest

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.network import Network
from diagnose.inference.plan import WIDEST, QueryTooWide, plan_sweep
from diagnose.inference.posterior import solve
from diagnose.inference.sweep import ImpossibleEvidence
from tests.inference.networks import REPORTED_SURELY, network_with


def knot(size: int) -> Network:
    """One cause of `size` compounds: all must be open at once."""
    return network_with(np.random.default_rng(0), np.full((1, size), 0.5), np.eye(size) * 0.5)


def tasting(**said: tuple[float, float]) -> Evidence:
    return Evidence(tuple(Piece("word", word, words={word: pair}) for word, pair in said.items()))


def test_a_question_too_wide_is_refused_with_what_to_do_about_it() -> None:
    network = knot(WIDEST + 1)
    everything = tasting(**dict.fromkeys(network.descriptors, ABSENT))
    with pytest.raises(QueryTooWide, match=r"^\d+ flavour compounds .*; give fewer words, .+"):
        solve(network, [everything])


def test_a_question_just_wide_enough_is_planned() -> None:
    network = knot(WIDEST)
    assert plan_sweep(network, range(WIDEST), ()).width == WIDEST


def test_compounds_that_do_not_hang_together_are_never_open_at_once() -> None:
    size = 2 * WIDEST
    apart = network_with(np.random.default_rng(0), np.eye(size) * 0.5, np.eye(size) * 0.5)
    assert plan_sweep(apart, range(size), range(size)).width <= 2


def test_evidence_that_contradicts_itself_is_refused_with_what_to_do_about_it() -> None:
    both = tasting(word_0=REPORTED_SURELY).with_piece(
        Piece("word", "again", words={"word_0": ABSENT})
    )
    with pytest.raises(ImpossibleEvidence, match=r"contradict each other; check .+"):
        solve(knot(2), [both])


def test_one_contradictory_column_is_enough_to_refuse() -> None:
    fine = tasting(word_0=REPORTED_SURELY)
    worse = fine.with_piece(Piece("word", "again", words={"word_0": ABSENT}))
    with pytest.raises(ImpossibleEvidence):
        solve(knot(2), [fine, worse])


def test_a_word_that_nothing_known_gives_is_no_contradiction() -> None:
    network = network_with(np.random.default_rng(0), np.full((1, 1), 0.5), np.zeros((1, 1)))
    answer = solve(network, [tasting(word_0=REPORTED_SURELY)])
    assert answer.not_in_rule_base[0, 0] == pytest.approx(1.0)
    assert answer.happened[0, 0] == pytest.approx(network.base_rate[0])
