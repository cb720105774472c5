"""Reading a tasting: what it shows, and what it could have missed."""

from dataclasses import dataclass
from math import isfinite
from pathlib import Path

from diagnose.answers.panels import BayesLine, PanelRead, Span
from diagnose.consult.panel_counts import counts_each, counts_in_file
from diagnose.consult.panel_rounds import about_rounds, read_by_evening, tasters_line
from diagnose.consult.panel_single import read_rated, read_single_glasses
from diagnose.consult.panel_words import (
    able_words,
    bayes_words,
    dprime_words,
    few_words,
    is_few,
    limit_words,
    verdict_words,
)
from diagnose.consult.type_next import after_panel
from diagnose.documents import read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.sensory import (
    A_NOT_A,
    METHODS,
    SHOWN,
    USUAL_ABLE,
    USUAL_ALPHA,
    Estimate,
    Method,
    Reading,
    name_of_test,
    read_rounds,
    read_tasting,
)

WRITTEN_DOWN = "holds only if it was written down before pouring which beer has more of it"
# Fewer right answers than luck gives once in so many tastings point to a mixed-up key.
_SUSPICIOUS = 0.05
Counts = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class ReadAsked:
    """A tasting as it was told: in all, by taster, by evening, or as ratings."""

    test: str
    correct: int | None = None
    of: int | None = None
    alpha: float = USUAL_ALPHA
    discriminators: float = USUAL_ABLE
    each: str | None = None
    replicates: Path | None = None
    evenings: str | None = None
    false_alarms: str | None = None
    ratings: str | None = None
    control: str | None = None


def read_panel(asked: ReadAsked) -> PanelRead:
    """A tasting read.

    Raises:
        UnusableInput: something told that cannot be.
    """
    answer = _read(asked)
    return answer.model_copy(update={"type_next": after_panel(answer)})


def _read(asked: ReadAsked) -> PanelRead:
    test = name_of_test(asked.test)
    if test == A_NOT_A:
        return read_single_glasses(_total(asked, ()), asked.false_alarms, asked.alpha)
    if test not in METHODS:
        return read_rated(asked.ratings, asked.control, asked.alpha)
    method = METHODS[test]
    if asked.evenings is not None:
        return read_by_evening(method, asked.evenings, asked.alpha, asked.discriminators)
    return _forced_choice(method, _by_taster(asked), asked)


def _by_taster(asked: ReadAsked) -> Counts:
    if asked.each is not None and asked.replicates is not None:
        wanted = "either --each or --replicates"
        raise UnusableInput(Fault("panel", 0, "", "answers by taster twice", wanted))
    if asked.replicates is not None:
        return counts_in_file(str(asked.replicates), read_text(asked.replicates))
    return counts_each(asked.each) if asked.each is not None else ()


def _total(asked: ReadAsked, counts: Counts) -> tuple[int, int]:
    told = (asked.correct, asked.of)
    summed = tuple(map(sum, zip(*counts, strict=True))) if counts else None
    if summed is not None and told in ((None, None), summed):
        return summed[0], summed[1]
    if summed is not None:
        found = f"{told[0]} of {told[1]} beside tasters with {summed[0]} of {summed[1]}"
        raise UnusableInput(Fault("panel", 0, "correct", found, "counts that agree"))
    if asked.correct is None or asked.of is None:
        wanted = "--correct and --of, such as --correct 5 --of 9"
        raise UnusableInput(Fault("panel", 0, "", "no count", wanted))
    return asked.correct, asked.of


def _forced_choice(method: Method, counts: Counts, asked: ReadAsked) -> PanelRead:
    right, answers = _total(asked, counts)
    matters = {"alpha": asked.alpha, "able_that_matters": asked.discriminators}
    if counts:
        reading, tasters = read_rounds(method, counts, **matters), tasters_line(method, counts)
        rounds = about_rounds(method, asked.alpha, tasters)
    else:
        reading, tasters, rounds = read_tasting(method, right, answers, **matters), None, ()
    shown = reading.verdict in SHOWN
    return PanelRead(
        test=method.id,
        name=method.name,
        given=f"{right} of {answers} {'for one beer' if method.two_sided else 'right'}",
        correct=right,
        of=answers,
        alpha=asked.alpha,
        p=reading.p,
        least_correct=reading.limit.least_right,
        exact_alpha=reading.limit.exact_alpha,
        verdict=reading.verdict,
        says=verdict_words(method, reading),
        able_that_matters=reading.able_that_matters,
        missed=reading.missed,
        p_similar=reading.p_similar,
        dprime=_span(reading.dprime, dprime_words(reading.dprime, shown=shown)),
        able=_span(reading.able, able_words(reading.able, shown=shown)),
        bayes=bayes_lines(reading),
        tasters=tasters,
        remarks=(*_remarks(method, reading), *rounds),
        too_few=is_few(method, answers),
    )


def bayes_lines(reading: Reading) -> tuple[BayesLine, ...]:
    """The Bayes factors of a reading, each with its prior and what it says."""
    return tuple(
        BayesLine(prior_spread=one.prior_spread, factor=one.factor, says=bayes_words(one.factor))
        for one in reading.bayes
    )


def _span(estimate: Estimate, says: str) -> Span:
    ends = (estimate.low, estimate.value, estimate.high)
    low, value, high = (end if isfinite(end) else None for end in ends)
    return Span(low=low, value=value, high=high, says=says)


def _remarks(method: Method, reading: Reading) -> tuple[str, ...]:
    limit = reading.limit
    found = [limit_words(method, limit.answers, limit.least_right, limit.exact_alpha)]
    few = few_words(method, limit.answers)
    if few:
        found.append(few)
    if reading.verdict == "not_shown":
        found.append("not shown is not 'no difference'")
    if not method.two_sided and reading.p_fewer <= _SUSPICIOUS:
        found.append("fewer right than luck gives: check the key and the codes")
    if method.directed and not method.two_sided:
        found.append(WRITTEN_DOWN)
    found.append("shares of tasters who can tell do not compare between tests; d' does")
    return tuple(found)
