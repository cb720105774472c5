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
    from diagnose.fetching import fetched_from

    _HOMES = {
        "HISTORY_OPENING": "history_page",
        "OPENING": "page",
        "batch_html": "history_batch_page",
        "diagnosis_html": "page",
        "history_html": "history_page",
    }
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = ["HISTORY_OPENING", "OPENING", "batch_html", "diagnosis_html", "history_html"]
