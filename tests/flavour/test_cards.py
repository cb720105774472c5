"""The shipped cards and small words: whole, consistent and findable."""

import re

import pytest

from diagnose.documents import parse_yaml, read_text
from diagnose.flavour import lexicon_faults
from diagnose.flavour.card import DescriptorCard
from diagnose.flavour.tokens import cut_into_words
from tests.flavour.shipped import LEXICON, RULES

CARDS = pytest.mark.parametrize("card", LEXICON.cards.values(), ids=lambda card: card.id)
# Source: common practice, no source; the file a stranger would open for a word.
FIND_BY_GUESSING = [
    ("butter", "buttery"),
    ("wet_cardboard", "papery"),
    ("wet_cardboard", "cardboardy"),
    ("skunk", "skunky"),
    ("metal", "metallic"),
    ("metal", "tinny"),
    ("vinegar", "vinegary"),
    ("soap", "soapy"),
    ("smoke", "smoky"),
    ("tcp_antiseptic", "medicinal"),
    ("cooked_corn", "corny"),
    ("cabbage", "cabbagey"),
    ("rotten_egg", "eggy"),
    ("solvent", "solventy"),
    ("hot_alcohol", "boozy"),
    ("cheese", "sweaty"),
    ("cheese", "cheesy"),
    ("goaty", "goaty"),
    ("tea_bag", "astringent"),
    ("tea_bag", "puckering"),
    ("flat", "flat"),
]


@CARDS
def test_a_card_tells_its_descriptor_in_short_lines(card: DescriptorCard) -> None:
    assert max(map(len, (card.name, card.says, card.asks))) <= 110


@CARDS
def test_a_card_lists_its_own_name_among_the_phrasings(card: DescriptorCard) -> None:
    words = {word for phrase in card.phrasings for word in phrase.split()}
    assert set(re.findall(r"[a-z]+", card.name)) & words


@CARDS
def test_tricks_are_sentences(card: DescriptorCard) -> None:
    assert all(confusion.trick.endswith((".", "?")) for confusion in card.confused_with)


@CARDS
def test_every_phrase_has_words_to_match(card: DescriptorCard) -> None:
    assert all(cut_into_words(phrase) for phrase in (*card.phrasings, *card.match_only))


@pytest.mark.parametrize(("descriptor", "word"), FIND_BY_GUESSING)
def test_an_everyday_word_stands_on_the_card_a_stranger_would_open(
    descriptor: str, word: str
) -> None:
    assert word in LEXICON.cards[descriptor].phrasings


def test_cards_and_small_words_do_not_clash() -> None:
    assert lexicon_faults(LEXICON.cards, LEXICON.words) == ()


def test_confusions_are_written_on_one_of_the_two_cards_only() -> None:
    pairs = [
        frozenset((card.id, confusion.id))
        for card in LEXICON.cards.values()
        for confusion in card.confused_with
    ]
    assert len(pairs) == len(set(pairs))


def test_circumstances_are_those_of_the_rule_base() -> None:
    path = RULES / "circumstances.yaml"
    known = {one["id"]: set(one["values"]) for one in parse_yaml(read_text(path), path.name).data}
    told = {name: set(values) for name, values in LEXICON.words.circumstances.items()}
    assert all(values <= known.get(name, set()) for name, values in told.items())


def test_stronger_words_are_better_evidence() -> None:
    strengths = LEXICON.words.intensity
    said = [s.said_if_not.value for s in (strengths.faint, strengths.clear, strengths.strong)]
    assert said == sorted(said, reverse=True)
