"""Text to a reading: the one reading it has, or a refusal that names all of them."""

import re
from typing import Final

from diagnose.units.field import CARDS, Field
from diagnose.units.phrase import Phrase, read_phrase
from diagnose.units.reading import NO_HABITS, Habits, Reading
from diagnose.units.refusal import Misread, ambiguous, refusal
from diagnose.units.senses import Candidate, candidates
from diagnose.units.show import show

_LONGEST_TYPED = 100
_IN_BRACKETS: Final = re.compile(r"(?P<main>[^()]+?)\s*\((?P<second>[^()]+)\)\s*(?P<rest>[^()]*)")
_SIDE_BY_SIDE: Final = re.compile(r"\s*=\s*|(?<=[A-Za-z°℃℉%'#.])\s*/\s*(?=[~+-]?\d)")
_WHOSE_MEASURE: Final = re.compile(
    r"u\.?s\.?(a\.?)?|american|imp(erial|\.)?|u\.?k\.?|british", re.I
)


def read_quantity(typed: str, field: Field, habits: Habits = NO_HABITS) -> Reading:
    """What a brewer typed, in the base unit of its field; nothing is guessed.

    A second figure in brackets or after "=" ("5 gal (19 L)", "68 F = 20 C") must agree with the
    first, and settles which reading of the first is meant.

    Args:
        typed: the text, with its unit: "66 F", "3.5 US gal", "2 lb 8 oz", "1.052", "18-20 C".
        field: what kind of quantity it is.
        habits: what the brewer said once about bare temperatures and about gallons.

    Returns:
        The reading with the typed text; low and high differ only where the text says so.

    Raises:
        UnreadableQuantity: no reading, one beyond the limits of the field, or more than one; the
            message names every reading there is.
    """
    try:
        chosen = _chosen(typed, field, habits)
    except Misread as misread:
        raise refusal(typed, field, misread) from None
    return Reading(typed, chosen.value, chosen.low, chosen.high, field.unit)


def _chosen(typed: str, field: Field, habits: Habits) -> Candidate:
    if len(typed) > _LONGEST_TYPED:
        raise Misread("which is too long for one quantity")
    main, second = _two_figures(typed)
    phrase = read_phrase(main, field)
    found = candidates(phrase, field, habits)
    if second:
        found = _settled(found, phrase, read_phrase(second, field), field=field)
    no_unit = "" in phrase.words and CARDS[field].needs_unit
    known_scale = field is Field.TEMPERATURE and habits.temperature
    settled = second or known_scale or found[0].value == 0  # nothing is nothing in every unit
    if len(found) > 1 or (no_unit and not settled):
        readings = [_named(candidate, field) for candidate in found]
        raise ambiguous(typed, readings, _what_settles(phrase, found))
    return found[0]


def _two_figures(typed: str) -> tuple[str, str]:
    """The figure, and the second one beside it; brackets round "US" belong to the first."""
    bracketed = _IN_BRACKETS.fullmatch(typed.strip())
    if bracketed:
        main, second, rest = bracketed["main"], bracketed["second"], bracketed["rest"]
        if _WHOSE_MEASURE.fullmatch(second.strip()):
            return f"{main} {second} {rest}", ""
        return f"{main} {rest}", second
    first, *others = _SIDE_BY_SIDE.split(typed, maxsplit=1)
    beside = bool(others) and any(sign.isdigit() for sign in first)  # not the "OG = 1.052" kind
    return (first, others[0]) if beside else (typed, "")


def _settled(
    found: list[Candidate], phrase: Phrase, second: Phrase, *, field: Field
) -> list[Candidate]:
    """The readings that agree with the figure beside them, which outweighs a habit."""
    # At a limit, the second figure may be rounded to just beyond it: "0.980 (-5.3 P)".
    seconds = candidates(second, field, NO_HABITS, limited=False)
    agreeing = _agreeing(found, seconds)
    agreeing = agreeing or _agreeing(candidates(phrase, field, NO_HABITS), seconds)
    if not agreeing:
        both = f"{_named(found[0], field)} and {_named(seconds[0], field)}"
        raise Misread(f"whose two figures differ ({both})", "figures that agree, or one of them")
    return agreeing


def _agreeing(found: list[Candidate], seconds: list[Candidate]) -> list[Candidate]:
    return [one for one in found if any(_agree(one, second) for second in seconds)]


def _agree(first: Candidate, second: Candidate) -> bool:
    """Whether two figures are the same within their last digits, the second perhaps cut short."""
    room = first.step / 2 + second.step
    pairs = [(first.value, second.value)]
    if first.low < first.high and second.low < second.high:
        pairs += [(first.low, second.low), (first.high, second.high)]
    return all(abs(one - other) <= room * (1 + 1e-9) for one, other in pairs)


def _named(candidate: Candidate, field: Field) -> str:
    """A candidate with its unit and, where that is another, what it is in the base unit."""
    if candidate.scales == {field.unit} or field is Field.DURATION:
        return candidate.said
    reading = Reading("", candidate.value, candidate.low, candidate.high, field.unit)
    shown = re.sub(r"\.0(?= )", "", show(reading, field, both=False))
    return candidate.said if shown == candidate.said else f"{candidate.said} ({shown})"


def _what_settles(phrase: Phrase, found: list[Candidate]) -> str:
    if "" in phrase.words:
        return "the unit beside it"
    scales = frozenset[str]().union(*(candidate.scales for candidate in found))
    if any(scale.startswith("US ") for scale in scales):
        return "US or imperial beside it"
    if len(scales) > len(phrase.words):
        return "the unit spelt out"
    return "a point as the decimal mark and no comma"
