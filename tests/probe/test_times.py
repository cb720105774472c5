"""Ways of writing a moment, and the order of day and month."""

from datetime import UTC, datetime

import pytest

from diagnose.batch.probe.stamps import Stamp, read_stamp
from diagnose.errors import UnusableInput
from tests.probe.written import moments, read, seconds


def dated(dates: str, start: datetime, count: int = 200) -> str:
    """Quarter-hourly readings in a way of writing dates."""
    rows = [
        f"{when.strftime(dates)},19.{number % 10}"
        for number, when in enumerate(moments(count, start=start))
    ]
    return "\n".join(["when,beer", *rows])


# Common practice, no source: ways of writing one moment, 4 March 2024, 13:05 UTC.
STAMPS = [
    "2024-03-04T13:05:00Z",
    "2024-03-04 13:05",
    "2024/03/04 13:05:00.000",
    "04.03.2024 13:05",
    "04.03.24 13:05:00",
    "4/3/2024 1:05 PM",
    "4/3/2024 01:05:00 p.m.",
    "13:05 04/03/2024",
    "4 Mar 2024 13:05",
    "04-Mar-2024 13:05:00",
    "March 4, 2024 at 1:05 PM",
    "Mon, 04 Mar 2024 13:05:00 GMT",
    "20240304T130500Z",
    "20240304130500",
    "2024-03-04_13:05:00",
]


@pytest.mark.parametrize("text", STAMPS)
def test_one_moment_is_read_from_any_way_of_writing_it(text: str) -> None:
    found = read_stamp(text)
    assert found is not None
    assert (found.year, found.month, found.day, found.seconds) == (2024, 3, 4, 13 * 3600 + 300)


# Source: ISO 8601 and the letters' usual meaning, from memory.
OFFSETS = [
    ("Z", 0.0),
    ("+02:00", 2.0),
    ("-0530", -5.5),
    ("+01", 1.0),
    (" UTC+2", 2.0),
    (" CEST", 2.0),
]


@pytest.mark.parametrize(("zone", "hours"), OFFSETS)
def test_an_offset_behind_the_time_is_read(zone: str, hours: float) -> None:
    found = read_stamp(f"2024-03-04T13:05:00{zone}")
    assert found is not None
    assert found.offset_s == hours * 3600


NO_STAMPS = [
    "",
    "19.5",
    "25:00",
    "2024-13-04 10:00",
    "1.052",
    "12345678901",
    "2024-03-04 25:00",
    "n/a",
]


@pytest.mark.parametrize("text", NO_STAMPS)
def test_what_is_no_moment_is_not_read_as_one(text: str) -> None:
    assert read_stamp(text) is None


@pytest.mark.parametrize(
    ("figures", "decimals"), [("1709557500", ""), ("1709557500000", ""), ("1709557500000000", "")]
)
def test_an_epoch_is_told_by_its_figures(figures: str, decimals: str) -> None:
    assert read_stamp(figures + decimals) == Stamp(1970, 1, 1, 1709557500.0, 0.0, "")


# Source: worked out by hand. Start day, format, what the order must be.
ORDERS = [
    ("a day above 12", "%d/%m/%Y %H:%M", datetime(2024, 3, 14, tzinfo=UTC), "day first"),
    ("a day above 12 second", "%m/%d/%Y %H:%M", datetime(2024, 3, 14, tzinfo=UTC), "month first"),
    ("a day above 12 late", "%m/%d/%Y %H:%M", datetime(2024, 3, 11, 1, tzinfo=UTC), "month first"),
    ("midnight, day first", "%d/%m/%Y %H:%M", datetime(2024, 3, 4, tzinfo=UTC), "day first"),
    ("midnight, month first", "%m/%d/%Y %H:%M", datetime(2024, 3, 4, tzinfo=UTC), "month first"),
    (
        "month's end, month first",
        "%m-%d-%Y %H:%M",
        datetime(2024, 2, 29, 20, tzinfo=UTC),
        "month first",
    ),
    ("dots", "%d.%m.%Y %H:%M", datetime(2024, 3, 4, tzinfo=UTC), "day first"),
]


@pytest.mark.parametrize(
    ("dates", "start", "wanted"), [row[1:] for row in ORDERS], ids=[row[0] for row in ORDERS]
)
def test_day_and_month_are_told_apart_over_the_whole_column(
    dates: str, start: datetime, wanted: str
) -> None:
    log = read(dated(dates, start))
    assert (log.layout.date_order.what, log.times_utc_s[0]) == (wanted, seconds(start))


def test_dates_that_read_both_ways_are_asked_about() -> None:
    with pytest.raises(
        UnusableInput, match=r":2: date: .*2024-03-04 or 2024-04-03.*is the day first"
    ):
        read(dated("%m/%d/%Y %H:%M", datetime(2024, 4, 3, 1, tzinfo=UTC), 20))


@pytest.mark.parametrize(("answer", "month"), [(True, 3), (False, 4)])
def test_the_answer_settles_dates_that_read_both_ways(answer: bool, month: int) -> None:
    text = dated("%m/%d/%Y %H:%M", datetime(2024, 4, 3, 1, tzinfo=UTC), 20)
    first = read(text, day_first=answer).times_utc_s[0]
    assert datetime.fromtimestamp(first, UTC).month == month


def test_an_answer_that_the_dates_contradict_is_refused() -> None:
    with pytest.raises(UnusableInput, match=r"log|probe.*found a date with 14 where the month"):
        read(dated("%m/%d/%Y %H:%M", datetime(2024, 3, 14, tzinfo=UTC)), day_first=True)


def test_dates_in_two_orders_are_refused() -> None:
    with pytest.raises(UnusableInput, match="one order of day and month"):
        read("time,beer\n13/02/2024 10:00,19\n02/14/2024 10:00,19\n")


def test_years_of_two_figures_in_front_are_refused() -> None:
    rows = [f"24-10-{day:02d} 12:00,19.{day}" for day in range(1, 8)]
    with pytest.raises(UnusableInput, match="years of four figures"):
        read("\n".join(["time,beer", *rows]))
