"""Records as a brewer writes them, and what comes of reading them."""

from datetime import date
from pathlib import Path

import pytest

from diagnose.batch import Batch, BatchRecord, batch_from
from diagnose.documents import parse_yaml
from diagnose.errors import UnusableInput

TODAY = date(2026, 11, 1)
FULL = (Path(__file__).parent / "full_record.yaml").read_text("utf-8")


def batch_of(text: str, today: date = TODAY) -> Batch:
    return batch_from(parse_yaml(text, "batch.yaml", as_typed=True), Path(), today)


def record_of(text: str) -> BatchRecord:
    return batch_of(text).record


def faults_of(text: str, today: date = TODAY) -> list[str]:
    with pytest.raises(UnusableInput) as refused:
        batch_of(text, today)
    return str(refused.value).split("\n")


def nested(path: str, value: str) -> str:
    """YAML that holds `value` at a dotted path; a step `[]` is a list of one item."""
    text = value
    for step in reversed(path.split(".")):
        text = f"[{text}]" if step == "[]" else f"{{{step}: {text}}}"
    return text
