"""A refusal as one text, for comparing with what a reader should see."""

from pathlib import Path

import pytest

from diagnose.documents import parse_yaml, read_text
from diagnose.errors import UnusableInput


def refusal_of(text: str, *, as_typed: bool = False) -> str:
    with pytest.raises(UnusableInput) as refused:
        parse_yaml(text, "f.yaml", as_typed=as_typed)
    return str(refused.value)


def refusal_of_file(path: Path) -> str:
    with pytest.raises(UnusableInput) as refused:
        read_text(path)
    return str(refused.value).replace(str(path), "f.yaml")
