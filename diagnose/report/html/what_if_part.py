"""What a supposition changes, as a table."""

from diagnose.answers import Diagnosis
from diagnose.report.sheets.frame import grid, items, section
from diagnose.report.what_if_page import (
    AS_IT_IS,
    groups_shown,
    rows_shown,
    what_if_changes,
    what_if_outcome,
    what_if_row,
)

_HEAD = ("Cause", "Recorded", "Supposed", "Change")


def what_if_part(diagnosis: Diagnosis) -> str:
    """The ranking as recorded beside the ranking as supposed; empty where nothing was supposed."""
    what_if = diagnosis.what_if
    if what_if is None:
        return ""
    tables = "".join(
        section(
            f"Behind {', '.join(group.names)}",
            grid(_HEAD, [(name, *cells) for name, cells in map(what_if_row, rows_shown(group))]),
        )
        for group in groups_shown(what_if)
    )
    outcome = [" ".join(said) for said in what_if_outcome(what_if)]
    changes = section("What if", items(what_if_changes(what_if)))
    return changes + tables + items([*outcome, AS_IT_IS])
