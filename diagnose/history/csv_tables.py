"""The tables of the CSV export: what each column is, and its rows."""

import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Final

from sqlalchemy import select

from diagnose.history.brews import read_brews
from diagnose.history.listing import current_versions, list_batches
from diagnose.history.opening import Store
from diagnose.history.tables import (
    NOTES,
    batches,
    contents,
    probe_series,
    probes,
    records,
    versions,
)

Row = Mapping[str, Any]
Columns = Mapping[str, tuple[str, str]]
_BATCH: Final = {"batch": ("string", "the batch's key")}


@dataclass(frozen=True)
class Rows:
    """A table: its name, what it holds, its columns (type and meaning), and how to get its rows."""

    name: str
    says: str
    columns: Columns
    rows: Callable[[Store], Iterator[Row]]


def _batches(store: Store) -> Iterator[Row]:
    for line in list_batches(store):
        words = {"reported": " ".join(line.reported), "absent": " ".join(line.absent)}
        yield {**line._asdict(), "batch": line.key, **words}


def _versions(store: Store) -> Iterator[Row]:
    columns = [versions.c[name] for name in ("number", "how", "of_number", "made_at", "reason")]
    joined = versions.join(batches, batches.c.id == versions.c.batch_id)
    query = select(batches.c.key.label("batch"), *columns).select_from(joined)
    with store.reading() as connection:
        for row in connection.execute(query.order_by(batches.c.key, versions.c.number)).mappings():
            yield {str(key): value for key, value in row.items()}


def _entries(store: Store) -> Iterator[Row]:
    joined = current_versions().join(records, records.c.content_id == contents.c.id)
    query = select(batches.c.key, records.c.entries).select_from(joined).order_by(batches.c.key)
    blank = dict.fromkeys(_ENTRIES)
    with store.reading() as connection:
        for row in connection.execute(query):
            for entry in json.loads(row.entries):
                yield {**blank, **entry, "batch": row.key, "entry": entry["key"]}


def _measures(store: Store) -> Iterator[Row]:
    for brew in read_brews(store):
        about = {"batch": brew.key, "rules_version": brew.rules_version}
        for measure, value in sorted(brew.measures.items()):
            word = value if isinstance(value, str) else None
            low, mid, high = (None, None, None) if isinstance(value, str) else value
            yield {"measure": measure, "low": low, "mid": mid, "high": high, "word": word, **about}


def _factors(store: Store) -> Iterator[Row]:
    for brew in read_brews(store):
        for factor, words in sorted(brew.factors.items()):
            for word in words:
                yield {"batch": brew.key, "factor": factor, "word": word}


def _tastings(store: Store) -> Iterator[Row]:
    for brew in read_brews(store):
        for place, one in enumerate(brew.tastings, start=1):
            about = {"batch": brew.key, "tasting": place, "who": one.who, "when": one.when}
            states: list[tuple[str | None, str | None, str | None]] = [
                *((word, "reported", how) for word, how in sorted(one.reported.items())),
                *((word, "absent", None) for word in sorted(one.absent)),
            ]
            for word, state, how in states or [(None, None, None)]:
                said = {"descriptor": word, "state": state, "intensity": how}
                yield {**about, "words": one.words, **said}


def _probes(store: Store) -> Iterator[Row]:
    joined = (
        current_versions()
        .join(probes, probes.c.id == contents.c.probe_id)
        .join(probe_series, probe_series.c.probe_id == probes.c.id)
    )
    own = [probe_series.c[name] for name in _PROBES if name in probe_series.c]
    columns = (batches.c.key.label("batch"), probes.c.file_name.label("file"), *own)
    query = select(*columns).select_from(joined).order_by(batches.c.key, probe_series.c.id)
    with store.reading() as connection:
        for row in connection.execute(query).mappings():
            yield {str(key): value for key, value in row.items()}


def _notes(store: Store) -> Iterator[Row]:
    with store.reading() as connection:
        for kind, table in NOTES.items():
            joined = table.outerjoin(batches, batches.c.id == table.c.batch_id)
            query = select(table, batches.c.key.label("batch")).select_from(joined)
            for row in connection.execute(query.order_by(table.c.id)).mappings():
                yield {**{str(key): value for key, value in row.items()}, "kind": kind}


