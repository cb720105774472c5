"""An instrument that was off: which entries of past batches it spoiled, and putting them right.

Nothing is changed unless the brewer asks for it. A correction is a new version of the batch in
which the entry is rewritten and what was read stands beside it as a remark; undo takes it back.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime
from pathlib import Path as FilePath
from typing import Final

from sqlalchemy import Connection, select

from diagnose.batch import Batch, batch_from, logged_entries
from diagnose.documents import Path, parse_yaml
from diagnose.documents.document import dotted
from diagnose.errors import Fault, UnusableInput
from diagnose.history.brews import notes_of, offsets
from diagnose.history.correcting_text import Rewritten, corrected, rewritten
from diagnose.history.filing import content_fingerprint, content_of
from diagnose.history.finding_batches import numbered
from diagnose.history.keeping import add_version, keep_content
from diagnose.history.kinds import InstrumentCheck
from diagnose.history.listing import Wanted, current_versions, narrowed
from diagnose.history.noting import Noted
from diagnose.history.off_by import off_by
from diagnose.history.opening import Store
from diagnose.history.replaying import batch_of
from diagnose.history.tables import batches, contents, records, versions
from diagnose.knowledge import RuleBase, fold
from diagnose.units import Reading

# An instrument is in order if it is off by no more than this, in the unit of its kind.
# Judgement: what a home check in ice water, plain water or a buffer can show.
GOOD_WITHIN: Final[Mapping[str, float]] = {"C": 0.5, "SG": 0.001, "pH": 0.05, "g": 1.0, "L": 0.2}
# Where an instrument's own name does not say, these parts are not read off it: targets, and
# amounts that somebody else weighed.
_SECTIONS: Final = ("mash", "sparge", "boil", "chill", "pitch", "gravity", "fermentation")


@dataclass(frozen=True)
class OffCheck:
    """A check that found an instrument off, and since when that may have been so.

    `since` is the day of the check before, None where there is none; batches brewed after it and
    up to `until` are in doubt.
    """

    uid: str
    instrument: str
    offset: float
    unit: str
    since: str | None
    until: str


@dataclass(frozen=True)
class Spoiled:
    """A batch with entries in doubt: each entry, as typed and as it would be."""

    batch: str
    brewed_on: str | None
    entries: tuple[Rewritten, ...]


def off_checks(store: Store) -> list[OffCheck]:
    """Every check that found an instrument off, the latest last."""
    found = []
    for name, checks in offsets(store).items():
        ordered = sorted(checks, key=lambda one: (_day(one), one.made_at, one.uid))
        before: str | None = None
        for one in ordered:
            note = one.note
            if abs(note.offset) > GOOD_WITHIN.get(note.unit, 0.0):
                day = _day(one)
                found.append(OffCheck(one.uid, name, note.offset, note.unit, before, day))
            before = _day(one)
    return sorted(found, key=lambda one: (one.until, one.instrument, one.uid))


def _day(one: Noted[InstrumentCheck]) -> str:
    return (one.note.at or one.made_at)[:10]


def check_called(store: Store, instrument: str) -> OffCheck:
    """The latest check that found this instrument off.

    Raises:
        UnusableInput: there is none.
    """
    found = [one for one in off_checks(store) if fold(one.instrument) == fold(instrument)]
    if found:
        return found[-1]
    known = {one.note.instrument for one in notes_of(store, InstrumentCheck)}
    if fold(instrument) in {fold(name) for name in known}:
        told = f"{instrument!r}, which no check found off"
        raise UnusableInput(Fault("history correct", 0, "instrument", told, "one that is off"))
    wanted = f"one of {', '.join(sorted(known))}" if known else "one with a check; see 'instrument'"
    raise UnusableInput(Fault("history correct", 0, "instrument", repr(instrument), wanted))


def spoiled(store: Store, check: OffCheck, only: Sequence[str], today: date) -> Iterator[Spoiled]:
    """The batches brewed since the check before, with the entries this instrument may have read.

    Args:
        store: the history.
        check: what was found.
        only: beginnings of entries, such as "mash" or "fermentation.peak"; where there are
            none, the parts of the brew that the instrument's name tells, else all.
        today: dates after this day are refused.
    """
    wanted = tuple(only) or named_parts(check.instrument)
    for key, brewed_on in in_doubt(store, check, wanted):
        try:
            batch, _ = batch_of(store, key, today)
        except UnusableInput:
            continue
        entries = tuple(_entries(batch, check, wanted))
        if entries:
            yield Spoiled(key, brewed_on, entries)


def in_doubt(store: Store, check: OffCheck, wanted: Sequence[str]) -> list[tuple[str, str]]:
    """Key and brew day of every batch with an entry in doubt that nobody corrected for this check.

    Args:
        store: the history.
        check: what was found.
        wanted: beginnings of the entries that the instrument read; all where there are none.
    """
    columns = (batches.c.key, contents.c.brewed_on, records.c.entries)
    joined = current_versions().join(records, records.c.content_id == contents.c.id)
    query = narrowed(select(*columns).select_from(joined), Wanted(until=check.until))
    query = query.where(contents.c.brewed_on > (check.since or ""))
    undone = query.where(~records.c.text.contains(_mark(check)))
    with store.reading() as connection:
        rows = connection.execute(undone).all()
    found = [(row.brewed_on, row.key) for row in rows if _spoils(row.entries, check, wanted)]
    return [(key, brewed_on) for brewed_on, key in sorted(found)]


def _spoils(entries: str, check: OffCheck, wanted: Sequence[str]) -> bool:
    return any(
        entry.get("unit") == check.unit and _is_wanted(entry["key"], wanted)
        for entry in json.loads(entries)
    )


def named_parts(instrument: str) -> tuple[str, ...]:
    """The parts of the brew that an instrument's name tells: "mash thermometer"."""
    words = set(fold(instrument).split())
    words |= {"fermentation"} if words & {"fermenter", "fermentor", "fridge"} else set()
    return tuple(section for section in _SECTIONS if section in words)


