"""Notes in the store: written once, corrected by a next version, withdrawn but never deleted."""

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Generic, TypeVar

from pydantic import ValidationError
from sqlalchemy import Connection, Table, func, select

from diagnose.errors import Fault, StoreUnusable, UnusableInput
from diagnose.history.finding_batches import numbered
from diagnose.history.kinds import Note
from diagnose.history.opening import Store
from diagnose.history.tables import NOTES, batches
from diagnose.history.writing_down import compact, stamp

Kind = TypeVar("Kind", bound=Note)
_UID_LENGTH = 12
_OWN_COLUMNS = ("at", "who", "typed")


@dataclass(frozen=True)
class Noted(Generic[Kind]):
    """A note as it stands: its name in the store, its version, its batch and what it says."""

    uid: str
    number: int
    batch: str | None
    made_at: str
    note: Kind


def write_note(store: Store, note: Note, now: datetime, batch: str | None = None) -> str:
    """Write a note down, in one transaction.

    Args:
        store: where.
        note: what is said.
        now: the moment of writing.
        batch: the key of the batch it is about; None where it is about none or several.

    Returns:
        its uid. The same note written twice at the same moment is one note.

    Raises:
        UnusableInput: there is no such batch.
    """
    with store.writing() as connection:
        return write_note_in(connection, note, now, batch)


def write_note_in(
    connection: Connection, note: Note, now: datetime, batch: str | None = None
) -> str:
    """`write_note` as part of a wider transaction."""
    found = numbered(connection, batch) if batch is not None else None
    columns = _columns(note)
    said = compact([note.table, found.key if found else None, stamp(now), columns])
    uid = hashlib.sha256(said.encode()).hexdigest()[:_UID_LENGTH]
    table = NOTES[note.table]
    if _latest(connection, table, uid) is None:
        about = {"batch_id": found.id if found else None, "how": "written", "reason": None}
        row = {"uid": uid, "number": 1, "made_at": stamp(now), **about, **columns}
        connection.execute(table.insert().values(**row))
    return uid


def correct_note(
    store: Store, uid: str, note: Note, now: datetime, reason: str | None = None
) -> int:
    """Write the next version of a note; the number of it.

    Raises:
        UnusableInput: there is no such note.
    """
    table = NOTES[note.table]
    return _next_version(store, (table, uid), now, {**_columns(note), "reason": reason})


def withdraw_note(
    store: Store, kind: type[Note], uid: str, now: datetime, reason: str | None = None
) -> int:
    """Take a note back; it stays in the store, and no list or statistic counts it.

    Raises:
        UnusableInput: there is no such note.
    """
    about = {"how": "withdrawn", "reason": reason}
    return _next_version(store, (NOTES[kind.table], uid), now, about)


def restore_note(store: Store, kind: type[Note], uid: str, number: int, now: datetime) -> int:
    """Make an earlier version of a note the current one again, by adding it as a new version.

    Raises:
        UnusableInput: there is no such note or version.
    """
    table = NOTES[kind.table]
    with store.reading() as connection:
        query = select(table).where(table.c.uid == uid, table.c.number == number)
        row = connection.execute(query).mappings().first()
    if row is None:
        raise UnusableInput(Fault("history", 0, kind.table, f"{uid} version {number}", _WANTED))
    earlier = {key: row[key] for key in (*_OWN_COLUMNS, "body")}
    return _next_version(store, (table, uid), now, {**earlier, "how": "restored"})


_WANTED = "a note that 'faultwort history show' lists"


def read_notes(
    connection: Connection, kind: type[Kind], batch: str | None = None
) -> Iterator[Noted[Kind]]:
    """The current notes of one kind, oldest first; withdrawn ones are left out.

    Args:
        connection: to the store.
        kind: which.
        batch: only those about the batch with this key.

    Raises:
        StoreUnusable: a note does not read as its kind.
    """
    for row in current_rows(connection, NOTES[kind.table], batch):
        try:
            own = {key: row[key] for key in _OWN_COLUMNS}
            note = kind.model_validate_json(_with(row["body"], own))
        except ValidationError as error:
            why = f"the note {row['uid']} of {kind.table} cannot be read; restore a backup"
            raise StoreUnusable(why) from error
        yield Noted(row["uid"], row["number"], row["key"], row["made_at"], note)


def current_rows(
    connection: Connection, table: Table, batch: str | None = None
) -> list[Mapping[str, Any]]:
    """The rows of the current notes of a table, with their batch's `key`, oldest first."""
    last = (
        select(table.c.uid, func.max(table.c.number).label("last")).group_by(table.c.uid).subquery()
    )
    joined = table.join(
        last, (last.c.uid == table.c.uid) & (last.c.last == table.c.number)
    ).outerjoin(batches, batches.c.id == table.c.batch_id)
    query = select(table, batches.c.key).select_from(joined).where(table.c.how != "withdrawn")
    if batch is not None:
        query = query.where(batches.c.key == batch)
    rows = connection.execute(query.order_by(table.c.id)).mappings()
    return [{str(key): value for key, value in row.items()} for row in rows]


def _with(body: str, own: Mapping[str, Any]) -> str:
    """The JSON object `body` with the columns that stand beside it put in."""
    inside = compact(dict(own))
    return inside if body == "{}" else f"{inside[:-1]},{body[1:]}"


def _columns(note: Note) -> dict[str, Any]:
    body = note.model_dump(mode="json", exclude=set(_OWN_COLUMNS))
    return {"at": note.at, "who": note.who, "typed": note.typed, "body": compact(body)}


def _latest(connection: Connection, table: Table, uid: str) -> Mapping[str, Any] | None:
    query = select(table).where(table.c.uid == uid).order_by(table.c.number.desc())
    row = connection.execute(query).mappings().first()
    return None if row is None else {str(key): value for key, value in row.items()}


def _next_version(
    store: Store, at: tuple[Table, str], now: datetime, changed: Mapping[str, Any]
) -> int:
    table, uid = at
    with store.writing() as connection:
        row = _latest(connection, table, uid)
        if row is None:
            raise UnusableInput(Fault("history", 0, table.name, repr(uid), _WANTED))
        number = int(row["number"]) + 1
        kept = {key: value for key, value in row.items() if key != "id"}
        new = {"how": "corrected", "reason": None, "number": number, "made_at": stamp(now)}
        connection.execute(table.insert().values(**{**kept, **new, **changed}))
        return number


@dataclass(frozen=True)
class Known:
    """What is known of a note by its uid: its kind, its batch, and whether it was withdrawn."""

    kind: str
    batch: str | None
    withdrawn: bool


def known_note(store: Store, uid: str) -> Known | None:
    """The note that has this uid; None where none has."""
    with store.reading() as connection:
        for kind, table in NOTES.items():
            row = _latest(connection, table, uid)
            if row is not None:
                key = select(batches.c.key).where(batches.c.id == row["batch_id"])
                batch = connection.execute(key).scalar()
                return Known(kind, batch, row["how"] == "withdrawn")
    return None


def note_called(store: Store, uid: str) -> Known:
    """The note that has this uid.

    Raises:
        UnusableInput: none has.
    """
    known = known_note(store, uid)
    if known is None:
        raise UnusableInput(Fault("history", 0, "note", repr(uid), _WANTED))
    return known
