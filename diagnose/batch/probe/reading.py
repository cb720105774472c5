"""From a logger's export to a `ProbeLog`: each step understands one thing and says why."""

import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

import numpy as np

from diagnose.batch.probe.abreast import abreast, beside
from diagnose.batch.probe.choices import Choices
from diagnose.batch.probe.clock import Clock, read_clock
from diagnose.batch.probe.converted import Converted, convert
from diagnose.batch.probe.figures import Figures, Sorted, Words, sort_columns
from diagnose.batch.probe.flaws import Readings, examine
from diagnose.batch.probe.log import (
    BoolArray,
    Column,
    FloatArray,
    IntArray,
    Layout,
    Note,
    ProbeLog,
    Series,
    counted,
)
from diagnose.batch.probe.parts import Parts, share_out
from diagnose.batch.probe.profiles import ColumnLayout, Profiles, layout_of, settle
from diagnose.batch.probe.raw import RawLog, read_raw
from diagnose.batch.probe.remarks import remark_parts, remark_series, remark_times
from diagnose.batch.probe.table import Table, lay_out


@dataclass(frozen=True, eq=False)
class _Rows:
    """The rows that are kept: their places in the table, times, lines and repeated hours."""

    order: IntArray | slice
    times_s: FloatArray
    lines: IntArray
    repeated_hour: BoolArray


@dataclass(frozen=True, eq=False)
class Reading:
    """A log, the answers it was read with, and the layout of its columns to keep them for."""

    log: ProbeLog
    choices: Choices
    layout: ColumnLayout


def read_probe_log(
    path: Path,
    *,
    zone: str | None = None,
    temperature_unit: str | None = None,
    day_first: bool | None = None,
    now: datetime | None = None,
) -> ProbeLog:
    """Read any logger's CSV without configuration, and say what was understood and why.

    Args:
        path: the export.
        zone: the record's zone ("Europe/Berlin", "+02:00") for times that carry none.
        temperature_unit: "C" or "F", when the file cannot tell; goes before its headers.
        day_first: whether 03/04/2024 is in April, when the file cannot tell.
        now: the present, with its zone, to tell future dates by; the clock's when not given.

    Raises:
        UnusableInput: the file is no such log, or a question it leaves open has no answer.
    """
    choices = Choices(zone, temperature_unit, day_first)
    return read_with(path, choices, now=now).log


def read_with(
    path: Path,
    choices: Choices,
    profiles: Profiles | None = None,
    *,
    now: datetime | None = None,
    tell: Callable[[str], None] = lambda step: None,  # noqa: ARG005
) -> Reading:
    """Read a logger's CSV with answers, those given now and those saved for its columns.

    Args:
        path: the export.
        choices: the answers given now.
        profiles: answers saved for layouts of columns.
        now: the present, with its zone, to tell future dates by; the clock's when not given.
        tell: told what is being done, in a few words, since a long file takes a while.

    Raises:
        UnusableInput: the file is no such log, or a question it leaves open has no answer.
    """
    tell("rows")
    raw = read_raw(path)
    table = lay_out(raw)
    settled = settle(choices, profiles or Profiles(), table)
    answers = settled.choices
    tell("times and numbers")
    with beside(lambda: sort_columns(table), rows=table.lines.size) as sorted_out:
        clock = read_clock(table, zone=answers.zone, day_first=answers.day_first)
    columns = sorted_out.result()
    parts = share_out(columns, table, answers.parts)
    converted, unit_notes = convert(
        columns, parts, table, temperature_unit=answers.temperature_unit
    )
    understood = _Understood(raw, table, clock, columns, parts)
    notes = (*settled.notes, *understood.notes, *unit_notes)
    now_s = time.time() if now is None else now.timestamp()
    tell("faults and spikes")
    log = _log(path, understood, converted, _Said(notes, now_s))
    return Reading(replace(log, profile=settled.profile), answers, layout_of(table))


@dataclass(frozen=True, eq=False)
class _Understood:
    """A file, step by step."""

    raw: RawLog
    table: Table
    clock: Clock
    columns: Sorted
    parts: Parts

    @property
    def notes(self) -> tuple[Note, ...]:
        """What was noted on the way."""
        steps = (self.raw, self.table, self.clock, self.columns, self.parts)
        return tuple(note for step in steps for note in step.notes)


