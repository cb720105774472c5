"""The time of every row on UTC, and in which order the rows were written."""

from dataclasses import dataclass

import numpy as np

from diagnose.batch.probe.civil import clock_seconds, collect
from diagnose.batch.probe.date_order import settle_date_order
from diagnose.batch.probe.log import BoolArray, FloatArray, IntArray, Note, Understood, counted
from diagnose.batch.probe.packed import PackedRows
from diagnose.batch.probe.stamps import Stamp, stamp_of
from diagnose.batch.probe.table import Table
from diagnose.batch.probe.zones import Placed, find_zone, offset_in_header, place, zone_in_preamble
from diagnose.errors import Fault, UnusableInput

# A clock that falls back by about an hour was set to winter time. Judgement on "about".
FALL_BACK_S = (2700.0, 4500.0)


@dataclass(frozen=True, eq=False)
class Clock:
    """The times of the readable rows, earliest first.

    `order` lists the rows of the table in that sequence; `utc_s` [s] and `repeated_hour` follow it.
    """

    order: IntArray
    utc_s: FloatArray
    repeated_hour: BoolArray
    zone: Understood
    date_order: Understood
    notes: tuple[Note, ...]


def read_clock(table: Table, *, zone: str | None, day_first: bool | None) -> Clock:
    """When each row was logged.

    Args:
        table: the rows.
        zone: the record's zone, for times that carry none.
        day_first: the reader's answer about 03/04/2024, if given.

    Raises:
        UnusableInput: no time can be read, or the order of day and month stays open.
    """
    stamps = table.rows.stamps if isinstance(table.rows, PackedRows) else collect(_stamps(table))
    lines = table.lines
    first, date_order = settle_date_order(stamps, lines, day_first=day_first, name=table.name)
    written = clock_seconds(stamps, day_first=first)
    readable = np.flatnonzero(np.isfinite(written))
    if not readable.size:
        found = "no row with a time that exists"
        raise UnusableInput(Fault(table.name, table.first_line, "time", found, "real dates"))
    notes = _unreadable(written, lines)
    rows, offsets = readable, stamps.of_rows(stamps.offsets_s)
    if rows.size < written.size:
        written, offsets, lines = written[rows], offsets[rows], lines[rows]
    if _runs_backwards(written):
        rows, lines = rows[::-1], lines[::-1]
        written, offsets = written[::-1], offsets[::-1]
        notes += (Note("info", "the newest row stands first; the rows were turned round"),)
    placed, understood, more = _on_utc(table, written, offsets, zone=zone)
    repeated, changes = _order_notes(placed, understood, lines)
    order = in_order(placed.utc_s)
    return Clock(
        order=rows[order],
        utc_s=placed.utc_s[order],
        repeated_hour=repeated[order],
        zone=understood,
        date_order=date_order,
        notes=(*notes, *more, *changes),
    )


def in_order(utc_s: FloatArray) -> IntArray | slice:
    """The places of times [s] from the earliest to the latest, a plain slice where they are so."""
    if (utc_s[1:] >= utc_s[:-1]).all():
        return slice(None)
    return np.argsort(utc_s, kind="stable")


def _stamps(table: Table) -> list[Stamp | None]:
    columns = [table.column(at) for at in table.time_at]
    every = tuple(range(len(columns)))
    return [stamp_of(cells, every) for cells in zip(*columns, strict=True)]


def _unreadable(written: FloatArray, lines: IntArray) -> tuple[Note, ...]:
    bad = np.flatnonzero(~np.isfinite(written))
    if not bad.size:
        return ()
    text = f"{counted(bad.size, 'row')} of {written.size} had no readable time; left out"
    return (Note("warn", text, int(lines[bad[0]])),)


def _runs_backwards(clock_s: FloatArray) -> bool:
    """Whether the newest row stands first in the whole file, not in each of its bundles alone."""
    steps = np.diff(clock_s)
    return bool(clock_s[-1] < clock_s[0] and (steps < 0).sum() > (steps > 0).sum())


