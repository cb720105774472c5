"""What may have been meant by words that are on no card: phrases spelt much like them."""

from collections.abc import Iterator

from diagnose.flavour.lexicon import Lexicon

_SHORTEST = 4
_SHOWN = 3
# Phrases less alike than this, in a hundred, are another word: a short word is so with one letter
# exchanged, and the first letter is seldom mistyped but for one that sounds like it. Judgement.
_ALIKE = 70.0
_SHORT, _SHORT_ALIKE = 5, 80.0
_BEGUN_OTHERWISE = 88.0
_SOUND_ALIKE = ("aeiouy", "ckq", "csz", "fpvw", "gj")


def near_phrases(said: str, lexicon: Lexicon) -> tuple[str, ...]:
    """The phrases nearest to what was said, or to a word of it, the nearest first.

    Args:
        said: words that were not understood.
        lexicon: the words that are known.
    """
    vague = lexicon.words.vague
    cards = [card for card in lexicon.cards.values() if card.id not in vague]
    phrases = sorted({phrase for card in cards for phrase in card.phrasings})
    texts = dict.fromkeys(text.casefold() for text in (said, *said.split()))
    found = [
        scored for text in texts if len(text) >= _SHORTEST for scored in _nearest(text, phrases)
    ]
    return tuple(dict.fromkeys(phrase for _, phrase in sorted(found)))[:_SHOWN]


def _nearest(text: str, phrases: list[str]) -> Iterator[tuple[float, str]]:
    """The nearest phrases, each behind its likeness with the sign turned."""
    # Most words are understood, and then need not wait for this import.
    from rapidfuzz import fuzz, process  # noqa: PLC0415

    least = _SHORT_ALIKE if len(text) <= _SHORT else _ALIKE
    begun = [phrase for phrase in phrases if _begin_alike(phrase, text)]
    others = [phrase for phrase in phrases if not _begin_alike(phrase, text)]
    for choices, cut in ((begun, least), (others, _BEGUN_OTHERWISE)):
        for phrase, score, _ in process.extract(
            text, choices, scorer=fuzz.ratio, score_cutoff=cut, limit=_SHOWN
        ):
            yield -score, phrase


def _begin_alike(one: str, other: str) -> bool:
    first = {one[0], other[0]}
    return len(first) == 1 or any(first <= set(letters) for letters in _SOUND_ALIKE)
