"""Everything in a store as JSON Lines: read back, it is the same store."""

import json
import os
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sqlalchemy import Connection, func, select

from diagnose.errors import Fault, UnusableInput
from diagnose.history.exchange import (
    SCHEMA,
    BatchOut,
    ContentLine,
    Head,
    Line,
    NoteLine,
    NotesOut,
    ProbeLine,
    Tail,
    VersionLine,
    probe_line,
)
from diagnose.history.opening import Store
from diagnose.history.probes import packed_log, unpack_log
from diagnose.history.tables import NOTES, batches, contents, measured, records, versions

Progress = Callable[[int, int], None]


def export_to(store: Store, file: Path, progress: Progress | None = None) -> int:
    """Write everything to a file, which is whole or not there at all.

    Args:
        store: what to export, as it is at one moment.
        file: the file to make.
        progress: told (batches done, batches in all) as it goes.

    Returns:
        the number of batches.

    Raises:
        UnusableInput: there is a file of that name.
        StoreUnusable: the store cannot be read.
        OSError: the file cannot be written.
    """
    if file.exists():
        raise UnusableInput(Fault(str(file), 0, "", "a file that exists", "a new name"))
    with TemporaryDirectory(dir=file.parent, prefix=".exporting-") as folder:
        unfinished, lines = Path(folder) / file.name, 0
        with store.reading() as connection, unfinished.open("w", encoding="utf-8") as out:
            total = int(connection.execute(select(func.count(batches.c.id))).scalar() or 0)
            for lines, line in enumerate(_lines(connection, total), start=1):
                out.write(f"{line.model_dump_json()}\n")
                if progress is not None:
                    progress(min(lines, total), total)
            out.write(f"{Tail(end=True, lines=lines).model_dump_json()}\n")
            out.flush()
            os.fsync(out.fileno())
        unfinished.rename(file)
    return total


def _lines(connection: Connection, total: int) -> Iterator[Line]:
    yield Head(schema_is=SCHEMA, batches=total)
    # In an order of our own, as every database sorts texts in its own way.
    for key in sorted(str(key) for key in connection.execute(select(batches.c.key)).scalars()):
        yield batch_out(connection, key)
    yield NotesOut(notes=tuple(_notes(connection, None)))


def batch_out(connection: Connection, key: str) -> BatchOut:
    """A batch with everything about it."""
    batch = connection.execute(select(batches).where(batches.c.key == key)).mappings().one()
    query = select(versions, contents.c.fingerprint).select_from(
        versions.outerjoin(contents, contents.c.id == versions.c.content_id)
    )
    rows = connection.execute(
        query.where(versions.c.batch_id == batch["id"]).order_by(versions.c.number)
    ).mappings()
    made = list(rows)
    content_ids = dict.fromkeys(row["content_id"] for row in made if row["content_id"])
    return BatchOut(
        key=batch["key"],
        identity=batch["identity"],
        added_at=batch["added_at"],
        versions=tuple(_version(row) for row in made),
        contents=tuple(content_out(connection, content_id) for content_id in content_ids),
        notes=tuple(_notes(connection, int(batch["id"]))),
    )


def _version(row: Mapping[Any, Any]) -> VersionLine:
    return VersionLine(
        number=row["number"],
        content=row["fingerprint"],
        how=row["how"],
        of_number=row["of_number"],
        made_at=row["made_at"],
        file_path=row["file_path"],
        reason=row["reason"],
    )


def content_out(connection: Connection, content_id: int) -> ContentLine:
    """One state of a record, with its probe log."""
    joined = contents.join(records, records.c.content_id == contents.c.id).join(
        measured, measured.c.content_id == contents.c.id
    )
    query = select(contents, records, measured).select_from(joined)
    row = connection.execute(query.where(contents.c.id == content_id)).mappings().one()
    known = {key: row[key] for key in ContentLine.model_fields if key in row}
    parsed = {key: json.loads(row[key]) for key in _AS_JSON}
    probe_id = row["probe_id"]
    probe = None if probe_id is None else probe_out(connection, int(probe_id))
    return ContentLine.model_validate({**known, **parsed, "probe": probe})


_AS_JSON = ("tasted", "entries", "findings", "factors", "said")


def probe_out(connection: Connection, probe_id: int) -> ProbeLine:
    """A probe log in plain numbers."""
    packed = packed_log(connection, probe_id)
    return probe_line(unpack_log(packed), packed.fingerprint)


def _notes(connection: Connection, batch_id: int | None) -> Iterator[NoteLine]:
    for kind, table in NOTES.items():
        here = table.c.batch_id == batch_id if batch_id is not None else table.c.batch_id.is_(None)
        rows = connection.execute(select(table).where(here).order_by(table.c.id)).mappings()
        for row in rows:
            own = {key: row[key] for key in NoteLine.model_fields if key in row}
            yield NoteLine.model_validate({**own, "kind": kind, "body": json.loads(row["body"])})