_BATCHES: Final = {
    **_BATCH,
    "name": ("string", "as the record calls it"),
    "brewed_on": ("date", "brew day"),
    "style": ("string", "as typed"),
    "style_id": ("string", "as the rule base knows it"),
    "brewer": ("string", "pseudonym"),
    "version": ("integer", "number of the current version"),
    "tastings": ("integer", "tastings, in whatever words"),
    "reported": ("string", "descriptors reported by anyone, by spaces"),
    "absent": ("string", "descriptors denied and reported by nobody"),
    "verdict": ("string", "cause last confirmed"),
    "confidence": ("number", "0 to 1"),
}
_VERSIONS: Final = {
    **_BATCH,
    "number": ("integer", "counts from 1"),
    "how": ("string", "added, restored or withdrawn"),
    "of_number": ("integer", "the version that was restored"),
    "made_at": ("datetime", "when it was written down"),
    "reason": ("string", "why"),
}
_ENTRIES: Final = {
    **_BATCH,
    "entry": ("string", "where it stands in the record"),
    "typed": ("string", "as typed"),
    "value": ("number", "as read, in the unit"),
    "low": ("number", "lower end"),
    "high": ("number", "upper end"),
    "unit": ("string", "unit of value, low and high"),
    "at": ("string", "a date or time as read"),
}
_MEASURES: Final = {
    **_BATCH,
    "measure": ("string", "id of the rule base"),
    "low": ("number", "lower end, in the measure's unit"),
    "mid": ("number", "best value"),
    "high": ("number", "upper end"),
    "word": ("string", "the class, where it is no number"),
    "rules_version": ("string", "the rule base that measured"),
}
_FACTORS: Final = {
    **_BATCH,
    "factor": ("string", "what kind of thing"),
    "word": ("string", "which"),
}
_TASTINGS: Final = {
    **_BATCH,
    "tasting": ("integer", "counts from 1 within the batch"),
    "who": ("string", "pseudonym"),
    "when": ("string", "date or time"),
    "words": ("string", "as typed"),
    "descriptor": ("string", "as understood"),
    "state": ("string", "reported or absent"),
    "intensity": ("string", "where one was named"),
}
_PROBES: Final = {
    **_BATCH,
    "file": ("string", "the logger's file"),
    "role": ("string", "what was logged"),
    "unit": ("string", "unit of lowest, mean and highest"),
    "readings": ("integer", "how many"),
    "usable": ("integer", "how many were not flagged"),
    "lowest": ("number", ""),
    "mean": ("number", "over time"),
    "highest": ("number", ""),
}
_NOTES: Final = {
    **_BATCH,
    "kind": ("string", "tastings, verdicts, splits, panels, events, checks, diagnoses, switches"),
    "uid": ("string", "the note, over all its versions"),
    "number": ("integer", "version"),
    "at": ("string", "when it was"),
    "who": ("string", "pseudonym"),
    "how": ("string", "written, corrected, restored or withdrawn"),
    "made_at": ("datetime", "when it was written down"),
    "reason": ("string", "why it was changed"),
    "typed": ("string", "as typed"),
    "body": ("string", "what it says, as JSON"),
}
TABLES: Final = (
    Rows("batches", "One row a batch, as its current version has it.", _BATCHES, _batches),
    Rows("versions", "Every version of every batch.", _VERSIONS, _versions),
    Rows("entries", "Every entry of the current versions.", _ENTRIES, _entries),
    Rows("measures", "What the rule base computes from the entries.", _MEASURES, _measures),
    Rows("factors", "What batches may have in common.", _FACTORS, _factors),
    Rows("tastings", "One row a descriptor a taster.", _TASTINGS, _tastings),
    Rows("probe_series", "Probe logs in short; the readings are in the export.", _PROBES, _probes),
    Rows("notes", "Everything noted beside the records, in all versions.", _NOTES, _notes),
)
