"""Plain text taken apart: ends of a range, terms ("2 lb 8 oz"), give and take, "about"."""

import re
from dataclasses import dataclass, replace
from typing import Final

from diagnose.units.field import Field
from diagnose.units.number import NUMBER, Number, read_number
from diagnose.units.reading import System
from diagnose.units.refusal import Misread, no_number, unknown_word
from diagnose.units.tidy import tidied
from diagnose.units.vocabulary import HOURS, units_called

_RANGE: Final = re.compile(
    r"\s+to\s+|(?<=\d)to(?=\d)|\s*\.{2,3}\s*"
    r"|(?<=[\w°%'#])(?<!\de)\s*-\s*(?=[+-]?[\d.,])"
)
_BEFORE_UNIT = r"(?=$|[^a-z]|gal|pt|pint|qt|quart|fl|oz|liq|barrel|bbl)"
_SYSTEMS: Final[tuple[tuple[System, re.Pattern[str]], ...]] = (
    ("US", re.compile(rf"(?<![a-z])(?:u\.?s\.?(?:a\.?)?|american){_BEFORE_UNIT}")),
    ("imperial", re.compile(rf"(?<![a-z])(?:imp(?:erial|\.)?|u\.?k\.?|british){_BEFORE_UNIT}")),
)
_DEGREE = re.compile(r"^(?:°|degrees?|deg)\s*")


@dataclass(frozen=True)
class Term:
    """One number and the unit word after it; the word is empty where none was written."""

    number: Number
    word: str


Side = tuple[Term, ...]


@dataclass(frozen=True)
class Phrase:
    """One quantity as written: one side, or the two ends of a range.

    `spread` is what stands after the +/- sign, `spread_in_percent` whether it is a share of the
    value.
    """

    sides: tuple[Side, ...]
    spread: Term | None
    spread_in_percent: bool
    about: bool
    system: System | None

    @property
    def words(self) -> tuple[str, ...]:
        """Every distinct unit word, in the order written."""
        found = [term.word for side in self.sides for term in side]
        return tuple(dict.fromkeys([*found, *([self.spread.word] if self.spread else [])]))

    @property
    def bare_numbers(self) -> tuple[Number, ...]:
        """The numbers that stand without a unit."""
        return tuple(term.number for side in self.sides for term in side if not term.word)


def read_phrase(part: str, field: Field) -> Phrase:
    """Text without brackets to its parts.

    Raises:
        Misread: no number, an unknown word, or more than one range.
    """
    plain = tidied(part, field)
    text, system = _without_system(plain.text) if field is Field.VOLUME else (plain.text, None)
    main, *spreads = text.split("±")
    ends = _RANGE.split(main.strip())
    if len(spreads) > 1 or len(ends) > 2:
        raise Misread("which has more than one range in it")
    sides = tuple(_side(end, field) for end in ends)
    spread, in_percent = _spread(spreads[0], field) if spreads else (None, False)
    return _sharing_units(Phrase(sides, spread, in_percent, plain.about, system), field)


def _without_system(text: str) -> tuple[str, System | None]:
    named: list[System] = []
    for system, pattern in _SYSTEMS:
        text, times = pattern.subn(" ", text)
        named += [system] if times else []
    if len(named) > 1:
        raise Misread("which names both US and imperial measures")
    return text.replace("liquid", "").replace("liq", ""), named[0] if named else None


def _side(text: str, field: Field) -> Side:
    sign = -1 if text.lstrip().startswith("-") else 1
    text = text.strip().lstrip("+-").strip()
    matches = list(NUMBER.finditer(text))
    if not matches or matches[0].start() != 0:
        raise no_number(text)
    stops = [*(match.start() for match in matches[1:]), len(text)]
    terms: list[Term] = []
    for match, stop in zip(matches, stops, strict=True):
        number = read_number(match)
        if number is None:
            raise Misread(f"where {match[0].strip()!r} is not a number")
        word = _unit_word(text[match.end() : stop], field)
        if word and not units_called(word, field):
            raise unknown_word(word, field, number.decimal)
        terms.append(_minutes_after_hours(Term(number, word), terms, field))
    return tuple(_negative(term) for term in terms) if sign < 0 else tuple(terms)


def _unit_word(text: str, field: Field) -> str:
    word = " ".join(text.replace(".", "").replace(",", " ").strip(" -").split())
    if field in (Field.TEMPERATURE, Field.GRAVITY):
        return _DEGREE.sub("", word)
    return word


def _minutes_after_hours(term: Term, before: list[Term], field: Field) -> Term:
    """The 30 of "1 h 30" is minutes; nothing else is taken for granted so."""
    if term.word or field is not Field.DURATION or not before:
        return term
    after_hours = units_called(before[-1].word, field) == (HOURS,)
    return replace(term, word="min") if after_hours else term


def _negative(term: Term) -> Term:
    number = term.number
    thousands = None if number.thousands is None else -number.thousands
    return replace(term, number=replace(number, decimal=-number.decimal, thousands=thousands))


def _spread(text: str, field: Field) -> tuple[Term, bool]:
    in_percent = "%" in text and field is not Field.PERCENT
    side = _side(text.replace("%", "") if in_percent else text, field)
    if len(side) > 1 or side[0].number.decimal < 0:
        raise Misread("where one figure was expected after +/-")
    return side[0], in_percent


def _sharing_units(phrase: Phrase, field: Field) -> Phrase:
    """A bare end of a range has the unit of the other end, a bare spread that of the figure."""
    first, last = phrase.sides[0], phrase.sides[-1]
    if len(first) == 1 and len(last) == 1:
        word = last[0].word or first[0].word
        if not word and phrase.spread and field is not Field.GRAVITY:
            word = phrase.spread.word
        sides = tuple((_in_unit(side[0], word),) for side in phrase.sides)
        phrase = replace(phrase, sides=sides)
    if phrase.spread:
        phrase = replace(phrase, spread=_in_unit(phrase.spread, phrase.sides[-1][-1].word))
    return phrase


def _in_unit(term: Term, word: str) -> Term:
    return term if term.word else replace(term, word=word)