class _Said(NamedTuple):
    """What there is to say so far, and the present [s since 1970]."""

    notes: tuple[Note, ...]
    now_s: float


def _log(
    path: Path, understood: _Understood, converted: tuple[Converted, ...], said: _Said
) -> ProbeLog:
    """The rows by time with every flag and remark."""
    clock, table = understood.clock, understood.table
    rows, doubled = _without_doubles(clock, converted, table)
    examined = abreast(lambda one: _series(one, rows), converted, size=rows.times_s.size)
    series = {one.role: found for one, (found, _) in zip(converted, examined, strict=True)}
    remarks = [note for _, notes in examined for note in notes]
    at_the_end = (*remark_times(rows.times_s, rows.lines, said.now_s), *remark_parts(series))
    return ProbeLog(
        name=path.name,
        sha256=understood.raw.sha256,
        layout=_layout(understood),
        columns=_describe(understood.columns, understood.parts, converted),
        zone=clock.zone,
        times_utc_s=rows.times_s,
        lines=rows.lines,
        series=series,
        notes=(*said.notes, *doubled, *remarks, *at_the_end),
    )


def _without_doubles(
    clock: Clock, converted: tuple[Converted, ...], table: Table
) -> tuple[_Rows, tuple[Note, ...]]:
    """The rows by time, without those that repeat the time and every number of an earlier one."""
    order: IntArray | slice = clock.order
    if clock.order.size == table.lines.size and (np.diff(clock.order) == 1).all():
        # A file as loggers write it needs no row moved, and none copied.
        order = slice(None)
    lines = table.lines[order]
    numbers = [one.raw[order] for one in converted]
    same_as_before = _doubles(clock.utc_s, numbers)
    if not same_as_before.any():
        return _Rows(order, clock.utc_s, lines, clock.repeated_hour), ()
    kept = ~same_as_before
    rows = _Rows(clock.order[kept], clock.utc_s[kept], lines[kept], clock.repeated_hour[kept])
    count = int(same_as_before.sum())
    text = f"{counted(count, 'row')} repeated an earlier one in every number; counted once"
    return rows, (Note("info", text, int(lines[same_as_before].min())),)


def _doubles(times_s: FloatArray, numbers: list[FloatArray]) -> BoolArray:
    """Rows whose time and numbers have all been there before."""
    result = np.zeros(times_s.size, dtype=np.bool_)
    same = np.diff(times_s) == 0
    if not same.any():
        return result
    shared = np.flatnonzero(np.append(same, False) | np.append(False, same))
    keys = np.column_stack([times_s[shared], *(one[shared] for one in numbers)])
    seen: set[bytes] = set()
    for at, row in enumerate(shared):
        key = keys[at].tobytes()
        result[row] = key in seen
        seen.add(key)
    return result


def _series(one: Converted, rows: _Rows) -> tuple[Series, tuple[Note, ...]]:
    """One part's series with its flags, and what there is to say about it."""
    raw, values = one.raw[rows.order], one.values[rows.order]
    readings = Readings(one.role, one.unit, raw, values, rows.times_s)
    series = examine(readings, rows.repeated_hour)
    return series, remark_series(one.role, series, times_s=rows.times_s, lines=rows.lines)


def _describe(
    columns: Sorted, parts: Parts, converted: tuple[Converted, ...]
) -> tuple[Column, ...]:
    """Every column beside the time, in the order of the file."""
    units = {one.at: one.written for one in converted}
    every: list[Figures | Words] = [*columns.figures, *columns.words]
    described = []
    for one in sorted(every, key=lambda column: column.at):
        unit, why = one.heading.unit, parts.whys[one.at]
        if one.at in units:
            unit = units[one.at].what
            why += f"; {unit or 'no unit'}: {units[one.at].why}"
        described.append(Column(one.header, parts.roles[one.at], unit, why))
    return tuple(described)


def _layout(understood: _Understood) -> Layout:
    table = understood.table
    return Layout(
        delimiter=table.delimiter,
        decimal_sign=understood.columns.decimal_sign,
        encoding=understood.raw.encoding,
        header_line=table.header_line,
        preamble_lines=table.preamble_lines,
        date_order=understood.clock.date_order,
    )
