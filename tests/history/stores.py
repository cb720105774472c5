"""Stores and records for the tests of the flaw history."""

import shutil
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np

from diagnose.batch.probe import ProbeLog, Series, read_probe_log
from diagnose.history.filing import Content, Filing, content_fingerprint, read_filing
from diagnose.history.opening import Store, open_store
from diagnose.history.place import Place
from diagnose.history.probes import pack_log
from diagnose.knowledge import RuleBase
from diagnose.shipped import shipped

TODAY = date(2026, 11, 25)
NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)
CASES = shipped("cases")
WITH_A_LOG = CASES / "one_old_pack_strong_ale"


def later(minutes: int) -> datetime:
    return NOW + timedelta(minutes=minutes)


def new_store(folder: Path, template: Path) -> Store:
    """An empty store, copied as making one takes longer."""
    file = folder / "store.faultwort"
    shutil.copy(template, file)
    return open_store(Place(file, ""))


def record(**changed: str) -> str:
    """The text of a small record; `changed` replaces an entry, an empty text leaves it out."""
    entries = {
        "batch": "house pale",
        "brewed": "2026-05-02",
        "brewer": "Tansy",
        "style": "pale ale",
        "gravity": "{original: 1.050, final: 1.012}",
        "pitch": "{at: 66 F}",
        "tastings": '[{who: Wren, words: "buttery, no sourness"}]',
    }
    lines = [f"{key}: {value}" for key, value in {**entries, **changed}.items() if value]
    return "\n".join(lines) + "\n"


def filed(rules: RuleBase, folder: Path, name: str = "pale.yaml", **changed: str) -> Filing:
    """A record of that text, read from a file of that name."""
    path = folder / name
    path.write_text(record(**changed), "utf-8")
    return read_filing(rules, path, TODAY)


def short_log(values: list[float]) -> ProbeLog:
    """A log of one column with these readings, five minutes apart."""
    like = read_probe_log(WITH_A_LOG / "christmas.csv", zone="UTC")
    readings = np.array(values, dtype=np.float64)
    flags = like.series["beer_temperature"].flags
    marks = {kind: np.zeros(readings.size, dtype=np.bool_) for kind in flags}
    marks["missing"] = np.isnan(readings)
    times = 1.7e9 + 300.0 * np.arange(readings.size)
    series = {"beer_temperature": Series("C", readings, marks)}
    lines = np.arange(readings.size) + 2
    return replace(like, times_utc_s=times, lines=lines, series=series)


def with_log(content: Content, log: ProbeLog) -> Content:
    """The content as if its record had named that log, with the fingerprint that goes with it."""
    packed = pack_log(log)
    fingerprint = content_fingerprint(content.text, packed, content.short["name"])
    return replace(content, log=packed, fingerprint=fingerprint)
