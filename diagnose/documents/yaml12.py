"""YAML read by the 1.2 core schema, with the line of every entry kept.

The parser is libyaml's (through PyYAML); what a bare scalar means is decided here by the
1.2 core schema, so that `no` stays a word and `12:30` stays a time of day.

Source: YAML 1.2.2 specification, section 10.3.2 (core schema tag resolution).
"""

import re
from collections.abc import Callable
from typing import Any, ClassVar

import yaml
from yaml.nodes import MappingNode, Node, ScalarNode, SequenceNode

from diagnose.documents.document import Document, Path, dotted
from diagnose.errors import Fault, UnusableInput

_TAG = "tag:yaml.org,2002:"
# Deeper or longer than anyone writes by hand; beyond it the file is a slip or an attack.
_DEEPEST = 50
_LONGEST_NUMBER = 100
# JSON writes a sign beyond U+FFFF as two escapes, which YAML does not join by itself.
_ESCAPED_PAIR = re.compile(r"(?<!\\)((?:\\\\)*)\\u(d[89ab]..)\\u(d[c-f]..)", re.IGNORECASE)
_CONTROL = re.compile(r"[\x00-\x08\x0b-\x1f\x7f-\x84\x86-\x9f]")


_Loader: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class _CoreLoader(_Loader):  # type: ignore[misc]
    """The parser with the implicit tags of the YAML 1.2 core schema instead of 1.1's."""

    yaml_implicit_resolvers: ClassVar[dict[str, Any]] = {}


_FLOAT = r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?"
for _name, _pattern, _first in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", list("-+0123456789")),
    ("float", _FLOAT + r"|[-+]?\.(inf|Inf|INF)|\.(nan|NaN|NAN)", list("-+.0123456789")),
):
    _CoreLoader.add_implicit_resolver(_TAG + _name, re.compile(rf"^(?:{_pattern})$"), _first)


def parse_yaml(text: str, name: str, *, as_typed: bool = False) -> Document:
    """Text to data with line numbers.

    Args:
        text: a YAML 1.2 (or JSON) document.
        name: what to call it in messages, usually its path.
        as_typed: keep every number and truth word as the text that was typed ("1.050").

    Raises:
        UnusableInput: not YAML, empty, or with repeated keys, aliases or tags; all faults at once.
    """
    text = _ESCAPED_PAIR.sub(_joined_pair, text)
    try:
        loader = _CoreLoader(text)
        root = loader.get_single_node()
    except (yaml.YAMLError, RecursionError, UnicodeEncodeError) as error:
        raise UnusableInput(_syntax_fault(error, text, name)) from error
    if root is None:
        raise UnusableInput(Fault(name, 0, "", "no entries", "at least one entry"))
    walk = _Walk(name, as_typed, loader.resolve)
    data = walk.value(root, ())
    if walk.faults:
        raise UnusableInput(*walk.faults)
    return Document(name, data, walk.lines)


def _joined_pair(match: re.Match[str]) -> str:
    pair = bytes.fromhex(match[2] + match[3]).decode("utf-16-be")
    return f"{match[1]}\\U{ord(pair):08x}"


def _syntax_fault(error: Exception, text: str, name: str) -> Fault:
    mark, offset = _mark_of(error), getattr(error, "position", None)
    line = mark.line + 1 if mark is not None else 0
    if offset is not None:
        line = text.encode()[:offset].count(b"\n") + 1
    problem = getattr(error, "problem", None) or getattr(error, "reason", None) or "nested too deep"
    if "another document" in problem:
        return Fault(name, line, "", "a second document ('---')", "one document in a file")
    written = text.splitlines()[line - 1] if 0 < line <= len(text.splitlines()) else ""
    if "\t" in written[: len(written) - len(written.lstrip())]:
        return Fault(name, line, "", "a tab in the indent", "spaces in the indent")
    found = f"text that is not YAML ({problem})"
    return Fault(name, line, "", found, "YAML (check the indent, quotes and colons there)")


