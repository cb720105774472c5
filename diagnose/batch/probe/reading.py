"""From a logger's export to a `ProbeLog`: each step understands one thing and says why."""

import time
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

import numpy as np

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
    Role,
    Series,
    Understood,
    counted,
)
from diagnose.batch.probe.parts import Parts, share_out
from diagnose.batch.probe.raw import RawLog, read_raw
from diagnose.batch.probe.remarks import remark_parts, remark_series, remark_times
from diagnose.batch.probe.table import Table, lay_out


@dataclass(frozen=True, eq=False)
class _Rows:
    """The rows that are kept: their places in the table, times, lines and repeated hours."""

    order: IntArray
    times_s: FloatArray
    lines: IntArray
    repeated_hour: BoolArray


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
    raw = read_raw(path)
    table = lay_out(raw)
    clock = read_clock(table, zone=zone, day_first=day_first)
    columns = sort_columns(table)
    parts = share_out(columns, table)
    converted, unit_notes = convert(columns, parts, table, temperature_unit=temperature_unit)
    rows, doubled = _without_doubles(clock, converted, table)
    series = {one.role: _series(one, rows) for one in converted}
    now_s = time.time() if now is None else now.timestamp()
    found = (raw.notes, table.notes, clock.notes, columns.notes, parts.notes, unit_notes, doubled)
    return ProbeLog(
        name=path.name,
        sha256=raw.sha256,
        layout=_layout(raw, table, clock, decimal_sign=columns.decimal_sign),
        columns=_describe(columns, parts, converted),
        zone=clock.zone,
        times_utc_s=rows.times_s,
        lines=rows.lines,
        series=series,
        notes=(*(note for part in found for note in part), *_remarks(series, rows, now_s)),
    )


def _without_doubles(
    clock: Clock, converted: tuple[Converted, ...], table: Table
) -> tuple[_Rows, tuple[Note, ...]]:
    """The rows by time, without those that repeat the time and every number of an earlier one."""
    lines = table.lines[clock.order]
    numbers = [one.raw[clock.order] for one in converted]
    same_as_before = _doubles(clock.utc_s, numbers)
    kept = ~same_as_before
    rows = _Rows(clock.order[kept], clock.utc_s[kept], lines[kept], clock.repeated_hour[kept])
    if not same_as_before.any():
        return rows, ()
    count = int(same_as_before.sum())
    text = f"{counted(count, 'row')} repeated an earlier one in every number; counted once"
    return rows, (Note("info", text, int(lines[same_as_before].min())),)


def _doubles(times_s: FloatArray, numbers: list[FloatArray]) -> BoolArray:
    """Rows whose time and numbers have all been there before."""
    result = np.zeros(times_s.size, dtype=np.bool_)
    same = np.diff(times_s) == 0
    if not same.any():
        return result
    keys = np.column_stack([times_s, *numbers])
    shared = np.append(same, False) | np.append(False, same)
    seen: set[bytes] = set()
    for row in np.flatnonzero(shared):
        key = keys[row].tobytes()
        result[row] = key in seen
        seen.add(key)
    return result


def _series(one: Converted, rows: _Rows) -> Series:
    raw, values = one.raw[rows.order], one.values[rows.order]
    return examine(Readings(one.role, one.unit, raw, values, rows.times_s), rows.repeated_hour)


def _remarks(series: dict[Role, Series], rows: _Rows, now_s: float) -> Iterator[Note]:
    for role, one in series.items():
        yield from remark_series(role, one, times_s=rows.times_s, lines=rows.lines)
    yield from remark_times(rows.times_s, rows.lines, now_s)
    yield from remark_parts(series)


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


def _layout(raw: RawLog, table: Table, clock: Clock, *, decimal_sign: Understood) -> Layout:
    return Layout(
        delimiter=table.delimiter,
        decimal_sign=decimal_sign,
        encoding=raw.encoding,
        header_line=table.header_line,
        preamble_lines=table.preamble_lines,
        date_order=clock.date_order,
    )
