"""Zones, both changes of the clocks, rows out of order, rows said twice, and odd dates."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from diagnose.consult.probes import describe_probe
from diagnose.errors import UnusableInput
from tests.probe.written import moments, note_with, read, seconds, texts, wavy

BERLIN = "Europe/Berlin"
# The rules of the European Union: clocks fall back on the last Sunday of October at 01:00 UTC and
# go forward on the last Sunday of March at 01:00 UTC.
AUTUMN = datetime(2024, 10, 26, 12, tzinfo=UTC)
SPRING = datetime(2024, 3, 30, 12, tzinfo=UTC)


def local_log(start: datetime, count: int, step_s: float, *, zone: str = BERLIN) -> str:
    """What a logger writes whose clock follows a zone."""
    rows = [
        f"{when.astimezone(ZoneInfo(zone)):%d.%m.%Y %H:%M};{value:.2f}"
        for when, value in zip(moments(count, step_s=step_s, start=start), wavy(count), strict=True)
    ]
    return "\n".join(["Zeit;Bier", *rows])


@pytest.mark.parametrize("step_s", [60.0, 900.0, 1800.0, 3600.0])
def test_the_repeated_hour_of_autumn_is_told_apart_by_order(step_s: float) -> None:
    log = read(
        local_log(AUTUMN, 200, step_s) if step_s > 60 else local_log(AUTUMN, 900, 60.0), zone=BERLIN
    )
    steps = log.times_utc_s[1:] - log.times_utc_s[:-1]
    assert set(steps.tolist()) == {step_s}


def test_rows_of_the_repeated_hour_are_flagged() -> None:
    log = read(local_log(AUTUMN, 100, 900.0), zone=BERLIN)
    assert log.series["beer_temperature"].flags["repeated_hour"].sum() == 8


def test_the_repeated_hour_is_told_apart_when_the_newest_row_stands_first() -> None:
    header, *rows = local_log(AUTUMN, 100, 900.0).splitlines()
    log = read("\n".join([header, *reversed(rows)]), zone=BERLIN)
    assert (log.times_utc_s[0], log.times_utc_s[-1]) == (
        seconds(AUTUMN),
        seconds(AUTUMN) + 99 * 900,
    )


def test_an_hour_passed_once_is_asked_about() -> None:
    rows = [
        f"{AUTUMN + timedelta(minutes=15 * number):%Y-%m-%d %H:%M},19.5" for number in range(100)
    ]
    log = read("\n".join(["time,beer", *rows]), zone=BERLIN)
    assert note_with(log, "passed it once").level == "ask"


def test_a_clock_that_falls_back_without_a_zone_is_asked_about() -> None:
    assert (
        note_with(read(local_log(AUTUMN, 100, 900.0)), "summer time may have ended").level == "ask"
    )


def test_the_missing_hour_of_spring_leaves_no_gap() -> None:
    log = read(local_log(SPRING, 100, 900.0), zone=BERLIN)
    assert log.times_utc_s[-1] - log.times_utc_s[0] == 99 * 900


def test_a_logger_that_stays_on_winter_time_is_read_so() -> None:
    rows = [
        f"{SPRING + timedelta(hours=1, minutes=15 * number):%Y-%m-%d %H:%M},19.5"
        for number in range(100)
    ]
    log = read("\n".join(["time,beer", *rows]), zone=BERLIN)
    assert (log.times_utc_s[0], log.times_utc_s[-1]) == (
        seconds(SPRING),
        seconds(SPRING) + 99 * 900,
    )


# Source: worked out by hand. What the file says, the answer, the zone, and the first hour in UTC.
ZONES = [
    ("time,beer\n2024-07-01 12:00Z,19\n", BERLIN, "UTC", 12),
    ("time,beer\n2024-07-01 12:00+02:00,19\n", None, "UTC+02:00", 10),
    ("time (UTC),beer\n2024-07-01 12:00,19\n", BERLIN, "UTC", 12),
    ("time UTC+2,beer\n2024-07-01 12:00,19\n", None, "UTC+02:00", 10),
    ("zone: Europe/Berlin\ntime,beer\n2024-07-01 12:00,19\n", None, BERLIN, 10),
    ("time,beer\n2024-07-01 12:00,19\n", BERLIN, BERLIN, 10),
    ("time,beer\n2024-07-01 12:00,19\n", "-05:00", "-05:00", 17),
    ("time,beer\n2024-07-01 12:00,19\n", None, "UTC", 12),
]


@pytest.mark.parametrize(("text", "zone", "wanted", "hour"), ZONES)
def test_times_are_put_on_utc(text: str, zone: str | None, wanted: str, hour: int) -> None:
    log = read(text, zone=zone)
    found = datetime.fromtimestamp(log.times_utc_s[0], UTC)
    assert (log.zone.what, found.hour) == (wanted, hour)


@pytest.mark.parametrize(
    ("zone", "level", "said"),
    [(BERLIN, "info", "the zone given"), (None, "ask", "read as UTC")],
)
def test_times_without_a_zone_take_the_record_s_or_are_asked_about(
    zone: str | None, level: str, said: str
) -> None:
    assert said in texts(read("time,beer\n2024-07-01 12:00,19\n", zone=zone), level)


def test_an_unknown_zone_is_refused() -> None:
    with pytest.raises(UnusableInput, match="zone: found 'Berlin'; wanted a time zone"):
        read("time,beer\n2024-07-01 12:00,19\n", zone="Berlin")


def test_rows_out_of_order_are_sorted_with_a_note() -> None:
    log = read(
        "time,beer\n2024-07-01 12:30Z,3\n2024-07-01 12:00Z,1\n"
        "2024-07-01 12:45Z,4\n2024-07-01 12:15Z,2\n"
    )
    assert (log.lines.tolist(), "sorted by time" in texts(log, "info")) == ([3, 5, 2, 4], True)


def test_rows_said_twice_count_once() -> None:
    log = read("time,beer\n" + "2024-07-01 12:00Z,19\n" * 3 + "2024-07-01 12:15Z,19\n")
    assert (log.times_utc_s.size, note_with(log, "counted once").line) == (2, 3)


def test_two_readings_of_one_moment_are_both_kept() -> None:
    log = read("time,beer\n2024-07-01 12:00Z,19\n2024-07-01 12:00Z,20\n2024-07-01 12:15Z,19\n")
    assert log.times_utc_s.size == 3


def test_readings_uploaded_in_bundles_are_noted() -> None:
    rows = [f"2024-07-01 12:{number // 6}0Z,19.{number}" for number in range(30)]
    assert "bundles" in texts(read("\n".join(["time,beer", *rows])), "info")


def test_rows_in_the_future_are_noted_with_their_line() -> None:
    log = read("time,beer\n2024-07-01 12:00Z,19\n2099-07-01 12:15Z,19\n")
    assert (note_with(log, "future").level, note_with(log, "future").line) == ("warn", 3)


def test_rows_of_a_lost_clock_are_noted() -> None:
    log = read("time,beer\n1970-01-01 00:00Z,19\n2024-07-01 12:15Z,19\n")
    assert note_with(log, "before 2010").level == "warn"


def test_rows_without_a_readable_time_are_left_out_and_said() -> None:
    log = read(
        "time,beer\n2024-07-01 12:00Z,19\nreset,19\n2024-02-30 12:15Z,19\n2024-07-01 12:30Z,19\n"
    )
    note = note_with(log, "no readable time")
    assert (log.times_utc_s.size, note.text[:6], note.line) == (2, "2 rows", 3)


@pytest.mark.parametrize(("mark", "said"), [("", "UTC (not certain)"), ("Z", "UTC")])
def test_a_zone_that_was_guessed_is_told_as_not_certain(mark: str, said: str) -> None:
    log = read(f"time,beer\n2024-10-13 12:00{mark},19.5\n2024-10-13 12:15{mark},19.6\n")
    taken = {fact.what: fact.taken_as for fact in describe_probe(log).facts}
    assert taken["time zone"].startswith(said)
    assert ("not certain" in taken["time zone"]) == ("not certain" in said)
