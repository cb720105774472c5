"""Cautions: those to stop or take care at the top, notes at the end."""

from collections.abc import Iterable
from html import escape

from diagnose.answers.caution import CautionLine
from diagnose.report.sheets.frame import items, section

_MARKS = {"stop": "Stop.", "warn": "Take care."}


def loud_cautions(cautions: Iterable[CautionLine]) -> str:
    """The cautions that come before anything else, each in its frame; empty without any."""
    boxes = "".join(
        f'<div class="{line.level}"><strong>{_MARKS[line.level]}</strong> {escape(line.text)}</div>'
        for line in cautions
        if line.level in _MARKS
    )
    return section("Cautions", boxes)


def quiet_cautions(cautions: Iterable[CautionLine]) -> str:
    """The notes; empty without any."""
    notes = [line.text for line in cautions if line.level == "note"]
    return section("Notes", items(notes) if notes else "")
