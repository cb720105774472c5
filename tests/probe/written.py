"""Invented exports for the tests: text to a file, and the file to a log."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
from numpy.typing import NDArray

from diagnose.batch.probe import Note, ProbeLog, read_probe_log

NOW = datetime(2026, 1, 1, tzinfo=UTC)
START = datetime(2024, 10, 20, 12, tzinfo=UTC)
QUARTER_S = 900.0


def read_bytes(
    raw: bytes,
    *,
    zone: str | None = None,
    temperature_unit: str | None = None,
    day_first: bool | None = None,
) -> ProbeLog:
    """The log that an export of these bytes is read as, at an invented present."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "probe.csv"
        path.write_bytes(raw)
        return read_probe_log(
            path, zone=zone, temperature_unit=temperature_unit, day_first=day_first, now=NOW
        )


def read(
    text: str,
    *,
    encoding: str = "utf-8",
    zone: str | None = None,
    temperature_unit: str | None = None,
    day_first: bool | None = None,
) -> ProbeLog:
    """The log that an export of this text is read as."""
    return read_bytes(
        text.encode(encoding), zone=zone, temperature_unit=temperature_unit, day_first=day_first
    )


def moments(count: int, *, step_s: float = QUARTER_S, start: datetime = START) -> list[datetime]:
    """Evenly spaced moments in UTC."""
    return [start + timedelta(seconds=step_s * number) for number in range(count)]


def beer_log(
    values: Sequence[float | str], *, step_s: float = QUARTER_S, header: str = "time,beer (C)"
) -> ProbeLog:
    """A tidy log of one column, for tests of what comes after the layout."""
    times = moments(len(values), step_s=step_s)
    rows = [f"{when:%Y-%m-%dT%H:%M:%SZ},{value}" for when, value in zip(times, values, strict=True)]
    return read("\n".join([header, *rows]))


def wavy(count: int, *, seed: int = 1) -> NDArray[np.float64]:
    """A fermentation about 19 C with a slow wave and a little noise, in hundredths."""
    noise = np.random.default_rng(seed).normal(0, 0.05, count)
    return np.round(19 + np.sin(np.arange(count) / 30) + noise, 2)


def seconds(when: datetime) -> float:
    """A moment in seconds since 1970."""
    return when.timestamp()


def texts(log: ProbeLog, level: str) -> str:
    """All notes of one level in one text."""
    return " / ".join(note.text for note in log.notes if note.level == level)


def note_with(log: ProbeLog, part: str) -> Note:
    """The one note that says `part`."""
    (found,) = [note for note in log.notes if part in note.text]
    return found
