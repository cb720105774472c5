"""The list of batches: one line each, quick for ten thousand of them."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, NamedTuple

from sqlalchemy import Connection, FromClause, Select, func, select

from diagnose.history.opening import Store
from diagnose.history.tables import batches, contents, tastings, verdicts, versions


@dataclass(frozen=True)
class Wanted:
    """Which batches: brewed from `since` to `until` (YYYY-MM-DD), of a style, with a flaw.

    A batch whose brew day was not logged is left out as soon as a day is asked for. `style` is
    an id of the rule base or a part of what was typed; `flaw` holds descriptor ids, one of
    which was reported.
    """

    since: str | None = None
    until: str | None = None
    style: str | None = None
    flaw: frozenset[str] = frozenset()


EVERYTHING: Final = Wanted()


class BatchLine(NamedTuple):
    """One batch in short; a tuple, as making ten thousand frozen records takes too long.

    `reported` are the descriptors any taster reported, `absent` those denied and reported by
    nobody; `tastings` counts what tasters said, `unclear` how often words of it were not
    understood. `verdict` is the latest one that was confirmed, with its confidence.
    """

    key: str
    name: str
    brewed_on: str | None
    style: str | None
    style_id: str | None
    brewer: str | None
    version: int
    tastings: int
    reported: tuple[str, ...]
    absent: tuple[str, ...]
    verdict: str | None
    confidence: float | None
    unclear: int = 0


def list_batches(store: Store, wanted: Wanted = EVERYTHING) -> list[BatchLine]:
    """The batches in the order they were brewed, those without a brew day last.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    with store.reading() as connection:
        rows = connection.execute(_query(wanted)).all()
        tasted = _bodies(connection, tastings)
        judged = _bodies(connection, verdicts)
    # Without the checks of json.loads, which take as long as the reading where texts are short.
    read = json.JSONDecoder().raw_decode
    lines = (
        _line(row, (*read(row[-1])[0], *tasted.get(row[0], ())), judged.get(row[0], ()))
        for row in rows
    )
    kept = [line for line in lines if not wanted.flaw or wanted.flaw & set(line.reported)]
    return sorted(kept, key=lambda line: as_brewed(line.brewed_on, line.key))


def shown_id(words: str) -> str:
    """The id of a descriptor that the list of batches shows as these words."""
    return "_".join(words.casefold().split())


def current_versions() -> FromClause:
    """Batches joined to their current version's content; withdrawn batches fall out."""
    last = (
        select(versions.c.batch_id, func.max(versions.c.number).label("last"))
        .group_by(versions.c.batch_id)
        .subquery()
    )
    return (
        batches.join(last, last.c.batch_id == batches.c.id)
        .join(
            versions,
            (versions.c.batch_id == batches.c.id) & (versions.c.number == last.c.last),
        )
        .join(contents, contents.c.id == versions.c.content_id)
    )


def narrowed(query: Select[Any], wanted: Wanted) -> Select[Any]:
    """A query over `current_versions` with the filters that the database can apply."""
    if wanted.since is not None:
        query = query.where(contents.c.brewed_on >= wanted.since)
    if wanted.until is not None:
        query = query.where(contents.c.brewed_on <= wanted.until)
    if wanted.style is not None:
        typed = contents.c.style.icontains(wanted.style, autoescape=True)
        query = query.where((contents.c.style_id == wanted.style) | typed)
    return query


def as_brewed(brewed_on: str | None, key: str) -> tuple[bool, str, str]:
    """What batches are put in order by; here, as every database sorts texts in its own way."""
    return brewed_on is None, brewed_on or "", key


def _query(wanted: Wanted) -> Select[Any]:
    columns = (batches.c.id, batches.c.key, versions.c.number, *_SHORT)
    return narrowed(select(*columns).select_from(current_versions()), wanted)


_SHORT: Final = (
    contents.c.name,
    contents.c.brewed_on,
    contents.c.style,
    contents.c.style_id,
    contents.c.brewer,
    contents.c.tasted,
)


def _bodies(connection: Connection, table: Any) -> dict[int, list[Mapping[str, Any]]]:
    """The current notes of a table by batch, oldest first."""
    query = select(table.c.uid, table.c.batch_id, table.c.how, table.c.typed, table.c.body)
    current: dict[str, Any] = {}
    for row in connection.execute(query.order_by(table.c.number, table.c.id)):
        current[row.uid] = row
    found: dict[int, list[Mapping[str, Any]]] = {}
    for row in current.values():
        if row.how != "withdrawn":
            note = {**json.loads(row.body), "words": row.typed}
            found.setdefault(row.batch_id, []).append(note)
    return found


def _line(
    row: Sequence[Any], heard: Sequence[Mapping[str, Any]], judged: Sequence[Mapping[str, Any]]
) -> BatchLine:
    _, key, number, name, brewed_on, style, style_id, brewer, _ = row
    reported = {word for one in heard for word in one["reported"]}
    absent = {word for one in heard for word in one["absent"]} - reported
    sure = [one for one in judged if one["state"] == "confirmed"]
    return BatchLine(
        key=key,
        name=name,
        brewed_on=brewed_on,
        style=style,
        style_id=style_id,
        brewer=brewer,
        version=number,
        tastings=sum(1 for one in heard if one["words"] or one["reported"] or one["absent"]),
        reported=tuple(sorted(reported)),
        absent=tuple(sorted(absent)),
        verdict=sure[-1]["cause"] if sure else None,
        confidence=sure[-1]["confidence"] if sure else None,
        unclear=sum(1 for one in heard if one.get("not_understood")),
    )
