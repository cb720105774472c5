"""Every batch with its measures, factors, tastings and verdicts: what statistics are made from."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, select

from diagnose.batch.probe import ProbeLog
from diagnose.history.finding_batches import numbered
from diagnose.history.kinds import InstrumentCheck, TastingNote, Verdict
from diagnose.history.listing import EVERYTHING, Wanted, as_brewed, current_versions, narrowed
from diagnose.history.noting import Kind, Noted, read_notes
from diagnose.history.opening import Store
from diagnose.history.probes import packed_log, unpack_log
from diagnose.history.tables import batches, contents, measured, versions

Measured = tuple[float, float, float] | str


@dataclass(frozen=True)
class Tasting:
    """What one taster said of one batch, from its record or noted later.

    `reported` gives each descriptor its intensity, None where none was named; `words` are as
    typed; `when` is ISO 8601 or None.
    """

    who: str | None
    when: str | None
    words: str
    reported: Mapping[str, str | None]
    absent: frozenset[str]


@dataclass(frozen=True)
class DatedEvent:
    """Something changed or done: its date (YYYY-MM-DD, None where not said), kind and words."""

    on: str | None
    kind: str
    text: str


@dataclass(frozen=True)
class Brew:
    """One batch as its current version has it.

    `measures` are by id of the rule base: (low, mid, high) in the measure's unit, or a class's
    word; one that is not there is open. `factors` are words by factor ("fermentable", "hop",
    "lot", "vessel", "brewer", "month" …). `events` are those the record itself tells.
    `rules_version` measured it.
    """

    key: str
    name: str
    brewed_on: str | None
    brewer: str | None
    style_id: str | None
    yeast_id: str | None
    method: str | None
    rules_version: str
    measures: Mapping[str, Measured]
    factors: Mapping[str, tuple[str, ...]]
    events: tuple[DatedEvent, ...]
    tastings: tuple[Tasting, ...]
    verdicts: tuple[Noted[Verdict], ...]

    @property
    def reported(self) -> frozenset[str]:
        """Descriptors that any taster reported."""
        return frozenset(word for one in self.tastings for word in one.reported)

    @property
    def absent(self) -> frozenset[str]:
        """Descriptors that a taster denied and none reported."""
        return frozenset(word for one in self.tastings for word in one.absent) - self.reported


def read_brews(store: Store, wanted: Wanted = EVERYTHING) -> list[Brew]:
    """Every batch, in the order they were brewed; those without a brew day last.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    columns = (batches.c.key, *_SHORT, measured.c.rules_version, *_COMPUTED)
    joined = current_versions().join(measured, measured.c.content_id == contents.c.id)
    with store.reading() as connection:
        tasted = _by_batch(connection, TastingNote)
        judged = _by_batch(connection, Verdict)
        query = narrowed(select(*columns).select_from(joined), wanted)
        rows = connection.execution_options(yield_per=500).execute(query)
        brews = [
            _brew(row, tasted.get(row.key, []), tuple(judged.get(row.key, []))) for row in rows
        ]
    kept = [one for one in brews if not wanted.flaw or wanted.flaw & one.reported]
    return sorted(kept, key=lambda one: as_brewed(one.brewed_on, one.key))


_SHORT = (
    contents.c.name,
    contents.c.brewed_on,
    contents.c.brewer,
    contents.c.style_id,
    contents.c.yeast_id,
    contents.c.method,
    contents.c.tasted,
)
_COMPUTED = (measured.c.findings, measured.c.factors)


def _brew(row: Any, tasted: list[Noted[TastingNote]], judged: tuple[Noted[Verdict], ...]) -> Brew:
    computed = json.loads(row.factors)
    return Brew(
        key=row.key,
        name=row.name,
        brewed_on=row.brewed_on,
        brewer=row.brewer,
        style_id=row.style_id,
        yeast_id=row.yeast_id,
        method=row.method,
        rules_version=row.rules_version,
        measures={key: _measure(value) for key, value in json.loads(row.findings).items()},
        factors={key: tuple(words) for key, words in computed["words"].items()},
        events=tuple(DatedEvent(*one) for one in computed["events"]),
        tastings=(*map(_recorded, json.loads(row.tasted)), *map(_noted, tasted)),
        verdicts=judged,
    )


def _measure(value: Any) -> Measured:
    if isinstance(value, str):
        return value
    low, mid, high = value
    return float(low), float(mid), float(high)


def _recorded(one: Mapping[str, Any]) -> Tasting:
    absent = frozenset(one["absent"])
    return Tasting(one["who"], one["when"], one["words"], one["reported"], absent)


def _noted(one: Noted[TastingNote]) -> Tasting:
    note = one.note
    return Tasting(note.who, note.at, note.typed, note.reported, frozenset(note.absent))


def _by_batch(connection: Connection, kind: type[Kind]) -> dict[str, list[Noted[Kind]]]:
    found: dict[str, list[Noted[Kind]]] = {}
    for one in read_notes(connection, kind):
        if one.batch is not None:
            found.setdefault(one.batch, []).append(one)
    return found


def notes_of(store: Store, kind: type[Kind], batch: str | None = None) -> list[Noted[Kind]]:
    """The current notes of a kind, oldest first; all of them, or those about one batch."""
    with store.reading() as connection:
        return list(read_notes(connection, kind, batch))


def offsets(store: Store) -> dict[str, list[Noted[InstrumentCheck]]]:
    """The checks of each instrument by its name, oldest first."""
    found: dict[str, list[Noted[InstrumentCheck]]] = {}
    for one in notes_of(store, InstrumentCheck):
        found.setdefault(one.note.instrument, []).append(one)
    return found


def probe_log_of(store: Store, key: str) -> ProbeLog | None:
    """The probe log of a batch's current version; None where it has none.

    Raises:
        UnusableInput: there is no such batch.
    """
    with store.reading() as connection:
        batch = numbered(connection, key)
        joined = versions.join(contents, contents.c.id == versions.c.content_id)
        query = (
            select(contents.c.probe_id)
            .select_from(joined)
            .where(versions.c.batch_id == batch.id, versions.c.number == batch.current)
        )
        probe_id = connection.execute(query).scalar()
        return None if probe_id is None else unpack_log(packed_log(connection, int(probe_id)))
