"""The pourer's sheet: which vessel goes into which coded glass. It is the key; it stays away."""

from collections.abc import Mapping
from html import escape

from diagnose.report.sheets.frame import headed, items, section, sheet
from diagnose.trial.panel import Panel, Serving

_RULES = (
    "You do not taste, and you do not sit with those who do. Give this sheet to nobody; burn it or "
    "put it away when you have poured. Close the file it was printed from.",
    "Write the codes on the glasses before you pour. Same fill line, same foam, from the same "
    "height. Open all vessels at one time and pour in turn.",
    "Look and smell first. If a bottle gushes, is ropy or mouldy, or smells of cleaner, stop and "
    "tell the host; pour nothing from it.",
    "If you mix up a glass, throw it away and pour it again.",
)


def pourer_page(panel: Panel, vessels: Mapping[str, int]) -> str:
    """The pourer's sheet.

    Args:
        panel: the panel.
        vessels: for each code, and for each open glass ("open Wren 1"), the number of the vessel.
    """
    rows = "".join(_row(serving, vessels) for serving in panel.servings)
    head = headed("Taster", "Round", "Pour, left to right", "Done")
    body = (
        f"<h1>Pourer's sheet: {escape(panel.batch)}</h1>"
        '<div class="stop"><strong>For the pourer alone.</strong> Host and tasters: do not read '
        "on.</div>"
        + section("Pouring", items(_RULES, numbered=True))
        + section(
            "What goes where",
            f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>",
        )
    )
    return sheet(f"Pourer's sheet: {panel.batch}", body)


def _row(serving: Serving, vessels: Mapping[str, int]) -> str:
    known = vessels.get(f"open {serving.taster} {serving.round}")
    glasses = [f"open glass from vessel {known}"] if known is not None else []
    glasses += [f"{code} from vessel {vessels[code]}" for code in serving.codes]
    return (
        f'<tr><th scope="row">{escape(serving.taster)}</th>'
        f"<td>{serving.round}</td>"
        f"<td>{escape('; '.join(glasses))}</td><td class='mark'></td></tr>"
    )
