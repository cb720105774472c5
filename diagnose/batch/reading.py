"""A batch record from its file, with the line of every entry kept for messages."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from diagnose.batch.entries import UNKNOWN
from diagnose.batch.record import BatchRecord
from diagnose.batch.sense import Doubt, doubts, impossible
from diagnose.documents import Document, parse_yaml, read_as, read_text
from diagnose.errors import UnusableInput


@dataclass(frozen=True)
class Batch:
    """A record as read: the typed entries, the document they stand in, and what looks odd."""

    record: BatchRecord
    document: Document
    folder: Path
    doubts: tuple[Doubt, ...] = ()

    @property
    def name(self) -> str:
        """The batch's own name, else the file's."""
        name = self.record.batch
        return name if isinstance(name, str) else Path(self.document.name).stem


def read_batch(path: Path, today: date) -> Batch:
    """Read a record from a YAML or JSON file.

    Args:
        path: the file.
        today: dates after this day are refused.

    Raises:
        UnusableInput: every fault of the file at once, each with its line.
    """
    document = parse_yaml(read_text(path), str(path), as_typed=True)
    return batch_from(document, path.parent, today)


def batch_from(document: Document, folder: Path, today: date) -> Batch:
    """Read a record from a parsed document; see `read_batch`."""
    known = _without_unknown(document.data)
    record = read_as(Document(document.name, known, document.lines), BatchRecord)
    faults = impossible(record, document, today)
    if faults:
        raise UnusableInput(*faults)
    return Batch(record, document, folder, tuple(doubts(record, document)))


def empty_batch(name: str, folder: Path) -> Batch:
    """A batch of which nothing was written down."""
    return Batch(BatchRecord(batch=name), Document(name, {}, {(): 0}), folder)


def _without_unknown(data: Any) -> Any:
    """The data less the keys that say nothing: null, empty or `unknown` at any depth."""
    if isinstance(data, dict):
        return {key: _without_unknown(value) for key, value in data.items() if not _silent(value)}
    if isinstance(data, list):
        return [_without_unknown(item) for item in data]
    return data


def _silent(value: Any) -> bool:
    return value is None or (isinstance(value, str) and value.strip().casefold() in UNKNOWN)
