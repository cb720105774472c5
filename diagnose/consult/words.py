"""How words are understood, as an answer."""

from collections.abc import Iterable

from diagnose.answers import DoubtLine, Understood, WordsAnswer
from diagnose.answers.diagnosis import NearWords
from diagnose.flavour import Heard, Lexicon, Understanding
from diagnose.flavour.near import near_phrases


def words_answer(lexicon: Lexicon, understanding: Understanding) -> WordsAnswer:
    """The understanding of one note with names in place of ids."""
    return WordsAnswer(
        understood=tuple(understood_line(lexicon, heard) for heard in understanding.heard),
        doubts=tuple(
            DoubtLine(
                said=doubt.said,
                candidates=tuple(lexicon.cards[c.id].name for c in doubt.candidates),
                ask=doubt.ask,
            )
            for doubt in understanding.doubts
        ),
        circumstances=dict(understanding.circumstances),
        not_understood=understanding.not_understood,
        near_words=near_words(lexicon, understanding.not_understood),
        noted=understanding.notes,
        praise=understanding.praise,
        tell_apart=tuple(_tell_apart(lexicon, understanding)),
    )


def understood_line(lexicon: Lexicon, heard: Heard) -> Understood:
    """One heard flavour with names in place of ids."""
    return Understood(
        said=heard.said,
        descriptor=heard.descriptor,
        name=lexicon.cards[heard.descriptor].name,
        state=heard.state,
        intensity=heard.intensity,
        also_possible=tuple(lexicon.cards[other.id].name for other in heard.alternatives),
    )


def near_words(lexicon: Lexicon, lost: Iterable[str]) -> tuple[NearWords, ...]:
    """For each of the words that were not understood, known ones that are spelt much like it."""
    found = [(said, near_phrases(said, lexicon)) for said in lost]
    return tuple(NearWords(said=said, near=near) for said, near in found if near)


MOST_TRICKS = 3


def _tell_apart(lexicon: Lexicon, understanding: Understanding) -> list[str]:
    """For each reported flavour, what it is taken for and what tells the two apart."""
    tricks = []
    for heard in understanding.heard:
        if heard.state == "reported":
            for confusion in lexicon.cards[heard.descriptor].confused_with[:MOST_TRICKS]:
                name, other = lexicon.cards[heard.descriptor].name, lexicon.cards[confusion.id].name
                tricks.append(f"{name} or {other}? {confusion.trick}")
    return list(dict.fromkeys(tricks))[: 2 * MOST_TRICKS]
