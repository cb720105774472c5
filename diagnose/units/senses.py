"""Every reading a phrase could have: one for each way of taking its words and its commas."""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise, product

from diagnose.units.bare import units_of_bare
from diagnose.units.conversions import celsius_from_fahrenheit
from diagnose.units.field import CARDS, Field, FieldCard
from diagnose.units.number import Number
from diagnose.units.phrase import Phrase, Side, Term
from diagnose.units.reading import Habits
from diagnose.units.refusal import Misread
from diagnose.units.vocabulary import Unit, units_called

# Fields in which two terms add up ("2 lb 8 oz"), and fields whose limits are nature's, so that
# a comma may be settled by them ("18,500 C" cannot be 18500 C; "12,500 L" may well be 12500 L).
_ADDING_UP = (Field.VOLUME, Field.MASS, Field.DURATION)
_SETTLED_BY_NATURE = (Field.TEMPERATURE, Field.GRAVITY, Field.PH, Field.PERCENT, Field.CARBONATION)
# Rounding in conversions may put a reading at a limit a hair beyond it.
_HAIR = 1e-9


@dataclass(frozen=True)
class Sense:
    """One way of taking a phrase: a unit for every word, and what a comma is."""

    units: Mapping[str, Unit]
    comma_groups_thousands: bool

    def value(self, number: Number) -> float:
        """The value of a written number in this sense."""
        if self.comma_groups_thousands and number.thousands is not None:
            return number.thousands
        return number.decimal


@dataclass(frozen=True)
class Candidate:
    """One reading of a phrase, in the base unit; `said` spells its units out.

    `step` is the size of the last digit written, in the base unit.
    """

    value: float
    low: float
    high: float
    step: float
    said: str
    scales: frozenset[str]


def candidates(
    phrase: Phrase, field: Field, habits: Habits, *, limited: bool = True
) -> list[Candidate]:
    """Every distinct reading of `phrase`, within the limits of its field if `limited`.

    Raises:
        Misread: there is none.
    """
    found: list[Candidate] = []
    problems: list[Misread] = []
    for sense in _senses(phrase, field, habits):
        try:
            candidate = _evaluated(phrase, sense, field)
            if limited and (field in _SETTLED_BY_NATURE or not sense.comma_groups_thousands):
                _check_limits(candidate, field)
        except Misread as misread:
            problems.append(misread)
            continue
        if not any(_same(candidate, other) for other in found):
            found.append(candidate)
    if not found:
        raise problems[0]
    return found


def _senses(phrase: Phrase, field: Field, habits: Habits) -> Iterator[Sense]:
    choices = [_units(word, phrase, field=field, habits=habits) for word in phrase.words]
    numbers = [term.number for side in phrase.sides for term in side]
    two_commas = any(number.thousands is not None for number in numbers)
    for chosen in product(*choices):
        if len({unit.system for unit in chosen} - {""}) > 1:
            continue
        units = dict(zip(phrase.words, chosen, strict=True))
        for grouped in (False, True) if two_commas else (False,):
            yield Sense(units, grouped)


def _units(word: str, phrase: Phrase, *, field: Field, habits: Habits) -> list[Unit]:
    found = list(units_called(word, field)) if word else _units_of_all_bare(phrase, field)
    system = phrase.system or habits.measures
    if system:
        found = [unit for unit in found if unit.system in ("", system)]
    if not word and field is Field.TEMPERATURE and habits.temperature:
        found = [unit for unit in found if unit.name == habits.temperature]
    return found


def _units_of_all_bare(phrase: Phrase, field: Field) -> list[Unit]:
    options = [units_of_bare(number, field) for number in phrase.bare_numbers]
    return list(dict.fromkeys(unit for units in options for unit in units))


def _evaluated(phrase: Phrase, sense: Sense, field: Field) -> Candidate:
    card = CARDS[field]
    ends = [_side_value(side, sense, field) for side in phrase.sides]
    low, high = ends[0], ends[-1]
    if high < low:
        raise Misread("whose second figure is the lower", "the lower figure first, or one figure")
    value = (low + high) / 2 if len(ends) > 1 else low
    last = phrase.sides[-1][-1]
    unit = sense.units[last.word]
    step = last.number.step * unit.scale + unit.doubt
    if phrase.spread:
        low, high = _inside(*_spread(value, phrase, sense=sense, field=field), card, value=value)
    elif phrase.about:
        width = max(card.about_width(value), step / 2)
        low, high = _inside(low - width, high + width, card, value=value)
    scales = frozenset(unit.name for unit in sense.units.values())
    return Candidate(value, low, high, step, _said(phrase, sense), scales)


