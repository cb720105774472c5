"""The lines of an export: one batch a line with all that belongs to it, in plain numbers.

Plain numbers and not the store's packed ones, so that any program can read them in thirty years.
"""

import math
from typing import Any, Final, Literal

import numpy as np
from pydantic import BaseModel, ConfigDict, FiniteFloat

from diagnose.batch.probe import Column, Flag, Layout, Note, ProbeLog, Role, Series, Understood

SCHEMA: Final = "faultwort/history/1"


class Line(BaseModel):
    """A part of an export; frozen, and refusing keys it does not know."""

    # Bare Infinity is no JSON; in quotes it is, and is read back.
    model_config = ConfigDict(frozen=True, extra="forbid", ser_json_inf_nan="strings")


class Head(Line):
    """The first line."""

    schema_is: Literal["faultwort/history/1"]
    batches: int


class Tail(Line):
    """The last line; without it a file is cut short."""

    end: Literal[True]
    lines: int


class SeriesLine(Line):
    """One column of a probe log; None is a reading that was not logged, marks count from 0."""

    role: Role
    unit: str
    values: tuple[float | None, ...]
    flags: dict[Flag, tuple[int, ...]]


class ProbeLine(Line):
    """A probe log."""

    fingerprint: str
    file_name: str
    file_sha256: str
    layout: Layout
    columns: tuple[Column, ...]
    zone: Understood
    notes: tuple[Note, ...]
    times_utc_s: tuple[FiniteFloat, ...]
    lines: tuple[int, ...]
    series: tuple[SeriesLine, ...]


class ContentLine(Line):
    """One state of a record."""

    fingerprint: str
    name: str
    brewer: str | None
    brewed_on: str | None
    style: str | None
    style_id: str | None
    yeast_id: str | None
    method: str | None
    tasted: list[dict[str, Any]]
    file_name: str
    text: str
    entries: list[dict[str, Any]]
    rules_version: str
    findings: dict[str, Any]
    factors: dict[str, Any]
    said: dict[str, Any]
    probe: ProbeLine | None


class VersionLine(Line):
    """One version of a batch; without a content the batch is withdrawn."""

    number: int
    content: str | None
    how: str
    of_number: int | None
    made_at: str
    file_path: str | None
    reason: str | None


class NoteLine(Line):
    """One version of a note."""

    kind: str
    uid: str
    number: int
    at: str | None
    who: str | None
    how: str
    made_at: str
    typed: str
    body: dict[str, Any]
    reason: str | None


class BatchOut(Line):
    """A batch with everything about it."""

    key: str
    identity: str
    added_at: str
    versions: tuple[VersionLine, ...]
    contents: tuple[ContentLine, ...]
    notes: tuple[NoteLine, ...]


class NotesOut(Line):
    """What is said about no batch, or about several."""

    notes: tuple[NoteLine, ...]


def probe_line(log: ProbeLog, fingerprint: str) -> ProbeLine:
    """A log as it is exported."""
    return ProbeLine(
        fingerprint=fingerprint,
        file_name=log.name,
        file_sha256=log.sha256,
        layout=log.layout,
        columns=log.columns,
        zone=log.zone,
        notes=log.notes,
        times_utc_s=tuple(log.times_utc_s.tolist()),
        lines=tuple(log.lines.tolist()),
        series=tuple(_series_line(role, series) for role, series in log.series.items()),
    )


def _series_line(role: Role, series: Series) -> SeriesLine:
    values = tuple(None if math.isnan(value) else value for value in series.values.tolist())
    marked = {
        kind: tuple(np.flatnonzero(marks).tolist())
        for kind, marks in series.flags.items()
        if marks.any()
    }
    return SeriesLine(role=role, unit=series.unit, values=values, flags=marked)


def log_of(line: ProbeLine, flags: tuple[Flag, ...]) -> ProbeLog:
    """The log that was exported.

    Raises:
        ValueError: its columns are not of one length.
    """
    count = len(line.times_utc_s)
    if len(line.lines) != count or any(len(one.values) != count for one in line.series):
        raise ValueError("found a probe log with columns of several lengths; wanted one length")
    return ProbeLog(
        name=line.file_name,
        sha256=line.file_sha256,
        layout=line.layout,
        columns=line.columns,
        zone=line.zone,
        times_utc_s=np.array(line.times_utc_s, dtype=np.float64),
        lines=np.array(line.lines, dtype=np.int64),
        series={one.role: _series(one, flags) for one in line.series},
        notes=line.notes,
    )


def _series(line: SeriesLine, flags: tuple[Flag, ...]) -> Series:
    values = np.array([np.nan if v is None else v for v in line.values], dtype=np.float64)
    marks = {}
    for kind in flags:
        marks[kind] = np.zeros(values.size, dtype=np.bool_)
        marks[kind][list(line.flags.get(kind, ()))] = True
    return Series(line.unit, values, marks)
