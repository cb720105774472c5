"""Pages in a file: no script, nothing fetched, for screen and paper.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.report.html.history_batch_page import batch_html
    from diagnose.report.html.history_page import HISTORY_OPENING, history_html
    from diagnose.report.html.page import OPENING, diagnosis_html
else:
    from importlib import import_module

    _HOMES = {
        "HISTORY_OPENING": "history_page",
        "OPENING": "page",
        "batch_html": "history_batch_page",
        "diagnosis_html": "page",
        "history_html": "history_page",
    }

    def __getattr__(name: str) -> object:
        if name not in _HOMES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)


__all__ = ["HISTORY_OPENING", "OPENING", "batch_html", "diagnosis_html", "history_html"]
