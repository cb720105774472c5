"""Verdicts and splits as a page of the history shows them."""

from collections.abc import Sequence
from html import escape

from diagnose.answers.history_page import SplitLine, VerdictLine
from diagnose.report.html.tables import table
from diagnose.report.sheets.frame import items, section, text

_HEAD = ("Day", "Batch", "Cause", "Rests on")


def verdicts_part(verdicts: Sequence[VerdictLine]) -> str:
    """The verdicts as a table; empty without any."""
    if not verdicts:
        return ""
    rows = [
        (
            f'<span class="day">{escape(one.on)}</span>',
            escape(one.batch),
            f"{escape(one.cause)}: {one.state}, {100 * one.confidence:.0f} % sure",
            escape(_grounds(one)),
        )
        for one in verdicts
    ]
    return section("Verdicts", table("Verdicts, oldest first", _HEAD, rows))


def _grounds(one: VerdictLine) -> str:
    said = f": \u201c{one.words}\u201d" if one.words else ""
    who = f", {one.who}" if one.who else ""
    return f"{one.basis}{who}{said}"


def splits_part(splits: Sequence[SplitLine]) -> str:
    """The splits with what each taught; empty without any."""
    return section("Splits", "".join(map(_split, splits)))


def _split(one: SplitLine) -> str:
    about = ", ".join(part for part in (one.on, one.cause, one.factor) if part)
    told = (("Known", one.known), ("Not known", one.not_known), ("Next", one.next_))
    listed = "".join(
        f'<p class="side">{name}</p>{items(sentences)}' for name, sentences in told if sentences
    )
    arms = items(one.arms) if one.arms else ""
    return f"<article><h3>{escape(one.name)}</h3>{text(about)}{arms}{listed}</article>"
