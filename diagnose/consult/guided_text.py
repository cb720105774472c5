"""One entry set in the text of a record; every other sign of it stays as it was typed."""

import copy
import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from textwrap import wrap
from typing import Any, TypeAlias

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from diagnose.batch.entries import UNKNOWN
from diagnose.documents import Path, parse_yaml
from diagnose.documents.document import dotted
from diagnose.errors import Fault, UnusableInput

Value: TypeAlias = "str | list[Value] | dict[str, Value]"
_INDENT, _COLUMNS = 2, 78
_SAFE = r"[^\s:#\[\]{},&*!|>'\"%@`\\?\x00-\x1f\x7f-\x9f\ud800-\udfff]"
_WORD = rf"(?:{_SAFE}|:(?=\S))+"
_PLAIN = re.compile(rf"(?:[^\W_]|-(?=\d))(?:{_SAFE}|:(?=\S))*(?: {_WORD})*")


@dataclass(frozen=True)
class _Hand:
    """How this record is written: its line end, and whether every text stands in quotes."""

    line_end: str
    quotes: bool

    def scalar(self, text: str) -> str:
        """A text as it may stand anywhere in the record."""
        bare = not self.quotes and _PLAIN.fullmatch(text) is not None
        return text if bare else json.dumps(text, ensure_ascii=False)

    def flow(self, value: Value) -> str:
        """A value on one line."""
        if isinstance(value, str):
            return self.scalar(value)
        if isinstance(value, list):
            return f"[{', '.join(self.flow(item) for item in value)}]"
        return f"{{{self.pairs(value)}}}"

    def pairs(self, value: dict[str, Value]) -> str:
        """The entries of a mapping on one line, without its braces."""
        return ", ".join(f"{self.scalar(key)}: {self.flow(one)}" for key, one in value.items())


def with_entry(text: str, path: Path, value: Value, *, note: str = "") -> str:
    """The text with one more entry, or with another value for an entry of one word.

    Args:
        text: a record in YAML or JSON; empty for a new one.
        path: where the entry stands; an index one past the end of a list adds an item.
        value: what it shall say.
        note: a comment put above it where the layout has room for one.

    Raises:
        UnusableInput: the layout of the text does not let the entry be written safely.
    """
    root = yaml.compose(text, Loader=yaml.SafeLoader)
    hand = _Hand("\r\n" if "\r\n" in text else "\n", isinstance(root, Node) and _flows(root))
    written = _written(text, root, (path, value), (hand, note))
    if written is None or not _says_only_that(text, written, (path, value)):
        shown = hand.flow(value)
        wanted = f"a list or section to add to; write `{dotted(path)}: {shown}` there by hand"
        raise UnusableInput(Fault("record", 0, dotted(path), "another layout there", wanted))
    return written


def _written(
    text: str, root: Node | None, entry: tuple[Path, Value], how: tuple[_Hand, str]
) -> str | None:
    (path, value), (hand, note) = entry, how
    if root is None:
        return _ended(text, hand) + _lines(hand, _nested(path, value), (0, note))
    node, rest = _deepest(root, path)
    if isinstance(node, ScalarNode):
        silent = not rest or node.value.strip().casefold() in (*UNKNOWN, "null", "~")
        return _replaced(text, node, hand.flow(_nested(rest, value))) if silent else None
    if not rest or isinstance(rest[0], int) != isinstance(node, SequenceNode):
        return None
    added = _nested(rest, value)
    if _flows(node):
        return _put_into_flow(text, node, _inside(hand, added))
    return _put_below(text, node, lambda indent: _lines(hand, added, (indent, note)), hand)


def _deepest(node: Node, path: Path) -> tuple[Node, Path]:
    """The last node on the way to a path that is there, and what is left of the path."""
    for at, step in enumerate(path):
        inside = _child(node, step)
        if inside is None:
            return node, path[at:]
        node = inside
    return node, ()


def _child(node: Node, step: str | int) -> Node | None:
    if isinstance(node, MappingNode):
        return next((value for key, value in node.value if key.value == step), None)
    if isinstance(node, SequenceNode) and isinstance(step, int) and step < len(node.value):
        found: Node = node.value[step]
        return found
    return None


def _nested(path: Path, value: Value) -> Value:
    for step in reversed(path):
        value = [value] if isinstance(step, int) else {step: value}
    return value


def _flows(node: Node) -> bool:
    return bool(getattr(node, "flow_style", False))


