"""A batch record from its file, with the line of every entry kept for messages."""

from collections.abc import Collection
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

from diagnose.batch.contradicting import contradictions
from diagnose.batch.entries import UNKNOWN
from diagnose.batch.record import BatchRecord
from diagnose.batch.sense import Doubt, doubts, impossible
from diagnose.documents import Document, keys_of, parse_yaml, read_as, read_text
from diagnose.errors import UnusableInput

if TYPE_CHECKING:
    from diagnose.batch.probe import ProbeLog

# Sections whose keys are ids of the rule base, which is read elsewhere.
_KEYS_OF_THE_RULES = ("fault", "checks")


@dataclass(frozen=True)
class Batch:
    """A record as read: the typed entries, the document they stand in, and what looks odd.

    One out of the history has the key that it is `kept_as`, and its `log` with it.
    """

    record: BatchRecord
    document: Document
    folder: Path
    doubts: tuple[Doubt, ...] = ()
    kept_as: str | None = None
    log: "ProbeLog | None" = field(default=None, compare=False)

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
    logged = _without_unknown(document.data, keys_of(BatchRecord))
    record = read_as(Document(document.name, logged, document.lines), BatchRecord)
    faults = impossible(record, document, today)
    if faults:
        raise UnusableInput(*faults)
    odd = [*doubts(record, document), *contradictions(record, document)]
    return Batch(record, document, folder, tuple(odd))


def empty_batch(name: str, folder: Path) -> Batch:
    """A batch of which nothing was written down."""
    return Batch(BatchRecord(batch=name), Document(name, {}, {(): 0}), folder)


def _without_unknown(data: Any, keys: Collection[str] | None) -> Any:
    """The data less the keys that say nothing: null, empty or `unknown` at any depth.

    A key that no record has stays, to be refused: `{ph: 5,4}` is also the key `4` with nothing.
    Where `keys` is None, any key may stand.
    """
    if isinstance(data, list):
        return [_without_unknown(item, keys) for item in data]
    if not isinstance(data, dict):
        return data
    return {
        key: _without_unknown(value, None if key in _KEYS_OF_THE_RULES else keys)
        for key, value in data.items()
        if not _silent(value) or (keys is not None and key not in keys)
    }


def _silent(value: Any) -> bool:
    return value is None or (isinstance(value, str) and value.strip().casefold() in UNKNOWN)
