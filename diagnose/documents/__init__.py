"""Files people write by hand: YAML 1.2 in, plain data with line numbers or typed records out.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.documents.document import Document, Path
    from diagnose.documents.number import Basis, Number
    from diagnose.documents.text import read_text
    from diagnose.documents.typed import keys_of, read_as
    from diagnose.documents.yaml12 import parse_yaml
else:
    from importlib import import_module

    _HOMES = {
        "Basis": "number",
        "Document": "document",
        "Number": "number",
        "Path": "document",
        "keys_of": "typed",
        "parse_yaml": "yaml12",
        "read_as": "typed",
        "read_text": "text",
    }

    def __getattr__(name: str) -> object:
        if name not in _HOMES:
            raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
        return getattr(import_module(f"{__name__}.{_HOMES[name]}"), name)


__all__ = ["Basis", "Document", "Number", "Path", "keys_of", "parse_yaml", "read_as", "read_text"]
