"""The whole history as one page: batches, charts, what separates them, what was done."""

from html import escape

from diagnose.answers.history_page import BatchRow, HistoryPage
from diagnose.report.html.history_contrast_part import contrast_part
from diagnose.report.html.history_notes_part import splits_part, verdicts_part
from diagnose.report.html.history_timeline import timeline_part
from diagnose.report.html.history_trend_part import trend_part
from diagnose.report.html.parts import with_ways
from diagnose.report.html.style import STYLE
from diagnose.report.html.tables import batch_cell, table
from diagnose.report.sheets.frame import items, opening, page, section, text

GENERATOR = "faultwort history show"
HISTORY_OPENING = opening(GENERATOR)
_NAMED = {
    "done": "What was done",
    "contrasts": "What separates flawed from clean",
    "charts": "Charts",
    "verdicts": "Verdicts",
    "splits": "Splits",
    "batches": "The batches",
}
_HEAD = ("Batch", "Tasted", "Verdict and how it stands")


def history_html(history: HistoryPage) -> str:
    """The history as a page: self-contained, the same bytes for the same input.

    Args:
        history: what to show.
    """
    parts = {
        "remarks": section("In doubt", items(history.remarks) if history.remarks else ""),
        "done": timeline_part(history),
        "contrasts": "".join(map(contrast_part, history.contrasts)),
        "charts": "".join(trend_part(one, number) for number, one in enumerate(history.charts, 1)),
        "verdicts": verdicts_part(history.verdicts),
        "splits": splits_part(history.splits),
        "batches": section("The batches", _batches(history)),
    }
    own = text(_OWN) if history.flawed else ""
    head = f"<h1>Flaw history</h1>{text(_sum(history))}{own}"
    body = (
        f"<header>{head}</header>\n<main>{with_ways(parts, _NAMED)}</main>\n"
        f"<footer>{text(_FOOT)}</footer>"
    )
    return page("Flaw history", body, style=STYLE, generator=GENERATOR)


_OWN = "Flawed: a taster named a flavour. What the style brings by itself counts too."
_FOOT = "A chart or a test says what goes with a flaw, not what makes it."


def _sum(history: HistoryPage) -> str:
    number = len(history.batches) + history.left_out
    brewed = f", brewed {history.first} to {history.last}" if history.first else ""
    batches = "1 batch" if number == 1 else f"{number} batches"
    told = f"{history.flawed} flawed, {history.clean} clean, {history.not_tasted} not tasted"
    return f"{batches}{brewed}: {told}."


def _batches(history: HistoryPage) -> str:
    if not history.batches:
        return text("No batch is in it. 'faultwort history add FILE' adds one.")
    left = history.left_out
    earlier = f"; {left} earlier ones are left out" if left else ""
    return table(f"Batches as they were brewed{earlier}", _HEAD, map(_row, history.batches))


def _row(row: BatchRow) -> tuple[str, ...]:
    head = batch_cell(row.key, row.brewed_on, row.style)
    words = f"<strong>{escape(', '.join(row.words))}</strong>" if row.words else row.told
    told = "<br>".join(escape(part) for part in (row.verdict, row.status) if part)
    return head, words, told
