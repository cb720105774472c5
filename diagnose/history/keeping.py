"""Writing batches down: the same content once, a change as a new version, nothing overwritten."""

from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from sqlalchemy import Connection, func, select

from diagnose.errors import Fault, UnusableInput
from diagnose.history.filing import Content, Filing
from diagnose.history.finding_batches import Numbered, numbered
from diagnose.history.opening import Store
from diagnose.history.probes import keep_log
from diagnose.history.tables import batches, contents, measured, records, versions
from diagnose.history.writing_down import compact, slug, stamp

Outcome = Literal["new batch", "new version", "already there"]


@dataclass(frozen=True)
class Kept:
    """What became of a file: which batch and version it is, and whether that is new.

    `of_number` is the earlier version that was brought back, 0 where the batch was withdrawn, and
    None where neither was done.
    """

    key: str
    name: str
    number: int
    outcome: Outcome
    of_number: int | None = None


@dataclass(frozen=True)
class Wish:
    """What the brewer says about where a file belongs.

    `of` names the batch it is a version of; `apart` says that it is a batch of its own even
    though one of the same name, day and brewer is there.
    """

    of: str | None = None
    apart: bool = False
    reason: str | None = None


def keep_batch(store: Store, filing: Filing, now: datetime, wish: Wish | None = None) -> Kept:
    """Write a record down, in one transaction.

    Without a wish, a record is a version of the batch with its name, brew day and brewer, else
    of the batch that came from the same file and was brewed on the same day, else a new batch.

    Raises:
        UnusableInput: the wish names a batch that is not there.
        StoreUnusable: the store cannot be written.
    """
    with store.writing() as connection:
        return keep_in(connection, filing, now, wish or Wish())


def keep_in(connection: Connection, filing: Filing, now: datetime, wish: Wish) -> Kept:
    """`keep_batch` as part of a wider transaction."""
    content = filing.content
    name = str(content.short["name"])
    batch = _batch_for(connection, filing, wish)
    if batch is None:
        batch = _new_batch(connection, filing, now, wish)
    fingerprint = _current_fingerprint(connection, batch)
    if fingerprint == content.fingerprint:
        return Kept(batch.key, name, batch.current, "already there")
    row = {"how": "added", "file_path": filing.path, "reason": wish.reason}
    number = add_version(connection, batch, keep_content(connection, content), now, row)
    return Kept(batch.key, name, number, "new batch" if number == 1 else "new version")


def keep_content(connection: Connection, content: Content) -> int:
    """Write a content down unless it is there; its number in the store."""
    same = select(contents.c.id).where(contents.c.fingerprint == content.fingerprint)
    found = connection.execute(same).scalar()
    if found is not None:
        return int(found)
    probe_id = keep_log(connection, content.log) if content.log is not None else None
    short = {**content.short, "tasted": compact(content.short["tasted"])}
    made = connection.execute(
        contents.insert().values(fingerprint=content.fingerprint, probe_id=probe_id, **short)
    ).inserted_primary_key
    content_id = int(made[0]) if made is not None else 0
    file = {"file_name": content.file_name, "text": content.text}
    entries = compact(content.entries)
    connection.execute(records.insert().values(content_id=content_id, entries=entries, **file))
    computed = {
        key: value if key == "rules_version" else compact(value)
        for key, value in content.computed.items()
    }
    connection.execute(measured.insert().values(content_id=content_id, **computed))
    return content_id


def add_version(
    connection: Connection,
    batch: Numbered,
    content_id: int | None,
    now: datetime,
    row: dict[str, Any],
) -> int:
    """Add the next version of a batch; its number."""
    number = batch.current + 1
    named = {"batch_id": batch.id, "number": number, "content_id": content_id}
    connection.execute(versions.insert().values(made_at=stamp(now), **named, **row))
    return number


def _batch_for(connection: Connection, filing: Filing, wish: Wish) -> Numbered | None:
    if wish.of is not None:
        return numbered(connection, wish.of)
    return None if wish.apart else batch_for(connection, filing)


