"""A record made ready for the store: read, understood and measured before anything is written."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from diagnose.batch import (
    Batch,
    Moment,
    NotLogged,
    batch_from,
    logged_entries,
    resolved,
)
from diagnose.batch.probe import ProbeLog
from diagnose.batch.probe_beside import log_beside
from diagnose.documents import parse_yaml, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.evidence.beer import beer_of
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.measuring import measure_batch
from diagnose.history.factors import events_of, factors_of
from diagnose.history.probes import PackedLog, pack_log
from diagnose.history.tasted import tastings_in
from diagnose.knowledge import RuleBase
from diagnose.units import Reading


@dataclass(frozen=True)
class Content:
    """One state of one record, with its probe log, as it goes into the store.

    `short` are the columns of `contents`, `entries` every entry as typed and as read, `computed`
    the columns of `measured` before they are written as JSON.
    """

    fingerprint: str
    file_name: str
    text: str
    short: Mapping[str, Any]
    entries: tuple[Mapping[str, Any], ...]
    computed: Mapping[str, Any]
    log: PackedLog | None


@dataclass(frozen=True)
class Filing:
    """A content and where it came from: what `keep_batch` needs."""

    content: Content
    path: str | None


def read_filing(rules: RuleBase, path: Path, today: date) -> Filing:
    """Read a record and its probe log.

    Args:
        rules: what words, styles and measures mean.
        path: the record's file, or the folder that holds a `batch.yaml`.
        today: dates after this day are refused.

    Raises:
        UnusableInput: every fault of the file at once.
    """
    file = path / "batch.yaml" if path.is_dir() else path
    if path.is_dir() and not file.is_file():
        wanted = f"a record, or a folder that holds one; all in it are {path}/*.yaml"
        raise UnusableInput(Fault(str(path), 0, "", "a folder without a batch.yaml", wanted))
    text = read_text(file)
    batch = batch_from(parse_yaml(text, str(file), as_typed=True), file.parent, today)
    return Filing(content_of(rules, batch, text, log_beside(batch)), str(file.resolve()))


def content_of(rules: RuleBase, batch: Batch, text: str, log: ProbeLog | None) -> Content:
    """A record as it goes into the store.

    Args:
        rules: what words, styles and measures mean.
        batch: the record.
        text: the file it was read from, as typed.
        log: its probe log.

    Raises:
        UnusableInput: the record names a style or yeast the rule base does not know.
    """
    beer_of(rules, batch)
    # From here on the record goes by its file's name: its folder is one machine's own.
    folder, file_name = Path(batch.document.name).parent.name, Path(batch.document.name).name
    here = replace(batch, document=replace(batch.document, name=file_name))
    packed = pack_log(log) if log is not None else None
    short = _short(rules, here, folder)
    return Content(
        fingerprint=content_fingerprint(text, packed, short["name"]),
        file_name=file_name,
        text=text,
        short=short,
        entries=tuple(_entry(here, path, value) for path, value in logged_entries(here.record)),
        computed=_computed(rules, here, log),
        log=packed,
    )


def content_fingerprint(text: str, log: PackedLog | None, name: str) -> str:
    """What tells one state of a record, with its log, from every other."""
    digest = hashlib.sha256(text.encode("utf-8", "surrogatepass"))
    digest.update(f"|{log.fingerprint if log is not None else ''}|{name}".encode())
    return digest.hexdigest()


def _short(rules: RuleBase, batch: Batch, folder: str) -> dict[str, Any]:
    record, beer = batch.record, beer_of(rules, batch)
    brewed = resolved(record, record.brewed)
    unnamed = not isinstance(record.batch, str) and batch.name == "batch"
    return {
        "name": folder if unnamed and folder else batch.name,
        "brewer": _said(record.brewer),
        "brewed_on": brewed.date().isoformat() if brewed is not None else None,
        "style": _said(record.style),
        "style_id": beer.style_id,
        "yeast_id": beer.yeast_id,
        "method": _said(record.method),
        "tasted": tastings_in(record, rules.lexicon),
    }


def _said(entry: "str | NotLogged") -> str | None:
    return entry if isinstance(entry, str) else None


def _entry(batch: Batch, path: tuple[str | int, ...], value: object) -> dict[str, Any]:
    key = batch.document.fault(path, "", "").key
    if isinstance(value, Reading):
        numbers = {"value": value.value, "low": value.low, "high": value.high}
        return {"key": key, "typed": value.typed, "unit": value.unit, **numbers}
    if isinstance(value, Moment):
        at = resolved(batch.record, value)
        return {"key": key, "typed": value.typed, "at": at.isoformat() if at else None}
    return {"key": key, "typed": str(value)}


def _computed(rules: RuleBase, batch: Batch, log: ProbeLog | None) -> dict[str, Any]:
    findings = measure_batch(rules, batch, log)
    usable = {key: _numbers(found) for key, found in findings.items()}
    return {
        "rules_version": rules.version,
        "findings": {key: value for key, value in usable.items() if value is not None},
        "factors": {"words": factors_of(batch.record), "events": events_of(batch.record)},
        "said": {key: [found.says, found.where] for key, found in findings.items()},
    }


def _numbers(found: Finding) -> list[float] | str | None:
    """[low, mid, high], a class's word, or None where the model does not cover the batch."""
    if isinstance(found, NumberFinding):
        return [float(found.band.low), float(found.band.mid), float(found.band.high)]
    return found.value if isinstance(found, ClassFinding) else None