def _entries(batch: Batch, check: OffCheck, wanted: Sequence[str]) -> Iterator[Rewritten]:
    for path, value in logged_entries(batch.record):
        if not isinstance(value, Reading) or value.unit != check.unit:
            continue
        if _is_wanted(dotted(path), wanted):
            yield Rewritten(path, value.typed, corrected(value, check.offset))


def _is_wanted(key: str, wanted: Sequence[str]) -> bool:
    begins = [key == one or key.startswith((f"{one}.", f"{one}[")) for one in wanted or _SECTIONS]
    return any(begins)


def _mark(check: OffCheck) -> str:
    return f"check {check.uid}"


def correct(
    store: Store, rules: RuleBase, found: tuple[Spoiled, OffCheck], now: datetime
) -> int | None:
    """Write a new version of a batch in which the entries are put right.

    Returns:
        the number of the version; None where the text cannot be rewritten without touching
        anything else, and nothing is changed then.

    Raises:
        StoreUnusable: the store cannot be written.
    """
    one, check = found
    _, log = batch_of(store, one.batch, now.date())
    with store.writing() as connection:
        kept = _kept(connection, one.batch)
        text = rewritten(kept.text, one.entries, f"{check.instrument}, {_mark(check)}")
        batch = _read_again(text, kept, one.entries, now.date())
        if batch is None:
            return None
        content = content_of(rules, batch, text, log)
        named = {**content.short, "name": kept.name}
        fingerprint = content_fingerprint(text, content.log, kept.name)
        content = replace(content, short=named, fingerprint=fingerprint)
        off = off_by(check.offset, check.unit)
        reason = f"{check.instrument} read {off} ({_mark(check)})"
        row = {"how": "corrected", "of_number": None, "file_path": None, "reason": reason}
        content_id = keep_content(connection, content)
        return add_version(connection, numbered(connection, one.batch), content_id, now, row)


@dataclass(frozen=True)
class _Kept:
    text: str
    file_name: str
    name: str


def _kept(connection: Connection, key: str) -> _Kept:
    batch = numbered(connection, key)
    joined = versions.join(contents, contents.c.id == versions.c.content_id).join(
        records, records.c.content_id == contents.c.id
    )
    query = select(records.c.text, records.c.file_name, contents.c.name).select_from(joined)
    here = (versions.c.batch_id == batch.id, versions.c.number == batch.current)
    return _Kept(*connection.execute(query.where(*here)).one())


def _read_again(text: str, kept: _Kept, entries: Sequence[Rewritten], today: date) -> Batch | None:
    """The rewritten record, where it reads and differs in these entries alone."""
    try:
        before, after = (
            batch_from(parse_yaml(one, kept.file_name, as_typed=True), FilePath(), today)
            for one in (kept.text, text)
        )
    except UnusableInput:
        return None
    wanted = _typed(before) | {one.path: one.corrected for one in entries}
    return after if _typed(after) == wanted else None


def _typed(batch: Batch) -> dict[Path, str]:
    return {path: getattr(value, "typed", value) for path, value in logged_entries(batch.record)}
