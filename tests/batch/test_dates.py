"""Dates of a record: what can be written, what cannot be true, and the line of time they make."""

from datetime import UTC, date, datetime, timedelta
from itertools import pairwise, product
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.batch import hours_between, timeline_of
from tests.batch.written import TODAY, batch_of, faults_of, record_of

LISBON = ZoneInfo("Europe/Lisbon")
ORDER = [
    "brewed: {}\n",
    "pitch:\n  when: {}\n",
    "fermentation:\n  finished: {}\n",
    "fermentation:\n  crashed: {}\n",
    "packaging:\n  when: {}\n",
]
days = st.dates(date(2000, 1, 1), TODAY - timedelta(days=30))


def stages(first: int, second: int, when: tuple[str, str]) -> str:
    """A record with two of the stages, at two moments."""
    one, other = ORDER[first].format(when[0]), ORDER[second].format(when[1])
    return one + other.replace(
        "fermentation:\n", "" if "fermentation" in one else "fermentation:\n"
    )


PAIRS = list(product(range(5), range(5)))
EARLIER = [pair for pair in PAIRS if pair[0] < pair[1]]


@given(days, st.integers(0, 30), st.sampled_from(EARLIER))
def test_stages_in_their_order_are_accepted(day: date, later: int, pair: tuple[int, int]) -> None:
    assert batch_of(stages(*pair, (f"{day}", f"{day + timedelta(days=later)}"))).doubts == ()


@given(days, st.integers(1, 30), st.sampled_from(EARLIER))
def test_a_stage_on_a_day_before_the_one_it_follows_is_refused(
    day: date, before: int, pair: tuple[int, int]
) -> None:
    (fault,) = faults_of(stages(*pair, (f"{day}", f"{day - timedelta(days=before)}")))
    assert f"found {day - timedelta(days=before)}; wanted a date after" in fault


@given(days, st.times().map(lambda time: time.isoformat("minutes")))
def test_a_time_on_the_same_day_is_never_out_of_order(day: date, time: str) -> None:
    for when in ((f"{day}", f"{day} {time}"), (f"{day} {time}", f"{day}")):
        assert batch_of(stages(0, 1, when)).doubts == ()


# Source of the table: the calendar.
OUT_OF_ORDER = [
    (
        "pitch:\n  when: 2026-05-02\npackaging:\n  when: 2026-05-01\n",
        "batch.yaml:4: packaging.when: found 2026-05-01; "
        "wanted a date after the yeast was pitched (2026-05-02)",
    ),
    (
        "brewed: 2026-05-02 10:00\npitch:\n  when: 2026-05-02 09:00\n",
        "batch.yaml:3: pitch.when: found 2026-05-02 09:00; "
        "wanted a date after the batch was brewed (2026-05-02)",
    ),
    (
        "brewed: 2026-05-02 10:00+02:00\npitch:\n  when: 2026-05-02 08:30+01:00\n",
        "batch.yaml:3: pitch.when: found 2026-05-02 08:30+01:00; "
        "wanted a date after the batch was brewed (2026-05-02)",
    ),
    (
        "brewed: 2026-05-02\nfermentation:\n  finished: day 9\n  crashed: day 8\n",
        "batch.yaml:4: fermentation.crashed: found day 8; "
        "wanted a date after the gravity stopped falling (2026-05-11)",
    ),
    (
        "fermentation:\n  crashed: 2026-05-12\npackaging:\n  when: 2026-05-10\n",
        "batch.yaml:4: packaging.when: found 2026-05-10; "
        "wanted a date after the beer was crashed (2026-05-12)",
    ),
]


@pytest.mark.parametrize(("text", "said"), OUT_OF_ORDER, ids=lambda text: repr(text)[:40])
def test_dates_out_of_order_are_refused_with_what_they_must_follow(text: str, said: str) -> None:
    assert faults_of(text) == [said]


# Source of the table: the entries of a record that hold a date.
WITH_DATES = [
    "brewed: {}\n",
    "pitch: {{when: {}}}\n",
    "pitch: {{yeast: {{packed: {}}}}}\n",
    "recipe: {{hops: [{{opened: {}}}]}}\n",
    "recipe: {{fermentables: [{{crushed: {}}}]}}\n",
    "gravity: {{readings: [{{when: {}}}]}}\n",
    "fermentation: {{steps: [{{since: {}}}]}}\n",
    "fermentation: {{off_yeast: {}}}\n",
    "events: [{{when: {}}}]\n",
    "packaging: {{when: {}}}\n",
    "storage: [{{since: {}}}]\n",
    "equipment: {{changes: [{{when: {}}}]}}\n",
    "tastings: [{{when: {}}}]\n",
]


@pytest.mark.parametrize("entry", WITH_DATES)
def test_a_date_that_lies_ahead_is_refused(entry: str) -> None:
    (fault,) = faults_of(entry.format("2026-11-03"))
    assert fault.endswith("found 2026-11-03; wanted a date not after today (2026-11-01)")


@pytest.mark.parametrize("entry", WITH_DATES)
def test_tomorrow_is_accepted_as_it_may_be_today_elsewhere(entry: str) -> None:
    assert batch_of(entry.format("2026-11-02")).doubts == ()


def test_a_day_of_the_batch_that_lies_ahead_is_refused() -> None:
    (fault,) = faults_of("brewed: 2026-10-20\npackaging:\n  when: day 30\n")
    assert fault.startswith("batch.yaml:3: packaging.when: found day 30; wanted a date not after")


