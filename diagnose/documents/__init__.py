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
    from diagnose.fetching import fetched_from

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
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = ["Basis", "Document", "Number", "Path", "keys_of", "parse_yaml", "read_as", "read_text"]
