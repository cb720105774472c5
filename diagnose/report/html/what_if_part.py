"""What a supposition changes, as tables under one heading."""

from html import escape

from diagnose.answers import ChangedChance, Diagnosis
from diagnose.report.sheets.frame import grid, items, section, text
from diagnose.report.strips import CAUTION_MARKS
from diagnose.report.what_if_page import (
    AS_IT_IS,
    HAPPENED,
    RANGES,
    groups_shown,
    happened_rows,
    range_text,
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
        _table(f"Behind {', '.join(group.names)}", [_row(one) for one in rows_shown(group)])
        for group in groups_shown(what_if)
    )
    if any(one.responsible_range for group in groups_shown(what_if) for one in group.causes):
        tables += text(RANGES)
    happened = [(name, *cells) for name, cells in happened_rows(what_if)]
    cautions = [f"{CAUTION_MARKS[one.level]}: {one.text}" for one in what_if.cautions]
    told = items([*cautions, *what_if_changes(what_if), f"Then: {what_if_outcome(what_if)}"])
    return section(
        "What if: the record with something else supposed",
        told + tables + (_table(HAPPENED, happened) if happened else "") + text(AS_IT_IS),
    )


def _table(heading: str, rows: list[tuple[str, ...]]) -> str:
    return f"<h3>{escape(heading)}</h3>{grid(_HEAD, rows)}"


def _row(one: ChangedChance) -> tuple[str, ...]:
    name, cells = what_if_row(one)
    ranges = [range_text(held) for held in (one.was_range, one.responsible_range)]
    ranged = [
        f"{cell} ({held})" if held else cell
        for cell, held in zip(cells, [*ranges, ""], strict=True)
    ]
    return (name, *ranged)
