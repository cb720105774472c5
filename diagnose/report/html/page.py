"""The whole page: cautions first, the verdict, the ranking, then what follows from it."""

from html import escape

from diagnose.answers import Diagnosis
from diagnose.answers.background import Background
from diagnose.report.html.advice import after_beer, find_out
from diagnose.report.html.cautions import loud_cautions, quiet_cautions
from diagnose.report.html.parts import with_ways
from diagnose.report.html.path_part import path_part
from diagnose.report.html.ranking import suspects
from diagnose.report.html.record_part import figures, heard, odd
from diagnose.report.html.style import STYLE
from diagnose.report.html.trace_part import trace_part
from diagnose.report.html.what_if_part import what_if_part
from diagnose.report.sheets.frame import opening, page, section

GENERATOR = "faultwort diagnose"
_NAMED = {
    "what_if": "What if",
    "suspects": "Suspects and evidence",
    "path": "How it gets into the glass",
    "ask": "Find out next",
    "do": "What to do",
    "log": "The log",
    "figures": "Figures",
}
_BEHIND = "verdict"
OPENING = opening(GENERATOR)


def diagnosis_html(diagnosis: Diagnosis, background: Background) -> str:
    """A diagnosis as a page: self-contained, the same bytes for the same input.

    Args:
        diagnosis: what to show.
        background: the record's tastings, figures and trace.
    """
    parts = {
        "cautions": loud_cautions(diagnosis.cautions),
        "verdict": section(_verdict_heading(diagnosis), _verdict(diagnosis)),
        "heard": section("Heard", heard(diagnosis, background)),
        "what_if": what_if_part(diagnosis),
        "suspects": suspects(diagnosis, background),
        "path": path_part(diagnosis, background),
        "ask": section("Find out next", find_out(diagnosis)),
        "do": after_beer(diagnosis),
        "log": section("The log", trace_part(background.trace)),
        "odd": section("Looks odd in the record", odd(diagnosis)),
        "figures": section("Temperatures and volumes of the record", figures(background)),
        "notes": quiet_cautions(diagnosis.cautions),
    }
    body = (
        f"<header>{_title(diagnosis, background)}</header>\n"
        f"<main>{with_ways(parts, _NAMED, behind=_BEHIND)}</main>\n"
        f"<footer>{_rules(diagnosis)}</footer>"
    )
    supposed = "" if diagnosis.what_if is None else ", and what if"
    return page(f"Diagnosis: {diagnosis.batch}{supposed}", body, style=STYLE, generator=GENERATOR)


def _title(diagnosis: Diagnosis, background: Background) -> str:
    brewer = f"brewed by {background.brewer}" if background.brewer else ""
    brewed = f"brewed {background.brewed}" if background.brewed else ""
    if brewer and brewed:
        brewed = background.brewed
    line = ", ".join(part for part in (diagnosis.beer, brewer, brewed) if part)
    learned = f"<p>{escape(diagnosis.learned.says)}</p>" if diagnosis.learned else ""
    partly = f"<p>{escape(diagnosis.partly.says)}</p>" if diagnosis.partly else ""
    return f"<h1>{escape(diagnosis.batch)}</h1><p>{escape(line)}</p>{learned}{partly}"


def _verdict_heading(diagnosis: Diagnosis) -> str:
    return "Verdict" if diagnosis.what_if is None else "Verdict on the batch as recorded"


def _verdict(diagnosis: Diagnosis) -> str:
    return f'<p class="verdict">{escape(diagnosis.verdict_text)}</p>'


def _rules(diagnosis: Diagnosis) -> str:
    rules = diagnosis.rules
    return (
        f"<p>Rule base {escape(rules.version)}: {rules.causes} causes, {rules.compounds} "
        f"compounds, {rules.descriptors} flavour words. Chances are those of the rule base, not "
        "of a laboratory.</p>"
    )
