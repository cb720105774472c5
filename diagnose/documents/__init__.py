"""Files people write by hand: YAML 1.2 in, plain data with line numbers or typed records out."""

from diagnose.documents.number import Basis, Number
from diagnose.documents.text import read_text
from diagnose.documents.typed import keys_of, read_as
from diagnose.documents.yaml12 import Document, Path, parse_yaml

__all__ = ["Basis", "Document", "Number", "Path", "keys_of", "parse_yaml", "read_as", "read_text"]
