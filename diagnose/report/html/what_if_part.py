"""What a supposition changes, as a table."""

from diagnose.answers import Diagnosis
from diagnose.report.sheets.frame import grid, items, section
from diagnose.report.what_if_page import rows_shown, what_if_lines, what_if_row

_HEAD = ("", "Recorded", "Supposed", "Change")


def what_if_part(diagnosis: Diagnosis) -> str:
    """The ranking as recorded beside the ranking as supposed; empty where nothing was supposed."""
    what_if = diagnosis.what_if
    if what_if is None:
        return ""
    tables = "".join(
        section(
            f"What if: behind {', '.join(group.names)}",
            grid(_HEAD, [(name, *cells) for name, cells in map(what_if_row, rows_shown(group))]),
        )
        for group in what_if.faults
    )
    return tables + items(what_if_lines(what_if))
