"""Tasters with palates of their own: what a word of theirs is worth in the network."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.evidence.palates import DULLEST, KEENEST, heard_by, keenness
from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.evidence.said import said_words, word_pieces
from diagnose.flavour import Heard
from diagnose.inference.network import Network, network_of
from diagnose.inference.posterior import Posterior, solve
from diagnose.knowledge import RuleBase
from tests.consult.asked import asked
from tests.inference.networks import REPORTED_SURELY
from tests.knowledge.shipped import rule_base

TOLERANCE = 1e-10
WREN, PIKE = "wren", "pike"
LEFT = "diacetyl_left_at_packaging"
chances = st.floats(0.05, 0.9)


def knowing(keen: float, *more: tuple[tuple[str, str], float]) -> RuleBase:
    """The rule base when Wren is as keen on butter's compound as so many ordinary tasters."""
    return replace(rule_base(), notices={(WREN, "diacetyl"): keen, **dict(more)})


def heard(rules: RuleBase, words: str, who: str | None = "Wren") -> tuple[Heard, ...]:
    return heard_by(rules, asked(words).known.heard, who)


def network(rules: RuleBase, said: tuple[Heard, ...]) -> Network:
    return network_of(rules, None, None, said=said_words(rules, said))


def solved(rules: RuleBase, said: tuple[Heard, ...]) -> Posterior:
    return solve(network(rules, said), [Evidence(tuple(word_pieces(rules, said)))])


def happened(rules: RuleBase, said: tuple[Heard, ...], cause: str = LEFT) -> float:
    answer = solved(rules, said)
    return float(answer.happened[0, answer.structure.network.cause_index[cause]])


@given(chances, chances)
@settings(max_examples=50)
def test_a_taster_names_a_compound_as_often_as_was_learned(noticed: float, people: float) -> None:
    keen = keenness(noticed, people)
    if DULLEST < keen < KEENEST:
        assert 1.0 - (1.0 - people) ** keen == pytest.approx(noticed)


@pytest.mark.parametrize("words", ["butter", "no butter", "butter, no cardboard"])
def test_an_ordinary_palate_changes_nothing(words: str) -> None:
    plain = solved(rule_base(), heard(rule_base(), words))
    known = solved(knowing(1.0), heard(knowing(1.0), words))
    np.testing.assert_allclose(known.happened, plain.happened, rtol=0, atol=TOLERANCE)
    np.testing.assert_allclose(known.responsible, plain.responsible, rtol=0, atol=TOLERANCE)


@pytest.mark.parametrize("who", [None, "Pike"])
def test_what_is_known_of_one_taster_says_nothing_of_another(who: str | None) -> None:
    rules = knowing(0.2)
    assert heard(rules, "no butter", who) == asked("no butter").known.heard


@pytest.mark.parametrize("spelt", ["Wren", "wren", "WREN"])
def test_a_taster_is_known_however_the_name_is_written(spelt: str) -> None:
    rules = knowing(0.2)
    assert happened(rules, heard(rules, "no butter", spelt)) != pytest.approx(
        happened(rule_base(), heard(rule_base(), "no butter"))
    )


def test_the_keener_the_taster_the_more_a_denial_speaks_against_a_cause() -> None:
    chances = [happened(knowing(k), heard(knowing(k), "no butter")) for k in (0.1, 0.5, 1.0, 3.0)]
    assert chances == sorted(chances, reverse=True)
    assert chances[0] > 1.05 * chances[-1]


def test_a_word_of_a_taster_who_hardly_notices_it_is_weaker_news_than_a_keen_one_s() -> None:
    dull, keen = (happened(knowing(k), heard(knowing(k), "butter")) for k in (0.1, 3.0))
    assert dull < keen


# who says the word, and who denies it; no source: each way round, and a denial by both
SEVERAL = [("butter", None), ("no butter", None), ("butter", "Pike"), ("no butter", "Pike")]


@pytest.mark.parametrize(("words", "other"), SEVERAL)
def test_a_denial_of_a_known_taster_is_that_of_a_variable_of_its_own(
    words: str, other: str | None
) -> None:
    keen = 0.4
    rules = knowing(keen, ((PIKE, "diacetyl"), 2.0))
    said = (*heard(rules, words, other), *heard(rules, "no butter"))
    wanted = with_own_variable(rules, heard(rules, words, other), keen)
    found = solved(rules, said)
    np.testing.assert_allclose(found.happened, wanted.happened, rtol=0, atol=TOLERANCE)


def with_own_variable(rules: RuleBase, others: tuple[Heard, ...], keen: float) -> Posterior:
    """The same with Wren's denial as a descriptor that stands beside what others say."""
    plain = network(rules, others)
    word, giving = plain.descriptor_index["butter"], plain.compound_index["diacetyl"]
    column = network(rule_base(), ()).gives[:, word].copy()
    column[giving] = 1.0 - (1.0 - column[giving]) ** keen
    wider = replace(
        plain,
        descriptors=(*plain.descriptors, "wren_finds_butter"),
        gives=np.column_stack([plain.gives, column]),
        wrong_word=np.append(plain.wrong_word, plain.wrong_word[word]),
        expected_said=np.append(plain.expected_said, 1.0),
    )
    own = Piece("word", "own", words={"wren_finds_butter": ABSENT})
    return solve(wider, [Evidence((*word_pieces(rules, others), own))])


def test_what_a_known_taster_denies_does_not_silence_what_another_reports() -> None:
    rules = knowing(1.0)
    said = (*heard(rules, "butter", "Pike"), *heard(rules, "no butter"))
    (piece,) = word_pieces(rules, said)
    assert piece.reported == ("butter",)
    assert piece.words["butter"] != REPORTED_SURELY
    assert piece.present["diacetyl"] < 0.0


def test_leaving_a_word_out_leaves_out_what_every_taster_said_of_it() -> None:
    rules = knowing(0.5)
    said = (*heard(rules, "butter", "Pike"), *heard(rules, "no butter"))
    evidence = Evidence(tuple(word_pieces(rules, said)))
    assert evidence.without("butter", "word").pieces == ()
