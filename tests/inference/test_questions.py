"""What a piece of evidence moved, and what an answer would be worth."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.explanation import explain
from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.network import Floats, Network
from diagnose.inference.question import Answer, Question, expected_gains, worth
from diagnose.inference.ranking import entropy_bits, rank
from tests.inference.enumeration import States, weights_of
from tests.inference.networks import REPORTED_SURELY, network_with, random_evidence, small_network

TOLERANCE = 1e-9

seeds = st.integers(0, 2**32 - 1)
quickly = settings(max_examples=20, deadline=None, derandomize=True)


def drawn(seed: int) -> tuple[Network, Evidence]:
    """A small network and evidence of every kind."""
    random = np.random.default_rng(seed)
    network = small_network(random)
    return network, random_evidence(random, network, (2, 1, 1))


def question(key: str, pieces: list[Piece], word: str | None = None) -> Question:
    answers = [Answer(f"{n}", 1.0 / len(pieces), piece) for n, piece in enumerate(pieces)]
    return Question("check", key, 5.0, tuple(answers), word)


def about_first_cause(network: Network, *decibans: float) -> list[Piece]:
    return [Piece("check", "look", happened={network.causes[0]: db}) for db in decibans]


@quickly
@given(seeds)
def test_a_piece_weighs_what_leaving_it_out_takes_from_the_odds(seed: int) -> None:
    network, evidence = drawn(seed)
    explanation = explain(network, evidence)
    place = explanation.keys.index(("log", "log"))
    shares = [
        np.clip(rank(network, [one]).responsible[0], 1e-15, 1.0)
        for one in (evidence, evidence.without("log"))
    ]
    with_it, without = (10.0 * np.log10(share / (1.0 - share)) for share in shares)
    certain = shares[0] > 1e-9
    moved = explanation.decibans[place][certain]
    assert moved == pytest.approx((with_it - without)[certain], abs=1e-5)


@quickly
@given(seeds)
def test_a_piece_that_says_nothing_weighs_nothing(seed: int) -> None:
    network, evidence = drawn(seed)
    nothing = Piece("measure", "nothing", happened=dict.fromkeys(network.causes, 0.0))
    explanation = explain(network, evidence.with_piece(nothing))
    assert np.abs(explanation.decibans[-1]).max(initial=0.0) < 1e-3


@quickly
@given(seeds, st.floats(-20, 20), st.floats(-20, 20))
def test_no_question_is_worth_less_than_nothing(seed: int, one: float, other: float) -> None:
    network, evidence = drawn(seed)
    (gain,) = expected_gains(
        network, evidence, [question("look", about_first_cause(network, one, other))]
    )
    assert gain.bits >= 0.0


@quickly
@given(seeds)
def test_a_question_whose_answers_say_the_same_is_worth_nothing(seed: int) -> None:
    network, evidence = drawn(seed)
    (gain,) = expected_gains(
        network, evidence, [question("look", about_first_cause(network, 6.0, 6.0))]
    )
    assert gain.bits == pytest.approx(0.0, abs=TOLERANCE)


@quickly
@given(seeds)
def test_the_chances_of_the_answers_sum_to_one(seed: int) -> None:
    network, evidence = drawn(seed)
    unheard = next(word for word in network.descriptors if word not in evidence.judged)
    pieces = [Piece("word", unheard, words={unheard: said}) for said in (ABSENT, (0.05, 1.0))]
    (gain,) = expected_gains(network, evidence, [question(unheard, pieces, unheard)])
    assert sum(outcome.chance for outcome in gain.outcomes) == pytest.approx(1.0)


def test_the_question_worth_most_a_minute_comes_first() -> None:
    network = network_with(np.random.default_rng(0), np.full((2, 1), 0.5), np.full((1, 1), 0.7))
    evidence = Evidence((Piece("word", "word_0", words={"word_0": REPORTED_SURELY}),))
    weak = question("weak", about_first_cause(network, 1.0, -1.0))
    strong = question("strong", about_first_cause(network, 20.0, -20.0))
    gains = expected_gains(network, evidence, [weak, strong])
    assert [gain.question.key for gain in gains] == ["strong", "weak"]
    assert worth(gains[0]) > worth(gains[1]) > 0.0


def test_questions_judged_together_are_worth_what_each_is_alone() -> None:
    network, evidence = drawn(3)
    questions = [
        question("look", about_first_cause(network, 9.0, -9.0)),
        question(
            "smell", [Piece("check", "smell", present={name: 9.0}) for name in network.compounds]
        ),
    ]
    together = {
        gain.question.key: gain.bits for gain in expected_gains(network, evidence, questions)
    }
    for one in questions:
        (alone,) = expected_gains(network, evidence, [one])
        assert together[one.key] == pytest.approx(alone.bits, abs=TOLERANCE)


@quickly
@given(seeds, st.floats(-15, 15))
def test_what_an_answer_leads_to_is_what_solving_with_it_gives(seed: int, decibans: float) -> None:
    """Words and compounds outside what is known are mixed in, not solved; it must not show."""
    network, evidence = drawn(seed)
    word = next(word for word in network.descriptors if word not in evidence.judged)
    pieces = [
        Piece("word", word, words={word: (0.05, 1.0)}),
        Piece("word", word, words={word: ABSENT}),
        Piece("check", "smell", present=dict.fromkeys(network.compounds, decibans)),
        Piece("check", "look", happened=dict.fromkeys(network.causes, decibans)),
    ]
    (gain,) = expected_gains(network, evidence, [question("all", pieces, word)])
    for piece, outcome in zip(pieces, gain.outcomes, strict=True):
        solved = rank(network, [evidence, evidence.with_piece(piece)], [word])
        np.testing.assert_allclose(outcome.responsible, solved.responsible[1], atol=TOLERANCE)


@pytest.mark.parametrize("seed", range(6))
def test_what_a_question_is_worth_is_what_brute_force_says(seed: int) -> None:
    network, evidence = drawn(seed)
    evidence = Evidence(tuple(p for p in evidence.pieces if not p.responsible), evidence.impossible)
    word = next(word for word in network.descriptors if word not in evidence.judged)
    asked = [
        question("look", about_first_cause(network, 8.0, -5.0)),
        question("smell", [Piece("check", "a", present={network.compounds[0]: 6.0}), NOTHING]),
        question("hear", [Piece("word", word, words={word: s}) for s in (ABSENT, (0.05, 1.0))]),
    ]
    for gain in expected_gains(network, evidence, asked):
        wanted = enumerated_bits(network, evidence, gain.question)
        assert gain.bits == pytest.approx(wanted, abs=TOLERANCE)


NOTHING = Piece("check", "nothing")


def enumerated_bits(network: Network, evidence: Evidence, asked: Question) -> float:
    """Entropy of the mixture of the rankings after each answer, less their mean entropy.

    The groups are those of what is known, whatever word an answer adds.
    """
    after = [answered_by_enumeration(network, evidence, one.piece) for one in asked.answers]
    chance = np.array([one.share for one in asked.answers]) * [weight for weight, _ in after]
    chance /= chance.sum()
    shares = np.array([share for _, share in after])
    mixture = np.tensordot(chance, shares, axes=1)
    return float(entropy_bits(mixture).sum() - chance @ entropy_bits(shares).sum(axis=1))


def answered_by_enumeration(
    network: Network, evidence: Evidence, piece: Piece
) -> tuple[float, Floats]:
    """The probability of all that is known with the answer, and the shares after it."""
    states = States(network, evidence.reported)
    told = evidence.with_piece(piece)
    weight = weights_of(network, told, states)
    share = weight / weight.sum()
    shares = []
    for group in groups_of(network, evidence.reported):
        behind = compounds_behind(network, group)
        spoke = [states.spoke(i, behind) for i in range(len(network.causes))]
        brought = states.brought(behind)
        unknown = ~np.any([*spoke, brought], axis=0)
        outcomes = np.array([share @ one for one in (*spoke, brought, unknown)])
        shares.append(outcomes / outcomes.sum())
    return float(weight.sum()), np.array(shares)
