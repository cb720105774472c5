"""One batch of the history as a page: what was said of it, its log, its record, its versions."""

from html import escape

from diagnose.answers.history_page import BatchPage, DiagnosedLine, TastedLine
from diagnose.report.html.bars import share_bar
from diagnose.report.html.cautions import loud_cautions, quiet_cautions
from diagnose.report.html.history_notes_part import splits_part, verdicts_part
from diagnose.report.html.history_page import GENERATOR
from diagnose.report.html.parts import with_ways
from diagnose.report.html.quantities import unbroken
from diagnose.report.html.record_part import entry_words
from diagnose.report.html.style import STYLE
from diagnose.report.html.tables import table
from diagnose.report.html.trace_part import trace_part
from diagnose.report.sheets.frame import items, page, section, text

_NAMED = {
    "tastings": "Tastings",
    "verdicts": "Verdicts",
    "diagnoses": "Diagnoses",
    "log": "The log",
    "record": "The record",
    "versions": "Versions",
}
_ENTRIES = ("Entry", "As typed", "In both systems")
_TASTED = ("Taster", "Words", "Taken for")


def batch_html(batch: BatchPage) -> str:
    """A batch as a page: self-contained, the same bytes for the same input.

    Args:
        batch: what to show.
    """
    parts = {
        "remarks": section("Remarks", items(batch.remarks) if batch.remarks else ""),
        "tastings": section("Tastings", _tastings(batch)),
        "verdicts": verdicts_part(batch.verdicts),
        "diagnoses": section("Diagnoses, oldest first", "".join(map(_diagnosed, batch.diagnoses))),
        "splits": splits_part(batch.splits),
        "panels": section("Panels", items(batch.panels) if batch.panels else ""),
        "log": section("The log", trace_part(batch.trace)),
        "record": section("The record", _record(batch)),
        "versions": section("Versions, oldest first", _versions(batch)),
        "notes": quiet_cautions(batch.cautions),
    }
    state = " It is withdrawn: no list or chart counts it." if batch.withdrawn else ""
    brewed = f", brewed {batch.brewed_on}" if batch.brewed_on else ""
    head = f"<h1>{escape(batch.name)}</h1>{text(f'{batch.key}{brewed}.{state}')}"
    body = (
        f"<header>{head}</header>\n"
        f"<main>{loud_cautions(batch.cautions)}{with_ways(parts, _NAMED)}</main>\n"
        "<footer><p>From the flaw history; nothing in it is ever overwritten.</p></footer>"
    )
    return page(f"Batch: {batch.name}", body, style=STYLE, generator=GENERATOR)


def _tastings(batch: BatchPage) -> str:
    if not batch.tastings:
        return text("Nobody has tasted it yet.")
    return table(
        "Who tasted what, and what it was taken for", _TASTED, map(_tasted, batch.tastings)
    )


def _tasted(one: TastedLine) -> tuple[str, ...]:
    who = "<br>".join(escape(part) for part in (one.who or "someone", one.when) if part)
    return who, f"\u201c{escape(one.words)}\u201d", escape(one.taken_for)


def _diagnosed(one: DiagnosedLine) -> str:
    bars = "".join(share_bar(suspect.name, suspect.share) for suspect in one.suspects)
    ranking = f'<ol class="ranking">{bars}</ol>' if bars else ""
    head = f"<h3>{escape(one.on)}, by rule base {escape(one.rules)}</h3>"
    return f"<article>{head}{text(one.verdict)}{ranking}</article>"


def _record(batch: BatchPage) -> str:
    if not batch.entries:
        return ""
    rows = (
        (escape(entry_words(one.key)), escape(one.typed), escape(unbroken(one.both)))
        for one in batch.entries
    )
    return table("Every entry of the current version", _ENTRIES, rows)


def _versions(batch: BatchPage) -> str:
    return "".join(
        text(one.what) + (items(one.changes) if one.changes else "") for one in batch.versions
    )