def _side_value(side: Side, sense: Sense, field: Field) -> float:
    units = [sense.units[term.word] for term in side]
    if len(side) > 1:
        if field not in _ADDING_UP:
            raise Misread("which has two figures in it")
        if not all(term.word for term in side):
            raise Misread("where one figure has no unit")
        if any(larger.scale <= smaller.scale for larger, smaller in pairwise(units)):
            raise Misread("whose units do not go from large to small")
    numbers = [sense.value(term.number) for term in side]
    return math.fsum(unit.base(number) for unit, number in zip(units, numbers, strict=True))


def _spread(value: float, phrase: Phrase, *, sense: Sense, field: Field) -> tuple[float, float]:
    """The ends of "20 C +/- 1"; a spread is a difference, so 2 F is 1.1 C here."""
    if phrase.spread is None or len(phrase.sides) > 1:
        raise Misread("which has both a range and a +/- in it")
    width, unit = sense.value(phrase.spread.number), sense.units[phrase.spread.word]
    if phrase.spread_in_percent:
        if field in _SETTLED_BY_NATURE:
            raise Misread(f"where a share of a {CARDS[field].name} means nothing")
        return value * (1 - width / 100), value * (1 + width / 100)
    side = phrase.sides[0]
    if len(side) == 1 and side[0].word == phrase.spread.word:
        number = sense.value(side[0].number)
        return unit.base(number - width), unit.base(number + width)
    return value - width * unit.scale, value + width * unit.scale


def _inside(low: float, high: float, card: FieldCard, *, value: float) -> tuple[float, float]:
    """The ends cut at the limits of the field, never past the value itself."""
    return min(max(low, card.low), value), max(min(high, card.high), value)


def _check_limits(candidate: Candidate, field: Field) -> None:
    card = CARDS[field]
    hair = _HAIR * max(1.0, abs(card.high))
    if card.low - hair <= candidate.low and candidate.high <= card.high + hair:
        return
    unit = "" if field is Field.PH else f" {field.unit}"
    beyond = candidate.low if candidate.low < card.low else candidate.high
    reason = "" if candidate.scales == {field.unit} else f"which is {beyond:.4g}{unit}"
    if card.low == 0 and beyond < 0:
        raise Misread(reason, f"a {card.name} that is not below zero")
    wanted = f"a {card.name} between {card.low:.12g} and {card.high:.12g}{unit}"
    if field is Field.TEMPERATURE and candidate.scales == {"C"}:
        wanted += _as_fahrenheit(candidate, card.high)
    raise Misread(reason, wanted)


def _as_fahrenheit(candidate: Candidate, highest_c: float) -> str:
    """The question to ask of "152 C", where only 152 F can be meant."""
    meant_c = celsius_from_fahrenheit(candidate.high)
    if candidate.low < candidate.high or candidate.low < 0 or meant_c > highest_c:
        return ""
    return f"; did you mean {candidate.high:.4g} F ({meant_c:.3g} C)?"


def _said(phrase: Phrase, sense: Sense) -> str:
    """The phrase with its units spelt out: "5 US gal", "2 lb 8 oz", "18-20 C"."""
    sides = [" ".join(_said_term(term, sense) for term in side) for side in phrase.sides]
    first, last = phrase.sides[0], phrase.sides[-1]
    if len(sides) > 1 and len(first) == len(last) == 1 and first[0].word == last[0].word:
        sides[0] = f"{sense.value(first[0].number):.12g}"
    return "-".join(sides)


def _said_term(term: Term, sense: Sense) -> str:
    return f"{sense.value(term.number):.12g} {sense.units[term.word].name}".rstrip()


def _same(one: Candidate, other: Candidate) -> bool:
    pairs = ((one.value, other.value), (one.low, other.low), (one.high, other.high))
    return all(math.isclose(a, b, rel_tol=1e-9, abs_tol=1e-12) for a, b in pairs)
