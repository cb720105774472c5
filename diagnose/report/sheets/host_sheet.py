"""The host's sheet: how to run the evening, who tastes what, safety; nothing of the key."""

from html import escape

from diagnose.report.sheets.ballot_sheet import question_of
from diagnose.report.sheets.frame import headed, items, section, sheet, text
from diagnose.trial.panel import Panel
from diagnose.trial.safety import (
    AFTERWARDS,
    CONDUCT,
    LOOK_FIRST,
    WHO_TASTES,
    alcohol_of,
    alcohol_words,
    allergens_in,
)

_RUNNING = (
    "Somebody who does not taste pours, out of sight, by the pourer's sheet. You have not seen it.",
    "Identical clean glasses, one fill line, one temperature within a degree; opaque cups or dim "
    "light if colour or haze differ. Serve within ten minutes of pouring.",
    "Nobody talks or pulls a face. Water and bread between rounds, a few minutes' rest; three "
    "rounds at most in a sitting, two if it is bitter, smoky or sharp.",
    "No coffee, smoke, mint or perfume in the hour before. Whoever has a cold sits out.",
    "Collect each ballot and enter it at once: `faultwort split enter FOLDER TASTER CODE`.",
    "A latecomer takes a spare ballot, if there is one, before the key is opened; never after. For "
    "somebody who does not come, close the panel with the reason; do not taste in their place.",
)


def host_page(panel: Panel, glasses_each: int) -> str:
    """The host's sheet.

    Args:
        panel: the panel.
        glasses_each: glasses of one taster.
    """
    alcohol = alcohol_of(glasses_each, panel.alcohol_percent)
    may_hold = ", ".join(panel.contains) or "write down here everything that went in"
    body = (
        f"<h1>Host's sheet: {escape(panel.batch)}</h1>"
        f"{text(f'Test: {panel.test}. Asked: {question_of(panel)}')}"
        f'<div class="stop whole"><p>The key is sealed. This hash was fixed before pouring; no '
        f'other key fits it:</p><p class="hash">{panel.commitment}</p></div>'
        + section("Before anybody tastes", items((*LOOK_FIRST, *WHO_TASTES)))
        + section("Show everyone this list", _contents(panel, may_hold))
        + section("How much", items((alcohol_words(alcohol, panel.alcohol_known),)))
        + section("Running it", items(_RUNNING, numbered=True))
        + section("Ballots", _tasters(panel))
        + section("Afterwards", items((*AFTERWARDS, *CONDUCT)))
    )
    return sheet(f"Host's sheet: {panel.batch}", body)


def _contents(panel: Panel, may_hold: str) -> str:
    return text(f"Any glass may hold: {may_hold}; and every spike you add.") + text(
        f"Mind especially: {', '.join(allergens_in(panel.contains))}. Shared kitchens carry traces."
    )


def _tasters(panel: Panel) -> str:
    rows = "".join(
        f'<tr><th scope="row">{escape(one.taster)}</th>'
        f"<td>{one.round}</td>"
        f"<td>{escape(' '.join(one.codes))}</td><td class='mark'></td></tr>"
        for one in panel.servings
    )
    head = headed("Taster", "Round", "Tray, left to right", "In")
    return f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>"