def batch_for(connection: Connection, filing: Filing) -> Numbered | None:
    """The batch that a record is a version of; None where it is a new one."""
    identity = identity_of(filing.content)
    found = connection.execute(
        select(batches.c.key).where(batches.c.identity == identity)
    ).scalar() or _from_same_file(connection, filing)
    return numbered(connection, str(found)) if found is not None else None


def _from_same_file(connection: Connection, filing: Filing) -> Any:
    brewed_on = filing.content.short["brewed_on"]
    if filing.path is None or brewed_on is None:
        return None
    joined = batches.join(versions, versions.c.batch_id == batches.c.id).join(
        contents, contents.c.id == versions.c.content_id
    )
    query = (
        select(batches.c.key)
        .select_from(joined)
        .where(versions.c.file_path == filing.path, contents.c.brewed_on == brewed_on)
        .order_by(versions.c.id.desc())
    )
    return connection.execute(query).scalars().first()


def identity_of(content: Content) -> str:
    """What makes two records the same batch: name, brew day and brewer."""
    short = content.short
    parts = (str(short["name"]), short["brewed_on"] or "", short["brewer"] or "")
    return "|".join(" ".join(part.casefold().split()) for part in parts)


def _new_batch(connection: Connection, filing: Filing, now: datetime, wish: Wish) -> Numbered:
    short = filing.content.short
    parts = [str(short["name"]), *([short["brewed_on"]] if short["brewed_on"] else [])]
    key = free(connection, batches.c.key, slug(" ".join(parts)), "-")
    identity = identity_of(filing.content)
    if wish.apart:
        identity = free(connection, batches.c.identity, identity, "|")
    return insert_batch(connection, key, identity, stamp(now))


def insert_batch(connection: Connection, key: str, identity: str, added_at: str) -> Numbered:
    """Write a batch without versions down."""
    made = connection.execute(
        batches.insert().values(identity=identity, key=key, added_at=added_at)
    ).inserted_primary_key
    return Numbered(int(made[0]) if made is not None else 0, key, 0)


def free(connection: Connection, column: Any, wanted: str, between: str) -> str:
    """`wanted`, or the first of `wanted-2`, `wanted-3` … that no row of the column has."""
    name, number = wanted, 1
    while connection.execute(select(func.count()).where(column == name)).scalar():
        number += 1
        name = f"{wanted}{between}{number}"
    return name


def _current_fingerprint(connection: Connection, batch: Numbered) -> str | None:
    joined = versions.join(contents, contents.c.id == versions.c.content_id)
    query = (
        select(contents.c.fingerprint)
        .select_from(joined)
        .where(versions.c.batch_id == batch.id, versions.c.number == batch.current)
    )
    found = connection.execute(query).scalar()
    return None if found is None else str(found)


def restore(store: Store, key: str, number: int, now: datetime, reason: str | None = None) -> Kept:
    """Make an earlier version the current one again, by adding it as a new version.

    Raises:
        UnusableInput: there is no such batch or version.
    """
    with store.writing() as connection:
        return _return_to(connection, numbered(connection, key), number, now, reason)


def undo(store: Store, key: str, now: datetime, reason: str | None = None) -> Kept:
    """Go back to the version before the current one; from the first, the batch is withdrawn.

    A batch that is withdrawn is kept and can be restored, but no list or statistic counts it.
    An undo that is undone gives the version from before it.

    Raises:
        UnusableInput: there is no such batch.
    """
    with store.writing() as connection:
        batch = numbered(connection, key)
        return _return_to(connection, batch, batch.current - 1, now, reason)


def _return_to(
    connection: Connection, batch: Numbered, number: int, now: datetime, reason: str | None
) -> Kept:
    content_id = None
    if number > 0:
        row = connection.execute(
            select(versions.c.content_id).where(
                versions.c.batch_id == batch.id, versions.c.number == number
            )
        ).first()
        if row is None:
            found, wanted = f"version {number}", f"one of 1 to {batch.current}"
            raise UnusableInput(Fault(batch.key, 0, "version", found, wanted))
        content_id = row[0]
    how = "withdrawn" if content_id is None else "restored"
    about = {"how": how, "of_number": number or None, "file_path": None, "reason": reason}
    made = add_version(connection, batch, content_id, now, about)
    return Kept(batch.key, batch.key, made, "new version", number if content_id else 0)
