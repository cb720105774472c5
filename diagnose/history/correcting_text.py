"""Rewriting entries in the text of a record, with what was read beside them as a remark."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import yaml

from diagnose.documents import Path
from diagnose.documents.document import dotted
from diagnose.units import Field, Reading, show
from diagnose.units.conversions import fahrenheit_from_celsius


@dataclass(frozen=True)
class Rewritten:
    """An entry, as it was typed and as it is put right."""

    path: Path
    typed: str
    corrected: str


# Written without a unit, to so many decimals.
_DECIMALS: Final = {Field.GRAVITY.unit: 3, Field.PH.unit: 2}


def corrected(reading: Reading, offset: float) -> str:
    """A reading less what its instrument reads too much, in the scale it was typed in."""
    low, value, high = (end - offset for end in (reading.low, reading.value, reading.high))
    if reading.unit == Field.TEMPERATURE.unit and reading.typed.rstrip().upper().endswith("F"):
        ends = [f"{fahrenheit_from_celsius(end):.1f}" for end in (low, high)]
        return f"{'-'.join(dict.fromkeys(ends))} F"
    if reading.unit in _DECIMALS:
        ends = [f"{end:.{_DECIMALS[reading.unit]}f}" for end in (low, high)]
        return "-".join(dict.fromkeys(ends))
    moved = Reading("", value, low, high, reading.unit)
    return show(moved, Field(reading.unit), both=False)


def rewritten(text: str, entries: Sequence[Rewritten], why: str) -> str:
    """The text with the entries put right and a remark at the end of their lines.

    Args:
        text: the record as typed.
        entries: what to rewrite; those that cannot be found are left as they are.
        why: the instrument and its check, for the remark.
    """
    spots = _spots(text)
    lines = text.splitlines()
    remarks: dict[int, list[str]] = {}
    # From the last to the first, so that an entry before another keeps its place in the line.
    found = [(spots[one.path], one) for one in entries if one.path in spots]
    for (line, start, end), one in sorted(found, key=lambda spot: spot[0], reverse=True):
        quoted = lines[line][start] if lines[line][start] in "'\"" else ""
        lines[line] = f"{lines[line][:start]}{quoted}{one.corrected}{quoted}{lines[line][end:]}"
        remarks.setdefault(line, []).append(f"{dotted(one.path)} read {one.typed}")
    for line, said in remarks.items():
        lines[line] = f"{lines[line]}  # {'; '.join(reversed(said))} ({why})"
    return "\n".join(lines) + "\n"


def _spots(text: str) -> dict[Path, tuple[int, int, int]]:
    """Where each entry of one line stands: line, first column and the one after its last."""
    # The pure Python loader, as the other counts its columns in bytes.
    found: dict[Path, tuple[int, int, int]] = {}
    _walk(yaml.compose(text, Loader=yaml.SafeLoader), (), found)
    return found


def _walk(node: Any, path: Path, found: dict[Path, tuple[int, int, int]]) -> None:
    if isinstance(node, yaml.MappingNode):
        for key, value in node.value:
            _walk(value, (*path, str(key.value)), found)
    elif isinstance(node, yaml.SequenceNode):
        for index, value in enumerate(node.value):
            _walk(value, (*path, index), found)
    elif node.start_mark.line == node.end_mark.line:
        found[path] = (node.start_mark.line, node.start_mark.column, node.end_mark.column)
