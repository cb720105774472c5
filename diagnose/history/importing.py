"""An export read back: what the store has already is left alone, the rest is added."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final, TypeVar, get_args

from pydantic import ValidationError
from sqlalchemy import Connection, Table, func, select

from diagnose.batch.probe import Flag
from diagnose.errors import Fault, UnusableInput
from diagnose.history.exchange import (
    BatchOut,
    ContentLine,
    Head,
    Line,
    NoteLine,
    NotesOut,
    Tail,
    VersionLine,
    log_of,
)
from diagnose.history.filing import Content, content_fingerprint
from diagnose.history.finding_batches import Numbered
from diagnose.history.keeping import free, insert_batch, keep_content
from diagnose.history.opening import Store
from diagnose.history.probes import PackedLog, pack_log
from diagnose.history.tables import NOTES, batches, contents, versions
from diagnose.history.writing_down import compact

Progress = Callable[[int, int], None]
Shape = TypeVar("Shape", bound=Line)
# Batches written together: one by one, the disk would be waited for after each.
_AT_A_TIME: Final = 50
_FLAGS: Final[tuple[Flag, ...]] = get_args(Flag)
_SHORT: Final = (
    "name",
    "brewer",
    "brewed_on",
    "style",
    "style_id",
    "yeast_id",
    "method",
    "tasted",
)
_COMPUTED: Final = ("rules_version", "findings", "factors", "said")


@dataclass(frozen=True)
class Imported:
    """What an import brought: batches that are new, versions and notes added in all."""

    batches: int = 0
    versions: int = 0
    notes: int = 0

    def __add__(self, other: "Imported") -> "Imported":
        return Imported(
            self.batches + other.batches, self.versions + other.versions, self.notes + other.notes
        )


def import_from(store: Store, file: Path, progress: Progress | None = None) -> Imported:
    """Add everything in an export to a store; done twice, it is as if done once.

    Every batch goes in whole or not at all, fifty at a time; an import that was cut off is
    simply run again.

    Args:
        store: where to.
        file: what `export_to` wrote.
        progress: told (bytes done, bytes in all) as it goes.

    Raises:
        UnusableInput: the file is no export, was changed by hand, or is cut short.
        StoreUnusable: the store cannot be written.
    """
    done = Imported()
    for group, position in _groups(file):
        with store.writing() as connection:
            for number, line in group:
                done += _take_in(connection, file, number, line)
        if progress is not None:
            progress(position, file.stat().st_size)
    return done


_Group = list[tuple[int, BatchOut | NotesOut]]


def _groups(file: Path) -> Iterator[tuple[_Group, int]]:
    """Lines with their numbers, fifty at a time, and how many bytes were read by then."""
    group: _Group = []
    ended, number, position = False, 0, 0
    with file.open("rb") as opened:
        for number, raw in enumerate(opened, start=1):
            position += len(raw)
            if number == 1:
                _read(Head, file, number, raw)
            elif raw.startswith(b'{"end"'):
                ended = _read(Tail, file, number, raw).lines == number - 1
            else:
                shape: type[BatchOut | NotesOut] = (
                    NotesOut if raw.startswith(b'{"notes"') else BatchOut
                )
                group.append((number, _read(shape, file, number, raw)))
            if len(group) == _AT_A_TIME:
                yield group, position
                group = []
    if group:
        yield group, position
    if not ended:
        found = "the end of the file before its closing line"
        wanted = "a whole export; what stands before is in the store now"
        raise UnusableInput(Fault(str(file), number, "", found, wanted))


def _read(shape: type[Shape], file: Path, number: int, raw: bytes) -> Shape:
    try:
        return shape.model_validate_json(raw)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        key = ".".join(str(step) for step in first["loc"][:4])
        found = first.get("input")
        text = found.decode("utf-8", "replace").strip() if isinstance(found, bytes) else repr(found)
        shown = text if len(text) <= _SHOWN else f"{text[:_SHOWN]}…"
        wanted = f"a line that 'faultwort history export' wrote{_so_far(number)}"
        raise UnusableInput(Fault(str(file), number, key, shown, wanted)) from error


_SHOWN: Final = 50


def _so_far(number: int) -> str:
    """What became of the lines before one that cannot be read; they go in some at a time."""
    return "" if number == 1 else "; lines before it may be in the store, each batch whole"


def _take_in(
    connection: Connection, file: Path, number: int, line: BatchOut | NotesOut
) -> Imported:
    try:
        if isinstance(line, NotesOut):
            return Imported(notes=_add_notes(connection, line.notes, None))
        kept = {one.fingerprint: _keep(connection, one) for one in line.contents}
        batch, new = _batch(connection, line)
        added = _add_versions(connection, batch, line.versions, kept)
        return Imported(int(new), added, _add_notes(connection, line.notes, batch.id))
    except (ValueError, KeyError, IndexError) as error:
        wanted = "a line as 'faultwort history export' wrote it"
        raise UnusableInput(Fault(str(file), number, "", str(error), wanted)) from error


def _keep(connection: Connection, line: ContentLine) -> int:
    said = line.model_dump(mode="json", exclude={"probe"})
    content = Content(
        fingerprint=line.fingerprint,
        file_name=line.file_name,
        text=line.text,
        short={key: said[key] for key in _SHORT},
        entries=tuple(line.entries),
        computed={key: said[key] for key in _COMPUTED},
        log=_log(line),
    )
    if content_fingerprint(line.text, content.log, line.name) != line.fingerprint:
        raise ValueError(f"a record of {line.name!r} that is not what was exported")
    return keep_content(connection, content)


def _log(line: ContentLine) -> PackedLog | None:
    if line.probe is None:
        return None
    packed = pack_log(log_of(line.probe, _FLAGS))
    if packed.fingerprint != line.probe.fingerprint:
        raise ValueError(f"readings of {line.probe.file_name!r} that are not what was exported")
    return packed


def _batch(connection: Connection, line: BatchOut) -> tuple[Numbered, bool]:
    same = select(batches.c.id, batches.c.key).where(batches.c.identity == line.identity)
    row = connection.execute(same).first()
    if row is None:
        key = free(connection, batches.c.key, line.key, "-")
        return insert_batch(connection, key, line.identity, line.added_at), True
    current = select(func.max(versions.c.number)).where(versions.c.batch_id == row.id)
    number = int(connection.execute(current).scalar() or 0)
    return Numbered(int(row.id), str(row.key), number), False


def _add_versions(
    connection: Connection,
    batch: Numbered,
    lines: tuple[VersionLine, ...],
    kept: dict[str, int],
) -> int:
    """Add the versions the store lacks; where the two had gone apart, those come after its own."""
    there = _numbers_there(connection, batch)
    number, added, now_called = batch.current, 0, dict[int | None, int | None]()
    for line in lines:
        same = there.get((line.made_at, line.content, line.how))
        if same:
            now_called[line.number] = same.pop(0)
            continue
        number, added = number + 1, added + 1
        now_called[line.number] = number
        row = line.model_dump(exclude={"number", "content", "of_number"})
        row["of_number"] = now_called.get(line.of_number, line.of_number)
        content_id = None if line.content is None else kept[line.content]
        about: dict[str, Any] = {"batch_id": batch.id, "number": number, "content_id": content_id}
        connection.execute(versions.insert().values(**about, **row))
    return added


_Same = tuple[str, str | None, str]


def _numbers_there(connection: Connection, batch: Numbered) -> dict[_Same, list[int]]:
    joined = versions.outerjoin(contents, contents.c.id == versions.c.content_id)
    columns = (versions.c.number, versions.c.made_at, versions.c.how, contents.c.fingerprint)
    query = select(*columns).select_from(joined).where(versions.c.batch_id == batch.id)
    found: dict[_Same, list[int]] = {}
    for row in connection.execute(query.order_by(versions.c.number)):
        found.setdefault((row.made_at, row.fingerprint, row.how), []).append(int(row.number))
    return found


def _add_notes(connection: Connection, lines: tuple[NoteLine, ...], batch_id: int | None) -> int:
    added = 0
    for line in lines:
        if line.kind not in NOTES:
            raise ValueError(f"notes of the kind {line.kind!r}")
        table = NOTES[line.kind]
        row = {**line.model_dump(exclude={"kind", "body"}), "body": compact(line.body)}
        there = _versions_there(connection, table, line.uid)
        if any(all(one[key] == row[key] for key in _SAME) for one in there):
            continue
        taken = {one["number"] for one in there}
        number = line.number if line.number not in taken else max(taken) + 1
        connection.execute(table.insert().values(**{**row, "number": number, "batch_id": batch_id}))
        added += 1
    return added


_SAME: Final = ("made_at", "how", "at", "who", "typed", "body")


def _versions_there(connection: Connection, table: Table, uid: str) -> list[Any]:
    return list(connection.execute(select(table).where(table.c.uid == uid)).mappings())