def test_only_a_best_before_date_may_lie_ahead() -> None:
    assert batch_of("recipe: {hops: [{best_before: 2029-01-01}]}").doubts == ()


# Source of the table: common practice, no source; dates that two people read in two ways, or none.
NOT_DATES = [
    *("12/09/2026", "12.09.2026", "20260912", "2026-W37-6", "2026-13-01", "2026-02-30"),
    *("yesterday", "Sept 12", "2026-09-12 9:30", "2026-09-12 noon", "day six", "day -3"),
]


@pytest.mark.parametrize("typed", NOT_DATES)
def test_what_is_not_clearly_a_date_is_refused_with_examples(typed: str) -> None:
    (fault,) = faults_of(f"brewed: {typed}\n")
    assert fault == (
        f"batch.yaml:1: brewed: found {typed!r}; wanted a date as '2026-09-12', "
        "'2026-09-12 10:30', '2026-09-12T10:30+01:00' or 'day 6'"
    )


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("0206-09-12", "a year between 1970 and 2199"),
        ("9999-12-31", "a year between 1970 and 2199"),
        ("day 99999999999", "at most 'day 36500'"),
    ],
)
def test_a_date_out_of_all_reach_is_refused(typed: str, wanted: str) -> None:
    (fault,) = faults_of(f"brewed: 2026-01-01\npackaging:\n  when: {typed}\n")
    assert fault == f"batch.yaml:3: packaging.when: found {typed!r}; wanted {wanted}"


# Source of the table: ISO 8601, and the zone's summer time (UTC+1) and winter time (UTC).
PITCHED = [
    ("2026-09-12", datetime(2026, 9, 12, 12, 0, tzinfo=LISBON)),
    ("2026-09-12 10:30", datetime(2026, 9, 12, 9, 30, tzinfo=UTC)),
    ("2026-01-12 10:30", datetime(2026, 1, 12, 10, 30, tzinfo=UTC)),
    ("2026-09-12T10:30+02:00", datetime(2026, 9, 12, 8, 30, tzinfo=UTC)),
    ("2026-09-12T10:30Z", datetime(2026, 9, 12, 10, 30, tzinfo=UTC)),
]


@pytest.mark.parametrize(("typed", "when"), PITCHED)
def test_a_time_is_read_in_its_own_zone_or_the_records(typed: str, when: datetime) -> None:
    record = record_of(f"zone: Europe/Lisbon\npitch:\n  when: {typed}\n")
    assert timeline_of(record).pitched == when


def test_a_time_without_any_zone_is_taken_as_utc() -> None:
    pitched = timeline_of(record_of("pitch: {when: 2026-09-12 10:30}")).pitched
    assert pitched == datetime(2026, 9, 12, 10, 30, tzinfo=UTC)


@pytest.mark.parametrize(("typed", "hours"), [("day 6", 144), ("Day 2,5", 60), ("day 0", 0)])
def test_a_day_of_the_batch_counts_from_brew_day(typed: str, hours: float) -> None:
    line = timeline_of(record_of(f"brewed: 2026-03-02 08:00\npackaging:\n  when: {typed}\n"))
    assert line.brewed is not None
    assert line.packaged is not None
    assert hours_between(line.brewed, line.packaged) == hours


def test_a_day_of_the_batch_means_nothing_without_a_brew_day() -> None:
    assert timeline_of(record_of("packaging: {when: day 6}")).packaged is None


def test_pitching_falls_back_to_brew_day() -> None:
    line = timeline_of(record_of("brewed: 2026-03-02"))
    assert line.pitched == line.brewed


def test_the_beer_leaves_the_yeast_when_it_is_racked_or_else_packaged() -> None:
    racked = record_of("fermentation: {off_yeast: 2026-03-10}\npackaging: {when: 2026-03-20}")
    packaged = record_of("packaging: {when: 2026-03-20}")
    assert [timeline_of(one).off_yeast for one in (racked, packaged)] == [
        datetime(2026, 3, 10, 12, 0, tzinfo=UTC),
        datetime(2026, 3, 20, 12, 0, tzinfo=UTC),
    ]


def test_the_last_tasting_is_the_latest_one_wherever_it_stands() -> None:
    record = record_of("tastings: [{when: 2026-05-09}, {when: 2026-04-01}, {words: thin}]")
    assert timeline_of(record).last_tasted == datetime(2026, 5, 9, 12, 0, tzinfo=UTC)


def test_an_empty_record_has_an_empty_timeline() -> None:
    line = timeline_of(record_of("batch: x"))
    assert {getattr(line, name) for name in line.__dataclass_fields__} == {None}


def test_hours_across_the_autumn_hour_count_the_hour_that_comes_twice() -> None:
    before, after = (datetime(2026, 10, day, 12, tzinfo=LISBON) for day in (24, 25))
    assert hours_between(before, after) == 25.0


def test_the_timeline_runs_forward() -> None:
    text = "brewed: 2026-03-02\nfermentation: {finished: day 9, crashed: day 12}\n"
    line = timeline_of(record_of(text + "packaging: {when: day 14}\n"))
    times = [line.brewed, line.finished, line.crashed, line.packaged]
    assert all(
        one is not None and other is not None and one < other for one, other in pairwise(times)
    )