def _inside(hand: _Hand, added: Value) -> str:
    return hand.pairs(added) if isinstance(added, dict) else hand.flow(added)[1:-1]


def _replaced(text: str, node: Node, shown: str) -> str:
    start, end = node.start_mark.index, node.end_mark.index
    # An entry with nothing behind its colon.
    space = " " if start == end and text[start - 1 : start] == ":" else ""
    return f"{text[:start]}{space}{shown}{text[end:]}"


def _put_into_flow(text: str, node: Node, shown: str) -> str:
    last = node.end_mark.index - 1
    before = text[:last]
    kept = before.rstrip()
    comma = "" if not node.value or kept.endswith(",") else ","
    gap = "" if not node.value else " "
    return f"{kept}{comma}{gap}{shown}{before[len(kept) :]}{text[last:]}"


def _put_below(text: str, node: Node, lines: Callable[[int], str], hand: _Hand) -> str:
    """The text with new lines after the last one that belongs to a block."""
    at = _end_of(text, node)
    return _ended(text[:at], hand) + lines(node.start_mark.column) + text[at:]


def _end_of(text: str, node: Node) -> int:
    while not _flows(node) and not isinstance(node, ScalarNode) and node.value:
        last = node.value[-1]
        node = last[1] if isinstance(last, tuple) else last
    end = node.end_mark.index
    if isinstance(node, ScalarNode) and node.style in ("|", ">"):
        return text.rfind("\n", 0, end) + 1 if end < len(text) else len(text)
    line_end = text.find("\n", end)
    return len(text) if line_end < 0 else line_end + 1


def _ended(text: str, hand: _Hand) -> str:
    return text if not text or text.endswith("\n") else text + hand.line_end


def _lines(hand: _Hand, added: Value, at: tuple[int, str]) -> str:
    """New entries as lines of a block, the note above the one that it is about."""
    indent, note = at
    lines = _block(hand, added, indent)
    about = next((i for i, line in enumerate(lines) if not line.endswith(":")), 0)
    pad = " " * (len(lines[about]) - len(lines[about].lstrip(" ")))
    comments = [f"{pad}# {part}" for part in wrap(note, _COLUMNS - len(pad) - 2)]
    return "".join(line + hand.line_end for line in [*lines[:about], *comments, *lines[about:]])


def _block(hand: _Hand, value: Value, indent: int) -> list[str]:
    pad = " " * indent
    lines: list[str] = []
    if isinstance(value, dict):
        for key, one in value.items():
            if isinstance(one, str):
                lines.append(f"{pad}{hand.scalar(key)}: {hand.scalar(one)}")
            else:
                lines += [f"{pad}{hand.scalar(key)}:", *_block(hand, one, indent + _INDENT)]
    elif isinstance(value, list):
        for item in value:
            if isinstance(item, dict) and len(item) == 1:
                first, *others = _block(hand, item, indent + _INDENT)
                lines += [f"{pad}- {first.lstrip()}", *others]
            else:
                lines.append(f"{pad}- {hand.flow(item)}")
    return lines


def _says_only_that(text: str, written: str, entry: tuple[Path, Value]) -> bool:
    """Whether the new text holds the old one's entries, this one, and nothing else."""
    try:
        found = parse_yaml(written, "record", as_typed=True).data
    except UnusableInput:
        return False
    old = parse_yaml(text, "record", as_typed=True).data if _holds_entries(text) else {}
    wanted = put_in(copy.deepcopy(old), *entry)
    return bool(found == wanted)


def _holds_entries(text: str) -> bool:
    return yaml.compose(text, Loader=yaml.SafeLoader) is not None


def put_in(data: Any, path: Path, value: Value) -> Any:
    """Plain data with one entry set, as `with_entry` sets it in the text."""
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(step, int):
        items = list(data) if isinstance(data, list) else []
        inside = items[step] if step < len(items) else None
        return [*items[:step], put_in(inside, rest, value), *items[step + 1 :]]
    entries = dict(data) if isinstance(data, dict) else {}
    return {**entries, step: put_in(entries.get(step), rest, value)}


def leaves_of(data: Any) -> list[str]:
    """Every text of plain data, in its order."""
    if isinstance(data, dict):
        return [leaf for value in data.values() for leaf in leaves_of(value)]
    if isinstance(data, list):
        return [leaf for value in data for leaf in leaves_of(value)]
    return [data] if isinstance(data, str) else []


def shown_value(data: Any) -> str:
    """Plain data on one line."""
    return data if isinstance(data, str) else "; ".join(leaves_of(data))
