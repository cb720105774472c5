"""One batch in full: its versions and what changed between them, and all that was said of it."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, select

from diagnose.documents import parse_yaml
from diagnose.documents.document import dotted
from diagnose.history.finding_batches import Numbered, numbered
from diagnose.history.opening import Store
from diagnose.history.tables import (
    NOTES,
    contents,
    measured,
    probe_series,
    probes,
    records,
    versions,
)


@dataclass(frozen=True)
class ChangedEntry:
    """An entry that differs from the version before, as typed; None where it was not there."""

    entry: str
    was: str | None
    now: str | None


@dataclass(frozen=True)
class VersionShown:
    """One version: how it came about, and what it changed. A withdrawn one changes nothing."""

    number: int
    how: str
    of_number: int | None
    made_at: str
    reason: str | None
    changed: tuple[ChangedEntry, ...]
    other_probe_log: bool


@dataclass(frozen=True)
class NoteShown:
    """One version of something said about the batch."""

    kind: str
    uid: str
    number: int
    at: str | None
    who: str | None
    how: str
    typed: str
    body: Mapping[str, Any]


@dataclass(frozen=True)
class ProbeShown:
    """One column of the probe log in short."""

    file: str
    role: str
    unit: str
    readings: int
    usable: int
    lowest: float | None
    mean: float | None
    highest: float | None


@dataclass(frozen=True)
class BatchShown:
    """A batch in full; `entries`, `tastings` and `measures` are those of the current version."""

    key: str
    name: str
    withdrawn: bool
    versions: tuple[VersionShown, ...]
    entries: tuple[Mapping[str, Any], ...]
    tastings: tuple[Mapping[str, Any], ...]
    measures: Mapping[str, Any]
    rules_version: str | None
    probes: tuple[ProbeShown, ...]
    notes: tuple[NoteShown, ...]


@dataclass(frozen=True)
class _State:
    """The content of one version."""

    name: str
    tasted: list[Mapping[str, Any]]
    entries: list[Mapping[str, Any]]
    probe_id: int | None

    def typed(self) -> dict[str, str]:
        return {entry["key"]: entry["typed"] for entry in self.entries}


_NOTHING = _State("", [], [], None)


def show_batch(store: Store, typed: str) -> BatchShown:
    """A batch with everything about it.

    Raises:
        UnusableInput: no batch's key begins so, or several do.
        StoreUnusable: the store cannot be read.
    """
    with store.reading() as connection:
        batch = numbered(connection, typed)
        query = select(versions).where(versions.c.batch_id == batch.id)
        rows = connection.execute(query.order_by(versions.c.number)).all()
        states = {row.content_id: _state(connection, row.content_id) for row in rows}
        last = states[rows[-1].content_id]
        named = [states[row.content_id] for row in rows if row.content_id is not None]
        measures, rules_version = _measures(connection, rows[-1].content_id)
        return BatchShown(
            key=batch.key,
            name=named[-1].name,
            withdrawn=rows[-1].content_id is None,
            versions=tuple(_versions(rows, states)),
            entries=tuple(last.entries),
            tastings=tuple(last.tasted),
            measures=measures,
            rules_version=rules_version,
            probes=tuple(_probes(connection, last.probe_id)),
            notes=tuple(_notes(connection, batch)),
        )


def _state(connection: Connection, content_id: int | None) -> _State:
    if content_id is None:
        return _NOTHING
    joined = contents.join(records, records.c.content_id == contents.c.id)
    own = (contents.c.name, contents.c.tasted, records.c.entries, contents.c.probe_id)
    query = select(*own, records.c.text).select_from(joined).where(contents.c.id == content_id)
    name, tasted, entries, probe_id, text = connection.execute(query).one()
    return _State(name, json.loads(tasted), _as_written(json.loads(entries), text), probe_id)


def _as_written(entries: list[Mapping[str, Any]], text: str) -> list[Mapping[str, Any]]:
    """The entries in the order of the file; those of one line stay in the record's own."""
    lines = {dotted(path): line for path, line in parse_yaml(text, "").lines.items()}
    return sorted(entries, key=lambda entry: lines.get(entry["key"], 0))


def _versions(rows: Any, states: Mapping[int | None, _State]) -> list[VersionShown]:
    shown, before = [], _NOTHING
    for place, row in enumerate(rows):
        state = states[row.content_id]
        first = place == 0 or row.content_id is None
        shown.append(
            VersionShown(
                number=row.number,
                how=row.how,
                of_number=row.of_number,
                made_at=row.made_at,
                reason=row.reason,
                changed=() if first else tuple(_changes(before.typed(), state.typed())),
                other_probe_log=not first and before.probe_id != state.probe_id,
            )
        )
        before = before if row.content_id is None else state
    return shown


def _changes(was: Mapping[str, str], now: Mapping[str, str]) -> list[ChangedEntry]:
    keys = list(dict.fromkeys([*now, *was]))
    return [
        ChangedEntry(key, was.get(key), now.get(key))
        for key in keys
        if was.get(key) != now.get(key)
    ]


def _measures(
    connection: Connection, content_id: int | None
) -> tuple[Mapping[str, Any], str | None]:
    query = select(measured.c.findings, measured.c.rules_version)
    row = connection.execute(query.where(measured.c.content_id == content_id)).first()
    return ({}, None) if row is None else (json.loads(row.findings), row.rules_version)


def _probes(connection: Connection, probe_id: int | None) -> list[ProbeShown]:
    own = [probe_series.c[name] for name in ProbeShown.__dataclass_fields__ if name != "file"]
    joined = probe_series.join(probes, probes.c.id == probe_series.c.probe_id)
    query = select(probes.c.file_name.label("file"), *own).select_from(joined)
    rows = connection.execute(query.where(probes.c.id == probe_id).order_by(probe_series.c.id))
    return [ProbeShown(**row) for row in rows.mappings()]


def _notes(connection: Connection, batch: Numbered) -> list[NoteShown]:
    found = []
    for kind, table in NOTES.items():
        query = select(table).where(table.c.batch_id == batch.id).order_by(table.c.id)
        for row in connection.execute(query).mappings():
            own = {key: row[key] for key in ("uid", "number", "at", "who", "how", "typed")}
            found.append(NoteShown(kind=kind, body=json.loads(row["body"]), **own))
    return found
