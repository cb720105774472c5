"""Words that are on no card are answered with known ones spelt much like them, or with none."""

import pytest

from diagnose.flavour.near import near_phrases
from tests.flavour.shipped import LEXICON

NAMED = [card for one, card in LEXICON.cards.items() if one not in LEXICON.words.vague]
PHRASES = sorted({phrase for card in NAMED for phrase in card.phrasings})


# Source of the table: spelling by ear, of brewers whose first language is another; judgement.
@pytest.mark.parametrize(
    ("said", "near"),
    [
        ("kardboard", "cardboard"),
        ("fenolic", "phenolic"),
        ("finegar", "vinegar"),
        ("estringent", "astringent"),
        ("oxigen", "oxygen"),
        ("ardboard", "cardboard"),
    ],
)
def test_a_first_letter_that_sounds_alike_or_is_lost_does_not_hide_the_word(
    said: str, near: str
) -> None:
    assert near_phrases(said, LEXICON)[0] == near


# Source of the table: everyday words that once were answered with a fault; judgement.
@pytest.mark.parametrize("said", ["sun", "sat", "fat", "fast", "looking"])
def test_an_everyday_word_is_answered_with_no_flavour(said: str) -> None:
    assert near_phrases(said, LEXICON) == ()


@pytest.mark.parametrize("phrase", [one for one in PHRASES if len(one) > 5])
def test_a_lost_last_letter_leads_back_to_the_word_or_to_one_as_near(phrase: str) -> None:
    assert near_phrases(phrase[:-1], LEXICON)
