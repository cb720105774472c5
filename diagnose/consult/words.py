"""How words are understood, as an answer."""

from diagnose.answers import DoubtLine, Understood, WordsAnswer
from diagnose.flavour import Heard, Lexicon, Understanding


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
        noted=understanding.notes,
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
