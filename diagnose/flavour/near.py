"""What may have been meant by words that are on no card: phrases spelt much like them."""

from diagnose.flavour.lexicon import Lexicon

# Phrases less alike than this, in a hundred, are another word, and so are those that begin
# otherwise: the first letter is seldom mistyped. Judgement.
_ALIKE = 70.0
_SHORTEST = 4
_SHOWN = 3


def near_phrases(said: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The phrases nearest to what was said, or to a word of it, the nearest first.

    Args:
        said: words that were not understood.
        lexicon: the words that are known.
    """
    # Most words are understood, and then need not wait for this import.
    from rapidfuzz import fuzz, process  # noqa: PLC0415

    vague = lexicon.words.vague
    cards = [card for card in lexicon.cards.values() if card.id not in vague]
    phrases = sorted({phrase for card in cards for phrase in card.phrasings})
    texts = [said, *(word for word in said.split() if len(word) >= _SHORTEST)]
    found = [
        (-score, phrase)
        for text in dict.fromkeys(text.casefold() for text in texts)
        for phrase, score, _ in process.extract(
            text, _beginning(phrases, text), scorer=fuzz.ratio, score_cutoff=_ALIKE, limit=_SHOWN
        )
    ]
    return tuple(dict.fromkeys(phrase for _, phrase in sorted(found)))[:_SHOWN]


def _beginning(phrases: list[str], text: str) -> list[str]:
    return [phrase for phrase in phrases if phrase[:1] == text[:1]]
