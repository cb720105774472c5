"""A batch out of the store as if its file had just been read, and its measures anew."""

from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path

from sqlalchemy import Connection, select

from diagnose.batch import Batch, batch_from
from diagnose.batch.probe import ProbeLog
from diagnose.documents import parse_yaml
from diagnose.errors import Fault, UnusableInput
from diagnose.history.filing import content_of
from diagnose.history.finding_batches import numbered
from diagnose.history.opening import Store
from diagnose.history.probes import packed_log, unpack_log
from diagnose.history.tables import batches, contents, measured, records, versions
from diagnose.history.writing_down import compact
from diagnose.knowledge import RuleBase


@dataclass(frozen=True)
class _Kept:
    file_name: str
    text: str
    probe_id: int | None


def batch_of(store: Store, key: str, today: date) -> tuple[Batch, ProbeLog | None]:
    """The record and the probe log of a batch's current version.

    Raises:
        UnusableInput: there is no such batch, it is withdrawn, or its record no longer reads.
    """
    with store.reading() as connection:
        batch = numbered(connection, key)
        query = select(versions.c.content_id).where(
            versions.c.batch_id == batch.id, versions.c.number == batch.current
        )
        content_id = connection.execute(query).scalar()
        if content_id is None:
            wanted = "a batch that is not withdrawn; 'faultwort history restore' brings it back"
            raise UnusableInput(Fault("history", 0, "batch", repr(batch.key), wanted))
        return _replayed(connection, int(content_id), today)


def kept_batch(store: Store, typed: str, today: date) -> Batch | None:
    """The batch whose key is or begins with `typed`, with its probe log; None where none is.

    Raises:
        UnusableInput: several begin so, it is withdrawn, or its record no longer reads.
    """
    with store.reading() as connection:
        begun = batches.c.key.startswith(typed, autoescape=True)
        if connection.execute(select(batches.c.id).where(begun).limit(1)).first() is None:
            return None
        key = numbered(connection, typed).key
    batch, log = batch_of(store, key, today)
    return replace(batch, kept_as=key, log=log)


@dataclass(frozen=True)
class Refreshed:
    """How many records were measured again, and which (by their file) no longer read."""

    measured: int
    unreadable: tuple[str, ...]


def refresh(store: Store, rules: RuleBase, today: date) -> Refreshed:
    """Measure again what another version of the rule base measured.

    What was typed stays as it is; only what is computed from it is replaced. A record that the
    rule base no longer understands keeps its earlier measures.
    """
    stale = select(measured.c.content_id).where(measured.c.rules_version != rules.version)
    done, unreadable = 0, []
    with store.writing() as connection:
        for content_id in list(connection.execute(stale).scalars()):
            try:
                _measure_again(connection, rules, int(content_id), today)
                done += 1
            except UnusableInput as refused:
                unreadable.append(refused.faults[0].file)
    return Refreshed(done, tuple(unreadable))


def _measure_again(connection: Connection, rules: RuleBase, content_id: int, today: date) -> None:
    batch, log = _replayed(connection, content_id, today)
    content = content_of(rules, batch, "", log)
    short = {key: content.short[key] for key in ("style_id", "yeast_id")}
    tasted = compact(content.short["tasted"])
    connection.execute(
        contents.update().where(contents.c.id == content_id).values(tasted=tasted, **short)
    )
    computed = {
        key: value if key == "rules_version" else compact(value)
        for key, value in content.computed.items()
    }
    here = measured.c.content_id == content_id
    connection.execute(measured.update().where(here).values(**computed))


def _replayed(
    connection: Connection, content_id: int, today: date
) -> tuple[Batch, ProbeLog | None]:
    columns = (records.c.file_name, records.c.text, contents.c.probe_id)
    joined = records.join(contents, contents.c.id == records.c.content_id)
    query = select(*columns).select_from(joined).where(contents.c.id == content_id)
    kept = _Kept(*connection.execute(query).one())
    document = parse_yaml(kept.text, kept.file_name, as_typed=True)
    log = None
    if kept.probe_id is not None:
        log = unpack_log(packed_log(connection, kept.probe_id))
    return batch_from(document, Path(), today), log
