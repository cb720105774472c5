"""Typed text cut into words, each with what stood before it."""

import re
import unicodedata
from dataclasses import dataclass
from enum import IntEnum

_WORD = re.compile(r"\d+(?:[.,]\d+)*|[&+]|[^\s&+,;:.!?()\[\]{}\"“”„«»/\\|*~=<>…–—‒‑-]+")
_QUOTES = "'’‘`´"


class Gap(IntEnum):
    """What separates a word from the one before it, weakest first."""

    NONE = 0
    SLASH = 1
    COMMA = 2
    HARD = 3


@dataclass(frozen=True)
class Token:
    """One word: as typed, folded for matching, and the gap before it."""

    typed: str
    folded: str
    gap: Gap


def cut_into_words(text: str) -> tuple[Token, ...]:
    """The words of `text` in order; punctuation survives only as gaps."""
    text = unicodedata.normalize("NFKC", text)
    tokens: list[Token] = []
    end = 0
    for match in _WORD.finditer(text):
        typed = match.group().strip(_QUOTES)
        if not typed:
            continue
        tokens.append(Token(typed, fold(typed), gap_of(text[end : match.start()])))
        end = match.end()
    return tuple(tokens)


def fold(word: str) -> str:
    """A word without case, accents and apostrophes; never empty."""
    parts = unicodedata.normalize("NFKD", word.casefold())
    bare = "".join(c for c in parts if not unicodedata.combining(c) and c not in _QUOTES)
    return bare or word


def gap_of(between: str) -> Gap:
    """How strongly the characters between two words part them."""
    if re.search(r"[;!\n()\[\]{}]|\.(?=\s|$)", between):
        return Gap.HARD
    if re.search(r"[,:?…–—\"“”]|\s-+\s|--", between):
        return Gap.COMMA
    return Gap.SLASH if re.search(r"[/\\|]", between) else Gap.NONE
