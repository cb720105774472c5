"""Sentences about difference tests."""

from math import isfinite

from diagnose.answers.chances import percent
from diagnose.sensory import (
    STRONG_FACTOR,
    Estimate,
    Method,
    Reading,
    bayes_reading,
    fewest_answers,
)

_TIMES = (
    (0.97, "nearly every time"),
    (0.95, "about nineteen times in twenty"),
    (0.9, "about nine times in ten"),
    (0.8, "about four times in five"),
    (0.75, "about three times in four"),
    (2 / 3, "about two times in three"),
    (0.5, "about every second time"),
    (1 / 3, "about one time in three"),
    (0.25, "about one time in four"),
    (0.2, "about one time in five"),
    (0.1, "about one time in ten"),
    (0.05, "about one time in twenty"),
    (0.02, "hardly ever"),
)
_SHARES = ((0.25, "a quarter of the tasters"), (1 / 3, "a third of the tasters"))
_SHARE_WORDS = (*_SHARES, (0.5, "half the tasters"), (2 / 3, "two thirds of the tasters"))
SHOWN_BY_FEW = "shown, but by too few to rely on"
# The intervals are stricter than the verdict, so that one may reach nothing where the other does
# not; nothing is then the end of the interval, and not what the answers fit.
_STRICTER = " (95 % interval: stricter than the verdict's alpha)"
# Bands of the Bayes factor in the manner of Jeffreys, from memory.
_BANDS = (
    (30.0, "very strong"),
    (STRONG_FACTOR, "strong"),
    (3.0, "moderate"),
    (1.0, "hardly any"),
)


def times_words(chance: float) -> str:
    """A chance as how often: 0.35 is "about one time in three"."""
    return min(_TIMES, key=lambda pair: abs(pair[0] - chance))[1]


def share_words(able: float) -> str:
    """A share of tasters: "half the tasters", "30 % of the tasters"."""
    for value, words in _SHARE_WORDS:
        if abs(able - value) < 0.005:
            return words
    return f"{percent(able)} of the tasters"


def p_words(p: float) -> str:
    """A p-value with the figures that it deserves."""
    return "p under 0.001" if p < 0.001 else f"p = {p:.2g}"


def verdict_words(method: Method, reading: Reading) -> str:
    """The verdict in one sentence that never takes silence for proof."""
    taste = f"a difference {share_words(reading.able_that_matters)} could taste"
    few = is_few(method, reading.answers)
    if reading.verdict == "shown":
        relied = SHOWN_BY_FEW if few else "shown"
        return f"{relied}; luck alone does as well {_luck_words(reading.p)}"
    if reading.verdict == "shown_but_small":
        return f"shown, but small; {taste} is ruled out ({p_words(reading.p_similar)})"
    if reading.verdict == "ruled_out":
        chance = _luck_words(reading.p_similar)
        if few:
            return f"not {SHOWN_BY_FEW}; {taste} would give so few right answers {chance}"
        return f"not shown, and {taste} is ruled out; it would give so few right answers {chance}"
    if reading.limit.least_right is None:
        return f"not shown; {reading.answers} answers are too few to show any difference"
    return f"not shown; {taste} would still be missed {times_words(reading.missed)}"


def _luck_words(p: float) -> str:
    if p < 0.001:
        return "less than one time in a thousand"
    return f"about one time in {1.0 / p:.0f}"


def dprime_words(dprime: Estimate, *, shown: bool) -> str:
    """How far apart the beers taste, from what the answers allow.

    Args:
        dprime: the distance with its interval, which allows 2.5 % of luck on either side.
        shown: whether the verdict, which allows the risk that was chosen, shows a difference.
    """
    top = f"up to {dprime.high:.1f}" if isfinite(dprime.high) else "without an upper end"
    if dprime.low <= 0.0 and shown:
        return f"the answers fit any d' {top}; how small it may be they leave open{_STRICTER}"
    if dprime.low <= 0.0:
        return f"the answers fit no difference and any d' {top}"
    if not shown:
        return f"the answers fit best from d' {dprime.low:.1f} {top}, but luck may give them too"
    return f"the answers fit d' from {dprime.low:.1f} {top}"


def able_words(able: Estimate, *, shown: bool) -> str:
    """How many tasters can tell, from what the answers allow; arguments as for `dprime_words`."""
    if able.low <= 0.0 and shown:
        return (
            f"the answers fit up to {percent(able.high)} of tasters able to tell; how few it may "
            f"be they leave open{_STRICTER}"
        )
    if able.low <= 0.0:
        return f"the answers fit nobody able to tell and any share up to {percent(able.high)}"
    return f"the answers fit {percent(able.low)} to {percent(able.high)} of tasters able to tell"


def bayes_words(factor: float) -> str:
    """What a Bayes factor says."""
    times = max(factor, 1.0 / factor)
    strength = next(word for floor, word in _BANDS if times >= floor)
    which = "for" if factor >= 1.0 else "against"
    return f"{strength} evidence {which} a difference"


def is_few(method: Method, answers: int) -> bool:
    """Whether not even a perfect score of so many answers is strong evidence."""
    return answers < fewest_answers(method)


def few_words(method: Method, answers: int) -> str:
    """How little so few answers can show; empty where they are enough."""
    if not is_few(method, answers):
        return ""
    best = bayes_reading(method, answers, answers).factor if answers else 1.0
    number = f"{answers} answer is" if answers == 1 else f"{answers} answers are"
    return (
        f"{number} too few to rely on: a perfect score would be {bayes_words(best)} (Bayes factor "
        f"{best:.1f}), no more; {fewest_answers(method)} are the fewest that can be strong evidence"
    )


def limit_words(method: Method, answers: int, least: int | None, exact_alpha: float) -> str:
    """The limit in one sentence."""
    if least is None:
        return f"with {answers} answers not even a perfect score would show a difference"
    who = "for one and the same beer" if method.two_sided else "right"
    return f"{least} of {answers} {who} show a difference; true risk {percent(exact_alpha)}"
