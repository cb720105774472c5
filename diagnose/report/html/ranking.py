"""The suspects: bars with their percentages, then the evidence for and against each."""

from html import escape

from diagnose.answers import Diagnosis, EvidenceLine, FaultGroup, RankedCause
from diagnose.answers.background import Background
from diagnose.answers.chances import chance_words, percent
from diagnose.report.diagnosis_page import is_worth_a_line, pair_words, with_all_words
from diagnose.report.html.bars import share_bar
from diagnose.report.html.parts import capital
from diagnose.report.html.path_part import path_words
from diagnose.report.html.weights import weight_words
from diagnose.report.sheets.frame import items, section, text

SHOWN = 5
LEAST_NAMED = 0.01


def suspects(diagnosis: Diagnosis, background: Background) -> str:
    """Every group of words with what may be behind it, and what happened beside it."""
    groups = "".join(
        section(
            f"What may be behind {', '.join(group.names)}",
            _bars(group) + "".join(_all_evidence(group, background)),
        )
        for group in diagnosis.faults
    )
    pairs = items(pair_words(pair) for pair in diagnosis.pairs) if diagnosis.pairs else ""
    groups += section("Two causes at once", pairs)
    return groups + section("Happened perhaps, but does not make this", _bystanders(diagnosis))


def _bystanders(diagnosis: Diagnosis) -> str:
    lines = [
        f"{one.name} ({percent(one.happened)} that it happened)" for one in diagnosis.bystanders
    ]
    return items(lines) if lines else ""


def _bars(group: FaultGroup) -> str:
    bars = "".join(
        share_bar(f"{place}. {one.name}", one.responsible, one.responsible_range)
        for place, one in enumerate(group.causes[:SHOWN], start=1)
    )
    bars += share_bar("This beer brings it by itself", group.expected_here)
    bars += share_bar("Something unknown here, or nothing at all", group.not_in_rule_base)
    rest = [
        f"{one.name} ({percent(one.responsible)})"
        for one in group.causes[SHOWN:]
        if one.responsible >= LEAST_NAMED
    ]
    others = text(f"Less likely: {'; '.join(rest)}.") if rest else ""
    return f'<ol class="ranking">{bars}</ol>{others}'


def _all_evidence(group: FaultGroup, background: Background) -> list[str]:
    return [
        f"<article><h3>{place}. {escape(one.name)}</h3>{_evidence(one, background)}</article>"
        for place, one in enumerate(group.causes[:SHOWN], start=1)
    ]


def _evidence(cause: RankedCause, background: Background) -> str:
    speaking = [line for line in cause.evidence if is_worth_a_line(line)]
    silent = "" if speaking else text("Nothing in the record speaks for or against it.")
    behind = f"{chance_words(cause.responsible)} to be behind it"
    first = f"{behind}; {percent(cause.happened)} that it happened at all."
    held = cause.responsible_with_all
    return (
        text(capital(first))
        + (text(f"{capital(with_all_words(held))}.") if held else "")
        + silent
        + _side("For", [line for line in speaking if line.decibans > 0])
        + _side("Against", [line for line in speaking if line.decibans < 0])
        + _listed("How it gets there", path_words(cause.name, cause.paths, background))
        + _listed("It would fall if", cause.overturned_by)
        + _listed("It is wrong to blame it", (cause.wrong_to_blame,))
    )


def _side(name: str, lines: list[EvidenceLine]) -> str:
    return _listed(name, [f"{line.text} \u2013 {weight_words(line.decibans)}" for line in lines])


def _listed(name: str, lines: tuple[str, ...] | list[str]) -> str:
    return f'<p class="side">{name}</p>{items(map(capital, lines))}' if any(lines) else ""
