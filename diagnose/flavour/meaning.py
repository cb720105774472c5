"""What one phrase means, be it a flavour or one of the small words round it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import StrEnum

from diagnose.flavour.words import WordsFile

Key = tuple[str, ...]


class Role(StrEnum):
    """The part a phrase plays in a tasting note."""

    DESCRIPTOR = "descriptor"
    INTENSITY = "intensity"
    NEGATION = "negation"
    UNSURE = "unsure"
    FINE = "fine"
    BOTH = "both"
    EITHER = "either"
    TURN = "turn"
    ANEW = "anew"
    CIRCUMSTANCE = "circumstance"
    DURATION = "duration"
    WHERE = "where"
    FILLER = "filler"
    NOT_UNDERSTOOD = "not understood"


@dataclass(frozen=True)
class Meaning:
    """The role of a phrase; `senses` are descriptor ids (likeliest first), `value` is the rest."""

    role: Role
    value: str = ""
    senses: tuple[str, ...] = ()
    brand: bool = False


PART_OF_THE_BEER = Meaning(Role.FILLER, "part_of_the_beer")


def small_phrases(words: WordsFile) -> Iterator[tuple[str, Meaning]]:
    """Every phrase of rules/words.yaml with what it means."""
    for strength in ("faint", "clear", "strong"):
        yield from _each(getattr(words.intensity, strength).words, Role.INTENSITY, strength)
    for reach in ("not_this", "none_of_these", "after_the_word"):
        yield from _each(getattr(words.negations, reach), Role.NEGATION, reach)
    for circumstance, values in words.circumstances.items():
        for value, phrases in values.items():
            yield from _each(phrases, Role.CIRCUMSTANCE, f"{circumstance}={value}")
    for role, phrases in _plain(words).items():
        yield from _each(phrases, role, "")
    for kind, phrases in words.fillers.items():
        yield from _each(phrases, Role.FILLER, kind)
    yield from _each(words.never_a_denial, Role.FILLER, "")


def _plain(words: WordsFile) -> Mapping[Role, tuple[str, ...]]:
    return {
        Role.UNSURE: words.unsure,
        Role.FINE: words.fine,
        Role.BOTH: words.joiners.both,
        Role.EITHER: words.joiners.either,
        Role.TURN: words.joiners.turn,
        Role.ANEW: words.says_anew,
        Role.WHERE: words.where,
    }


def _each(phrases: tuple[str, ...], role: Role, value: str) -> Iterator[tuple[str, Meaning]]:
    for phrase in phrases:
        yield phrase, Meaning(role, value)
