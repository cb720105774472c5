"""How words were said: in which senses, how surely, and what a denial denies."""

import math

import pytest

from diagnose.evidence.said import said_words, word_pieces
from diagnose.flavour import Heard
from diagnose.inference.network import network_of
from tests.consult.asked import asked
from tests.knowledge.shipped import rule_base

SAME = 1e-12

# "sour" and "medicinal" as the shipped lexicon reads them; the shares are the lexicon's own.
AMBIGUOUS = ["sour", "medicinal", "sour apple"]


def heard(words: str) -> tuple[Heard, ...]:
    return asked(words).known.heard


@pytest.mark.parametrize("words", AMBIGUOUS)
def test_the_senses_of_an_ambiguous_word_share_it_out(words: str) -> None:
    (said,) = said_words(rule_base(), heard(words)).values()
    assert len(said.senses) > 1
    assert math.fsum(said.senses.values()) == pytest.approx(1.0, abs=SAME)


@pytest.mark.parametrize("words", AMBIGUOUS)
def test_which_sense_was_meant_does_not_make_the_word_less_sure(words: str) -> None:
    plain = word_pieces(rule_base(), heard("butter"))[0].words["butter"]
    (piece,) = word_pieces(rule_base(), heard(words))
    (likelihoods,) = piece.words.values()
    assert likelihoods == pytest.approx(plain, abs=SAME)


@pytest.mark.parametrize("words", AMBIGUOUS)
def test_the_word_s_column_is_its_senses_columns_by_their_shares(words: str) -> None:
    ((word, said),) = said_words(rule_base(), heard(words)).items()
    plain = network_of(rule_base(), None, None)
    blended = network_of(rule_base(), None, None, said={word: said})
    at = plain.descriptor_index
    wanted = sum(share * plain.gives[:, at[sense]] for sense, share in said.senses.items())
    assert blended.gives[:, at[word]] == pytest.approx(wanted, abs=SAME)


def test_a_word_of_its_own_settles_the_sense() -> None:
    said = said_words(rule_base(), heard("sour milk, sour"))
    assert dict(said["sour_milk"].senses) == {"sour_milk": 1.0}


def test_a_denial_denies_every_sense() -> None:
    (clean,) = heard("not sour")
    denied = {word for piece in word_pieces(rule_base(), (clean,)) for word in piece.words}
    assert denied == {clean.descriptor, *(other.id for other in clean.alternatives)}


def test_a_denial_spares_a_sense_that_another_word_reports() -> None:
    pieces = word_pieces(rule_base(), heard("vinegar, not sour"))
    reported = {word for piece in pieces for word in piece.reported}
    assert "vinegar" in reported


def test_the_louder_a_complaint_the_less_it_is_of_what_the_beer_should_have() -> None:
    readily = [
        said_words(rule_base(), heard(words))["butter"].expected_said
        for words in ("hint of butter", "butter", "strong butter")
    ]
    assert readily == sorted(readily, reverse=True)
    assert len(set(readily)) == len(readily)


def test_a_yeast_of_character_is_rarer_where_neither_yeast_nor_style_is_named() -> None:
    unnamed, styled = network_of(rule_base(), None, None), network_of(rule_base(), None, "porter")
    clove = unnamed.compound_index["vinylguaiacol"]
    share = rule_base().lexicon.words.character_unsaid.value
    assert unnamed.expected[clove] == pytest.approx(share * styled.expected[clove], rel=0.05)
