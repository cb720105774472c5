"""Why a text is refused, in one sentence that names what to write instead."""

import re
from dataclasses import dataclass
from typing import Final

from diagnose.errors import UnreadableQuantity
from diagnose.units.field import CARDS, Field

_LONGEST_QUOTE = 60


@dataclass(eq=False)
class Misread(Exception):
    """Inside this room: what stood in the way of reading, and what to write if not the usual."""

    reason: str
    wanted: str = ""


def refusal(typed: str, field: Field, misread: Misread) -> UnreadableQuantity:
    """The error a reader sees for `misread`."""
    card = CARDS[field]
    article = "" if field is Field.PH else "a "
    wanted = misread.wanted or f"{article}{card.name} such as {card.examples}"
    found = quoted(typed) + (f", {misread.reason}" if misread.reason else "")
    return UnreadableQuantity(found, wanted)


def quoted(typed: str) -> str:
    """`typed` in quotes and on one line, cut where it is long."""
    text = " ".join(typed.split())
    return repr(text if len(text) <= _LONGEST_QUOTE else text[: _LONGEST_QUOTE - 3] + "...")


@dataclass(frozen=True)
class _KnownTrouble:
    """Words that are no unit, but of which it is known what the brewer has in hand."""

    field: Field
    words: re.Pattern[str]
    reason: str
    wanted: str


_SPOON = r"(?:tsp|teaspoon|tbsp|tablespoon)s?\b.*|(?:cup|mug|glass|handful|pinch)(?:es|s)?\b.*"
_KNOWN_TROUBLES: Final = tuple(
    _KnownTrouble(field, re.compile(words), reason, wanted)
    for field, words, reason, wanted in (
        (
            Field.MASS,
            _SPOON,
            "a measure by volume",
            "grams on a scale: how much a spoon or a cup holds varies",
        ),
        (
            Field.VOLUME,
            _SPOON,
            "which is no fixed volume",
            "mL from a measuring cylinder: spoons and cups differ from country to country",
        ),
        (
            Field.GRAVITY,
            r"brix|bx|b",
            "which is what a refractometer shows",
            "a hydrometer's SG or P (before the yeast goes in, write Brix as P): "
            "a refractometer reads falsely once beer has fermented",
        ),
        (
            Field.PRESSURE,
            r"(?:psi|bar) ?a(?:bs|bsolute)?",
            "an absolute pressure",
            "the gauge pressure (what the regulator shows), such as 0.8 bar or 12 psi",
        ),
        (
            Field.DURATION,
            r":",
            "which could be hours or minutes",
            "the units written out, as in 1 h 30 min or 1 min 30 s",
        ),
        (
            Field.DURATION,
            r"(?:few|several) .*",
            "which gives no number",
            "a number of them; a guess may be written as about 3 days or as 2-4 days",
        ),
    )
)
_TEASPOON: Final = re.compile(r"(?:tsp|teaspoon)s?\b")
_TEASPOON_GYPSUM_G = (4.0, 4.6)


def unknown_word(word: str, field: Field, count: float) -> Misread:
    """What to say about a word, after the number `count`, that is no unit of `field`.

    Source: the spread of a teaspoon of gypsum, 4.0 to 4.6 g, is that of two tables in
        practitioners' threads; common practice, not measured here.
    """
    for trouble in _KNOWN_TROUBLES:
        if trouble.field is field and trouble.words.fullmatch(word):
            example = _gypsum(word, count) if field is Field.MASS else ""
            return Misread(trouble.reason, trouble.wanted + example)
    return Misread(f"where {word!r} is not a unit of {CARDS[field].name}")


def _gypsum(word: str, count: float) -> str:
    if not _TEASPOON.match(word):
        return ""
    low_g, high_g = (one_g * count for one_g in _TEASPOON_GYPSUM_G)
    return f" ({count:g} tsp of gypsum is {low_g:.1f}-{high_g:.1f} g)"


_ONE_END: Final = re.compile(
    r"(?:<|>|≤|≥|(?:max|min|at least|at most|up to|under|over|below|above|less than|more than)\b)"
)


def no_number(text: str) -> Misread:
    """Text that does not begin with a number."""
    if _ONE_END.match(text):
        return Misread("which gives only one end", "one figure, or both ends of a range")
    return Misread("in which no quantity was recognised")


def ambiguous(typed: str, readings: list[str], what: str) -> Misread:
    """Text with more than one reading, or with one that is not for us to choose: all named."""
    *firsts, last = readings
    could_be = f"could be {', '.join(firsts)} or {last}" if firsts else f"could only be {last}"
    return Misread("", f"{what}: {quoted(typed)[1:-1]} {could_be}")
