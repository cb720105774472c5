"""A probe log as rows of the store, and back to the very same log."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass
from pathlib import PurePath
from typing import Any, get_args

import numpy as np
from sqlalchemy import Connection, select

from diagnose.batch.probe import (
    Column,
    Flag,
    Layout,
    Note,
    ProbeLog,
    Role,
    Series,
    Understood,
    summarise,
)
from diagnose.history.packing import (
    BoolArray,
    pack_floats,
    pack_ints,
    pack_marks,
    unpack_floats,
    unpack_ints,
    unpack_marks,
)
from diagnose.history.tables import probe_series, probes
from diagnose.history.writing_down import compact

_FLAGS: tuple[Flag, ...] = get_args(Flag)


@dataclass(frozen=True)
class PackedLog:
    """A log as its rows: one of `probes`, and one of `probe_series` for each part played."""

    head: Mapping[str, Any]
    series: tuple[Mapping[str, Any], ...]

    @property
    def fingerprint(self) -> str:
        """What tells this log, as it was read, from every other."""
        return str(self.head["fingerprint"])


def pack_log(log: ProbeLog) -> PackedLog:
    """A log as rows."""
    head: dict[str, Any] = {
        # The folder is left out: it says where one machine had the file.
        "file_name": PurePath(log.name).name,
        "file_sha256": log.sha256,
        "readings": int(sum(one.values.size for one in log.series.values())),
        "first_s": float(log.times_utc_s[0]),
        "last_s": float(log.times_utc_s[-1]),
        "understood": compact(_understood(log)),
        "times": pack_floats(log.times_utc_s),
        "lines": pack_ints(log.lines),
    }
    series = tuple(_series_row(log, role) for role in log.series)
    return PackedLog({"fingerprint": fingerprint_of(log), **head}, series)


def fingerprint_of(log: ProbeLog) -> str:
    """What tells a log, as it was read, from every other; the folder it was in does not count."""
    said = [PurePath(log.name).name, log.sha256, _understood(log)]
    digest = hashlib.sha256(compact(said).encode("utf-8", "surrogatepass"))
    digest.update(log.times_utc_s.tobytes() + log.lines.tobytes())
    for role, series in log.series.items():
        digest.update(f"|{role}|{series.unit}|".encode())
        # One NaN is as good as another.
        digest.update(np.where(np.isnan(series.values), np.nan, series.values).tobytes())
        for kind in _FLAGS:
            digest.update(np.packbits(series.flags[kind]).tobytes())
    return digest.hexdigest()


def _understood(log: ProbeLog) -> dict[str, Any]:
    return {
        "layout": asdict(log.layout),
        "columns": [asdict(column) for column in log.columns],
        "zone": asdict(log.zone),
        "notes": [asdict(note) for note in log.notes],
    }


def _series_row(log: ProbeLog, role: Role) -> dict[str, Any]:
    series, summary = log.series[role], summarise(log, role)
    known = summary is not None and summary.usable > 0
    flags = [(kind, pack_marks(series.flags[kind])) for kind in _FLAGS if series.flags[kind].any()]
    return {
        "role": role,
        "unit": series.unit,
        "readings": int(series.values.size),
        "usable": int(summary.usable) if summary is not None else 0,
        "lowest": summary.lowest if summary is not None and known else None,
        "mean": summary.mean if summary is not None and known else None,
        "highest": summary.highest if summary is not None and known else None,
        "readings_packed": pack_floats(series.values),
        "flags": json.dumps({kind: marks.hex() for kind, marks in flags}).encode(),
    }


def unpack_log(packed: PackedLog) -> ProbeLog:
    """The log that `pack_log` was given, but for the folder in its name."""
    head = packed.head
    known = json.loads(head["understood"])
    layout = {key: Understood(**fact) for key, fact in known["layout"].items()}
    return ProbeLog(
        name=head["file_name"],
        sha256=head["file_sha256"],
        layout=Layout(**layout),
        columns=tuple(Column(**column) for column in known["columns"]),
        zone=Understood(**known["zone"]),
        times_utc_s=unpack_floats(head["times"]),
        lines=unpack_ints(head["lines"]),
        series={row["role"]: _series(row) for row in packed.series},
        notes=tuple(Note(**note) for note in known["notes"]),
    )


def _series(row: Mapping[str, Any]) -> Series:
    marked = json.loads(row["flags"])
    none: BoolArray = np.zeros(row["readings"], dtype=np.bool_)
    flags: dict[Flag, BoolArray] = {
        kind: unpack_marks(bytes.fromhex(marked[kind])) if kind in marked else none.copy()
        for kind in _FLAGS
    }
    return Series(row["unit"], unpack_floats(row["readings_packed"]), flags)


def keep_log(connection: Connection, packed: PackedLog) -> int:
    """Write a log down unless it is there; its number in the store."""
    same = select(probes.c.id).where(probes.c.fingerprint == packed.fingerprint)
    found = connection.execute(same).scalar()
    if found is not None:
        return int(found)
    key = connection.execute(probes.insert().values(**packed.head)).inserted_primary_key
    probe_id = int(key[0]) if key is not None else 0
    for row in packed.series:
        connection.execute(probe_series.insert().values(probe_id=probe_id, **row))
    return probe_id


def packed_log(connection: Connection, probe_id: int) -> PackedLog:
    """The rows of a log in the store."""
    head = connection.execute(select(probes).where(probes.c.id == probe_id)).mappings().one()
    rows = connection.execute(
        select(probe_series).where(probe_series.c.probe_id == probe_id).order_by(probe_series.c.id)
    ).mappings()
    series = tuple(_without(row, "id", "probe_id") for row in rows)
    return PackedLog(_without(head, "id"), series)


def _without(row: Mapping[Any, Any], *keys: str) -> dict[str, Any]:
    return {str(key): value for key, value in row.items() if key not in keys}
