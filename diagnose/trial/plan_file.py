"""A plan as the text of a file that people can read, and back."""

import re
from typing import Any

import yaml

from diagnose.documents import parse_yaml, read_as
from diagnose.trial.plan import Part, Plan

_LIKE_A_NUMBER = re.compile(r"[-+.]?[0-9]")
_TEXT = "tag:yaml.org,2002:str"


class _Writer(yaml.SafeDumper):
    """Writes a text that might be read as a number or a date in quotes."""

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002
        return True


def _text(writer: yaml.SafeDumper, text: str) -> yaml.Node:
    style = '"' if _LIKE_A_NUMBER.match(text) else None
    return writer.represent_scalar(_TEXT, text, style=style)


_Writer.add_representer(str, _text)


def text_of(part: Part, heading: str) -> str:
    """A record as YAML under a line of comment.

    Args:
        part: the record.
        heading: one line that says what the file is.
    """
    data = part.model_dump(mode="json")
    body = yaml.dump(data, Dumper=_Writer, sort_keys=False, allow_unicode=True, width=100)
    return f"# {heading}\n{body}"


def plan_of(text: str, name: str) -> Plan:
    """The plan in a file's text.

    Args:
        text: the file's text.
        name: its name, for messages.

    Raises:
        UnusableInput: every fault of the file at once, with its line.
    """
    return read_as(parse_yaml(text, name), Plan)