def _mark_of(error: Exception) -> yaml.Mark | None:
    """Where the fault is; where the file ends in the middle of something, where that began."""
    began: yaml.Mark | None = getattr(error, "context_mark", None)
    noticed: yaml.Mark | None = getattr(error, "problem_mark", None)
    ended_early = "end of stream" in (getattr(error, "problem", None) or "")
    return began if began is not None and ended_early else noticed


class _Walk:
    """One pass over the parsed nodes: values, lines and what is refused."""

    def __init__(self, name: str, as_typed: bool, resolve: Callable[..., str]) -> None:
        self.name = name
        self.as_typed = as_typed
        self.resolve = resolve
        self.lines: dict[Path, int] = {}
        self.faults: list[Fault] = []
        self._seen: set[int] = set()

    def value(self, node: Node, path: Path) -> Any:
        if id(node) in self._seen:
            return self._refuse_alias(path)
        self._seen.add(id(node))
        self.lines.setdefault(path, node.start_mark.line + 1)
        if len(path) > _DEEPEST:
            wanted = f"at most {_DEEPEST} levels"
            return self._refuse(node, path[:1], "entries nested too deep", wanted)
        if self._tagged(node):
            found = f"the tag {node.tag.replace(_TAG, '!!')}"
            return self._refuse(node, path, found, "a plain value without a tag")
        if isinstance(node, MappingNode):
            return self._mapping(node, path)
        if isinstance(node, SequenceNode):
            return [self.value(item, (*path, i)) for i, item in enumerate(node.value)]
        return self._scalar(node, path)

    def _tagged(self, node: Node) -> bool:
        """Whether a tag was written that changes what the entry means."""
        plain = isinstance(node, ScalarNode) and not node.style
        untagged = self.resolve(type(node), node.value, (plain, not plain))
        return bool(node.tag != untagged)

    def _mapping(self, node: MappingNode, path: Path) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for key_node, value_node in node.value:
            if not isinstance(key_node, ScalarNode) or self._tagged(key_node):
                self._refuse(key_node, path, "a key that is not a word", "a plain word as key")
                continue
            key = str(key_node.value)
            here = (*path, key)
            if key in found:
                self._refuse(key_node, here, "the same key a second time", "each key once")
                continue
            self.lines[here] = key_node.start_mark.line + 1
            found[key] = self.value(value_node, here)
        return found

    def _scalar(self, node: Node, path: Path) -> Any:
        kind, text = node.tag.removeprefix(_TAG), node.value
        control = _CONTROL.search(text)
        if control:
            found = f"the control character 0x{ord(control[0]):02x}"
            return self._refuse(node, path, found, "text that can be printed")
        if kind == "str" or (self.as_typed and kind in ("int", "float", "bool")):
            return text
        if kind == "null":
            return None
        if kind == "bool":
            return text.lower() == "true"
        if len(text) > _LONGEST_NUMBER:
            found = f"a number of {len(text)} digits"
            return self._refuse(node, path, found, f"at most {_LONGEST_NUMBER} digits")
        return _number(text, kind)

    def _refuse(self, node: Node, path: Path, found: str, wanted: str) -> None:
        fault = Fault(self.name, node.start_mark.line + 1, dotted(path), found, wanted)
        self.faults.append(fault)

    def _refuse_alias(self, path: Path) -> None:
        # The node is the anchor's, so the line comes from the alias's own key or list.
        line = next(
            self.lines[path[:end]] for end in (len(path), len(path) - 1) if path[:end] in self.lines
        )
        found, wanted = "an alias (*name)", "the entry written out"
        self.faults.append(Fault(self.name, line, dotted(path), found, wanted))


def _number(text: str, kind: str) -> int | float:
    if kind == "float":
        return float(text.lower().replace(".inf", "inf").replace(".nan", "nan"))
    if text.startswith("0o"):
        return int(text[2:], 8)
    return int(text, 16) if text.startswith("0x") else int(text)
