"""Cautions on a terminal page: those that are loud before anything else, notes at the end."""

from collections.abc import Iterable

from rich.console import Console

from diagnose.answers.caution import CautionLine
from diagnose.report.strips import CAUTION_MARKS, hanging

_STYLES = {"stop": "bold white on red", "warn": "bold yellow", "note": "bold"}


def print_loud(console: Console, cautions: Iterable[CautionLine]) -> None:
    """The cautions that say stop or take care."""
    print_cautions(console, [line for line in cautions if line.level != "note"])


def print_notes(console: Console, cautions: Iterable[CautionLine]) -> None:
    """The cautions that are only notes."""
    print_cautions(console, [line for line in cautions if line.level == "note"])


def print_cautions(console: Console, cautions: Iterable[CautionLine]) -> None:
    """Cautions with a blank line before the first."""
    for number, line in enumerate(cautions):
        if number == 0:
            console.print()
        mark = CAUTION_MARKS[line.level]
        hanging(console, f"{mark}:", line.text, indent=0, style=_STYLES[line.level])