def _on_utc(
    table: Table, written: FloatArray, offsets: FloatArray, *, zone: str | None
) -> tuple[Placed, Understood, tuple[Note, ...]]:
    """Clock times on UTC: by each row's own offset, the header's, or the zone of the whole file."""
    bare = np.isnan(offsets)
    utc = written - np.where(bare, 0.0, offsets)
    none = np.zeros(written.size, dtype=np.bool_)
    if not bare.any():
        return Placed(utc, none, none, none), _written_offset(offsets), ()
    header = offset_in_header(" ".join(table.heading(at) for at in table.time_at))
    if header is not None:
        utc[bare] -= header
        why = f"the time column is headed {table.heading(table.time_at[0])!r}"
        return Placed(utc, none, none, none), Understood(_hours(header), why, certain=True), ()
    name, understood, notes = _zone_of_bare_rows(table, zone)
    part = place(written[bare], find_zone(name, table.name))
    repeated, fell, missing = none.copy(), none.copy(), none.copy()
    utc[bare], repeated[bare] = part.utc_s, part.repeated_hour
    fell[bare], missing[bare] = part.fell_back, part.missing_hour
    return Placed(utc, repeated, fell, missing), understood, notes


def _written_offset(offsets: FloatArray) -> Understood:
    several = bool((offsets != offsets[0]).any())
    what = "several offsets" if several else _hours(float(offsets[0]))
    return Understood(what, "every row says its offset from UTC or counts from 1970", certain=True)


def _hours(offset_s: float) -> str:
    if offset_s == 0:
        return "UTC"
    minutes = round(abs(offset_s) / 60)
    return f"UTC{'-' if offset_s < 0 else '+'}{minutes // 60:02d}:{minutes % 60:02d}"


def _zone_of_bare_rows(table: Table, zone: str | None) -> tuple[str, Understood, tuple[Note, ...]]:
    line = table.first_line
    found = zone_in_preamble(table.preamble)
    if zone is None and found is not None:
        return found, Understood(found, "named above the table", certain=True), ()
    if zone is None:
        text = "times carry no zone and none was given; read as UTC. Which zone was the logger in?"
        why = "times carry no zone and none was given"
        return "UTC", Understood("UTC", why, certain=False), (Note("ask", text, line),)
    text = f"times carry no zone; read as {zone}, the zone given for them"
    notes: tuple[Note, ...] = (Note("info", text, line),)
    if found is not None and found != zone:
        text = f"the lines above the table name {found}; {zone}, the zone given, was used"
        notes += (Note("warn", text, 1),)
    return zone, Understood(zone, "times carry no zone; the zone given", certain=False), notes


def _order_notes(
    placed: Placed, zone: Understood, lines: IntArray
) -> tuple[BoolArray, tuple[Note, ...]]:
    """Rows of a repeated hour; notes on rows out of order and on both changes of the clocks."""
    notes: tuple[Note, ...] = ()
    repeated = placed.repeated_hour
    falls = -np.diff(placed.utc_s)
    back = np.flatnonzero(falls > 0)
    autumn = back[(falls[back] >= FALL_BACK_S[0]) & (falls[back] <= FALL_BACK_S[1])] + 1
    if autumn.size and not zone.certain and not repeated.any():
        repeated = _passed_twice(placed.utc_s, int(autumn[0]))
        text = "the clock falls back by about an hour: summer time may have ended; give the zone"
        notes += (Note("ask", text, int(lines[autumn[0]])),)
    elif back.size:
        text = f"{counted(back.size, 'row')} stood below later ones; all were sorted by time"
        notes += (Note("info", text, int(lines[back[0] + 1])),)
    return repeated, notes + _changes(placed, lines)


def _passed_twice(clock_s: FloatArray, at: int) -> BoolArray:
    """Rows between the two ends of a fall back, near the row at which it happens."""
    inside = (clock_s >= clock_s[at]) & (clock_s <= clock_s[at - 1])
    return np.asarray(inside, dtype=np.bool_)


def _changes(placed: Placed, lines: IntArray) -> tuple[Note, ...]:
    """What the rows of a repeated and of a skipped hour say about the logger's clock."""
    notes: tuple[Note, ...] = ()
    repeated, missing = placed.repeated_hour, placed.missing_hour
    if repeated.any():
        text = f"{counted(int(repeated.sum()), 'row')} fell in the hour that the clocks pass twice"
        line = int(lines[repeated.argmax()])
        if placed.fell_back.any():
            notes += (Note("info", f"{text}; the order of the rows tells which is which", line),)
        else:
            more = "but this clock passed it once: was it put back at all, or is the zone another?"
            notes += (Note("ask", f"{text}, {more}", line),)
    if missing.any():
        text = (
            f"{counted(int(missing.sum()), 'row')} fell in an hour that the clocks skip: from there"
            " on the logger was taken to stay on winter time; or is the zone another?"
        )
        notes += (Note("warn", text, int(lines[missing.argmax()])),)
    return notes
