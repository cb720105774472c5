"""One made-up file for each thing that loggers do to a fermentation, and what is read from it.

Each file holds the same two weeks at one reading in a quarter of an hour. Whatever was done to
it, every row is kept, and the mean and the peak are those of the beer.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Literal
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from diagnose.batch.probe import ProbeLog, Role, summarise
from diagnose.errors import UnusableInput
from tests.probe.written import START, moments, read_bytes, seconds, texts

COUNT = 14 * 96
STEP_S = 900
RANDOM = np.random.default_rng(3)
BEER_C = np.round(19 + 1.5 * np.sin(np.arange(COUNT) / 200) + RANDOM.normal(0, 0.05, COUNT), 2)
# Hundredths are written; an hour or a day left out moves the mean a little.
CLOSE_C, ABOUT_C = 0.01, 0.25
UTC_ISO = "%Y-%m-%dT%H:%M:%SZ"
HEAD = "time,beer (C)\n"


@dataclass(frozen=True)
class Written:
    """How the file is written: the moment, the sign between cells, the decimal sign."""

    moment: str | Callable[[datetime], str] = UTC_ISO
    between: str = ","
    decimal: str = "."
    zone: str = "UTC"
    start: datetime = START


def rows(how: Written = Written(), cells: dict[int, str] | None = None) -> str:
    """The fermentation in rows; some cells may say something else."""
    lines = []
    for at, when in enumerate(moments(COUNT, start=how.start)):
        local = when.astimezone(ZoneInfo(how.zone))
        said = how.moment(local) if callable(how.moment) else local.strftime(how.moment)
        cell = (cells or {}).get(at, f"{BEER_C[at]:.2f}").replace(".", how.decimal)
        lines.append(f"{said}{how.between}{cell}")
    return "\n".join(lines) + "\n"


SEMICOLON = Written(between=";")
COMMAS = Written(between=";", decimal=",")
PREAMBLE = (
    "Fermenter log,unit 7\nExported,2024-11-04 10:00,by owner\nSerial,0815\nBattery,3.9\n"
    "From,2024-10-20,to,2024-11-03\n\n"
)
US, EUROPE = Written("%m/%d/%Y %H:%M"), Written("%d/%m/%Y %H:%M")
HALVES = Written("%m/%d/%Y %I:%M %p")
SHORT_HALVES = Written(lambda when: f"{when:%m/%d/%Y %I:%M:%S}{'ap'[when.hour // 12]}")
EPOCH = Written(lambda when: f"{when.timestamp():.0f}")
EPOCH_MS = Written(lambda when: f"{when.timestamp() * 1000:.0f}")
SAID = "time,beer (°C)\n" + rows()

# Source: issue 4, item 5; files made up here. What was done, and the bytes.
WHOLE = [
    ("preamble lines", (PREAMBLE + HEAD + rows()).encode()),
    ("preamble with another sign", (PREAMBLE + "time;beer (C)\n" + rows(COMMAS)).encode()),
    ("a first line like a reading", ("Started,2024-10-20 12:00,7\n" + HEAD + rows()).encode()),
    ("lines below the table", (HEAD + rows() + "\nEnd of log\nLowest,17.2\n").encode()),
    ("semicolon with points", ("time;beer (C)\n" + rows(SEMICOLON)).encode()),
    ("semicolon with commas", ("time;beer (C)\n" + rows(COMMAS)).encode()),
    ("byte order mark", SAID.encode("utf-8-sig")),
    ("UTF-16, small end first", b"\xff\xfe" + SAID.encode("utf-16-le")),
    ("UTF-16, big end first", b"\xfe\xff" + SAID.encode("utf-16-be")),
    ("UTF-16 without a mark", SAID.replace("\n", "\r\n").encode("utf-16-le")),
    ("US dates", (HEAD + rows(US)).encode()),
    ("European dates", (HEAD + rows(EUROPE)).encode()),
    ("AM and PM", (HEAD + rows(HALVES)).encode()),
    ("a and p", (HEAD + rows(SHORT_HALVES)).encode()),
    ("epoch in seconds", (HEAD + rows(EPOCH)).encode()),
    ("epoch in thousandths", (HEAD + rows(EPOCH_MS)).encode()),
    ("no unit", ("time,temp\n" + rows()).encode()),
]


@pytest.mark.parametrize(("raw"), [row[1] for row in WHOLE], ids=[row[0] for row in WHOLE])
def test_the_beer_is_read_whatever_was_done_to_its_file(raw: bytes) -> None:
    log = read_bytes(raw, zone="UTC")
    summary = summarise(log, "beer_temperature")
    assert summary is not None
    assert (summary.count, summary.usable) == (COUNT, COUNT)
    assert summary.mean == pytest.approx(BEER_C.mean(), abs=CLOSE_C)
    assert summary.highest == pytest.approx(BEER_C.max(), abs=CLOSE_C)
    assert (log.times_utc_s[0], log.times_utc_s[-1]) == (
        seconds(START),
        seconds(START) + STEP_S * (COUNT - 1),
    )


# Source: the rules of the zones, as in tzdata. Zone, and a noon before its clocks change.
CHANGES = [
    ("Europe/Berlin", datetime(2024, 10, 26, 12, tzinfo=UTC)),
    ("Europe/Berlin", datetime(2024, 3, 30, 12, tzinfo=UTC)),
    ("America/Chicago", datetime(2024, 11, 2, 12, tzinfo=UTC)),
    ("America/Chicago", datetime(2024, 3, 9, 12, tzinfo=UTC)),
    ("Australia/Lord_Howe", datetime(2024, 4, 6, 2, tzinfo=UTC)),
    ("Australia/Lord_Howe", datetime(2024, 10, 5, 2, tzinfo=UTC)),
]


@pytest.mark.parametrize("moment", ["%Y-%m-%d %H:%M", "%m/%d/%Y %I:%M %p"])
@pytest.mark.parametrize(("zone", "start"), CHANGES)
def test_an_hour_said_twice_or_left_out_by_the_clocks_moves_no_reading(
    zone: str, start: datetime, moment: str
) -> None:
    raw = (HEAD + rows(Written(moment, zone=zone, start=start))).encode()
    log = read_bytes(raw, zone=zone)
    assert log.times_utc_s[0] == seconds(start)
    assert set(np.diff(log.times_utc_s).tolist()) == {STEP_S}


Kind = Literal["sentinel", "spike", "stuck", "out_of_range"]


def bump(first: int, height_c: float, count: int) -> dict[int, str]:
    """A warm hand on the probe that lets go: half of it is gone with each reading."""
    tops = BEER_C[first : first + count] + height_c * 0.5 ** np.arange(count)
    return {first + at: f"{top:.2f}" for at, top in enumerate(tops)}


def placed(said: str, *at: int) -> dict[int, str]:
    return dict.fromkeys(at, said)


# Source: issue 4, item 5. What was done, the cells, the flag, and how many readings bear it.
SPOILT: list[tuple[str, dict[int, str], Kind, int]] = [
    ("-127", placed("-127", 100, 101, 500), "sentinel", 3),
    ("85", placed("85.0", 0, 1, 500), "sentinel", 3),
    ("0", placed("0.00", *range(300, 420)), "sentinel", 120),
    ("999", placed("999", 7), "sentinel", 1),
    ("32767", placed("32767", 7), "sentinel", 1),
    ("beyond the sensor", placed("125", 100, 900), "out_of_range", 2),
    ("spike", placed("35.00", 200, 600, 900), "spike", 3),
    ("spike of an hour", placed("35.00", *range(200, 205)), "spike", 5),
    ("last reading", placed("35.00", COUNT - 1), "spike", 1),
    ("hand on the probe", bump(600, 10.0, 4), "spike", 4),
    ("stuck for two days", placed(f"{BEER_C[400]:.2f}", *range(400, 592)), "stuck", 191),
]


@pytest.mark.parametrize(
    ("cells", "kind", "count"), [row[1:] for row in SPOILT], ids=[row[0] for row in SPOILT]
)
def test_a_reading_that_is_none_is_flagged_kept_and_out_of_the_measures(
    cells: dict[int, str], kind: Kind, count: int
) -> None:
    log = read_bytes((HEAD + rows(cells=cells)).encode())
    summary = summarise(log, "beer_temperature")
    assert summary is not None
    assert {name: found for name, found in summary.flags.items() if found} == {kind: count}
    assert np.isfinite(log.series["beer_temperature"].values).sum() == COUNT
    assert summary.mean == pytest.approx(BEER_C.mean(), abs=ABOUT_C)
    assert (summary.lowest, summary.highest) == pytest.approx((BEER_C.min(), BEER_C.max()), abs=0.1)


@pytest.mark.parametrize("minutes", [7, 25, 55])
def test_a_bump_of_up_to_an_hour_is_found_however_often_the_logger_writes(minutes: int) -> None:
    times = moments(3 * 1440, step_s=60)
    beer_c = 19 + np.sin(np.arange(len(times)) / 500)
    beer_c[1000 : 1000 + minutes] += 14
    text = "".join(f"{when:{UTC_ISO}},{c:.2f}\n" for when, c in zip(times, beer_c, strict=True))
    flags = read_bytes((HEAD + text).encode()).series["beer_temperature"].flags["spike"]
    assert np.flatnonzero(flags).tolist() == list(range(1000, 1000 + minutes))


def test_a_cold_crash_by_the_minute_is_no_bump() -> None:
    times = moments(3 * 1440, step_s=60)
    beer_c = np.interp(np.arange(len(times)), [0, 1000, 1400, 4320], [19, 19, 3, 2])
    text = "".join(f"{when:{UTC_ISO}},{c:.2f}\n" for when, c in zip(times, beer_c, strict=True))
    assert not read_bytes((HEAD + text).encode()).series["beer_temperature"].flags["spike"].any()


# Judgement: readings that all lie from 25 to 45 can be warm beer in C or cold beer in F.
@pytest.mark.parametrize(("low", "high"), [(25.0, 45.0), (26.0, 29.0), (33.0, 36.0)])
def test_a_unit_that_can_be_both_is_asked_for(low: float, high: float) -> None:
    cells = {at: f"{value:.2f}" for at, value in enumerate(np.linspace(low, high, COUNT))}
    with pytest.raises(UnusableInput, match="wanted an answer: temperature unit C or F"):
        read_bytes(("time,temp\n" + rows(cells=cells)).encode())


@pytest.mark.parametrize(
    ("low", "high", "unit"), [(20, 31, "C"), (22, 38, "C"), (36, 70, "F"), (41, 52, "F")]
)
def test_a_unit_that_only_one_reading_allows_is_taken(low: int, high: int, unit: str) -> None:
    cells = {at: f"{value:.2f}" for at, value in enumerate(np.linspace(low, high, COUNT))}
    log = read_bytes(("time,temp\n" + rows(cells=cells)).encode())
    assert log.columns[0].unit == unit


# The teeth even out; what is left is the mean of the slow wave, 19 + (1 - cos 6.4) / 6.4.
BUNDLED_MEAN_C = 19.001


def in_bundles(*, shared_time: bool, newest_first: bool) -> ProbeLog:
    """Readings by the minute, uploaded ten at a time, warmer from first to last in each bundle."""
    count = 4 * 1440
    tooth_c = 0.6 * (np.arange(count) % 10 / 9 - 0.5)
    beer_c = 19 + np.sin(np.arange(count) / 900) + tooth_c
    order = [at // 10 * 10 + (9 - at % 10 if newest_first else at % 10) for at in range(count)]
    lines = []
    for at in order:
        minute = at // 10 * 10 + 10 if shared_time else at
        lines.append(f"{START + timedelta(minutes=minute):{UTC_ISO}},{beer_c[at]:.2f}\n")
    return read_bytes((HEAD + "".join(lines)).encode())


@pytest.mark.parametrize("newest_first", [False, True])
@pytest.mark.parametrize("shared_time", [False, True])
def test_a_sawtooth_of_bundles_is_no_spike_and_keeps_the_mean(
    *, shared_time: bool, newest_first: bool
) -> None:
    log = in_bundles(shared_time=shared_time, newest_first=newest_first)
    summary = summarise(log, "beer_temperature")
    assert summary is not None
    assert summary.flags["spike"] == 0
    assert summary.mean == pytest.approx(BUNDLED_MEAN_C, abs=CLOSE_C)
    assert ("bundles" in texts(log, "info")) == shared_time


def test_bundles_that_are_newest_first_do_not_turn_the_file_round() -> None:
    log = in_bundles(shared_time=False, newest_first=True)
    assert "turned round" not in texts(log, "info")


def test_a_float_that_rises_on_day_one_is_said_and_keeps_its_fall() -> None:
    at = np.arange(COUNT)
    gravity = 1.052 - 0.042 / (1 + np.exp(-(at - 400) / 80))
    gravity += 0.006 * np.exp(-(((at - 50) / 25) ** 2)) + RANDOM.normal(0, 0.0003, COUNT)
    cells = {place: f"{value:.4f}" for place, value in enumerate(gravity)}
    log = read_bytes(("time,SG\n" + rows(cells=cells)).encode())
    role: Role = "gravity"
    summary = summarise(log, role)
    assert summary is not None
    assert "gas and yeast lift a float" in texts(log, "info")
    assert (summary.usable, summary.lowest) == (COUNT, pytest.approx(1.010, abs=0.001))
