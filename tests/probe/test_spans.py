"""Laws of the means and coverage of a span, and the summary of a log."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch.probe import (
    ProbeLog,
    Role,
    coverage,
    mean_between,
    summarise,
    trace,
)
from tests.probe.written import QUARTER_S, START, beer_log, moments, read, seconds, wavy

quickly = settings(max_examples=40, deadline=None, derandomize=True)
BEER: Role = "beer_temperature"
T0 = seconds(START)
COUNT = 200
END = T0 + (COUNT - 1) * QUARTER_S
# Sums of a few hundred pieces in double precision.
CLOSE = 1e-6

LOG = beer_log([f"{value:.2f}" for value in wavy(COUNT)])
CONSTANT = beer_log(["19.25"] * COUNT)
spans = (
    st.tuples(st.floats(0, 1), st.floats(0, 1))
    .map(sorted)
    .filter(lambda pair: pair[1] - pair[0] > 0.01)
)
inside = spans.map(lambda pair: tuple(T0 + share * (END - T0) for share in pair))


def gappy(gap_hours: float) -> ProbeLog:
    """Ten hours at 10 C, a gap, ten hours at 20 C."""
    before = moments(41)
    after = [when + (before[-1] - before[0]) for when in moments(41)]
    rows = [f"{when:%Y-%m-%dT%H:%M:%SZ},10" for when in before]
    for when in after:
        later = seconds(when) + gap_hours * 3600
        rows.append(f"{later:.0f},20")
    return read("\n".join(["time,beer (C)", *rows]))


@quickly
@given(inside)
def test_the_mean_of_a_constant_is_the_constant(span: tuple[float, float]) -> None:
    assert mean_between(CONSTANT, BEER, start_s=span[0], end_s=span[1]) == pytest.approx(19.25)


@quickly
@given(inside)
def test_a_mean_lies_between_the_lowest_and_the_highest(span: tuple[float, float]) -> None:
    mean = mean_between(LOG, BEER, start_s=span[0], end_s=span[1])
    values = trace(LOG, BEER).values
    assert mean is not None
    assert values.min() <= mean <= values.max()


@quickly
@given(inside)
def test_means_of_adjoining_spans_weigh_by_their_time(span: tuple[float, float]) -> None:
    middle = (span[0] + span[1]) / 2
    whole = mean_between(LOG, BEER, start_s=span[0], end_s=span[1])
    parts = [
        mean_between(LOG, BEER, start_s=span[0], end_s=middle),
        mean_between(LOG, BEER, start_s=middle, end_s=span[1]),
    ]
    assert whole == pytest.approx(np.mean([part for part in parts if part is not None]), abs=CLOSE)


@quickly
@given(inside)
def test_a_span_without_gaps_is_covered(span: tuple[float, float]) -> None:
    assert coverage(LOG, *span) == pytest.approx(1.0)


def test_a_mean_is_over_time_and_not_over_readings() -> None:
    # Source: by hand. One hour at 10, five readings; a rise over one hour; one hour at 20.
    rows = ["12:00,10", "12:15,10", "12:30,10", "12:45,10", "13:00,10", "14:00,20", "15:00,20"]
    log = read(
        "\n".join(["time,beer (C)", *(f"2024-07-01 {row.replace(',', 'Z,')}" for row in rows)])
    )
    start = log.times_utc_s[0]
    assert mean_between(log, BEER, start_s=start, end_s=start + 3 * 3600) == pytest.approx(15.0)


# Source: by hand. Twenty hours of readings and a gap of so many hours.
GAPS = [(1.5, 1.0), (2.5, 20 / 22.5), (20.0, 0.5)]


@pytest.mark.parametrize(("gap_hours", "share"), GAPS)
def test_a_big_gap_is_not_covered(gap_hours: float, share: float) -> None:
    log = gappy(gap_hours)
    assert coverage(log, log.times_utc_s[0], log.times_utc_s[-1]) == pytest.approx(share)


def test_a_big_gap_is_not_bridged_by_a_mean() -> None:
    log = gappy(100.0)
    mean = mean_between(log, BEER, start_s=log.times_utc_s[0], end_s=log.times_utc_s[-1])
    assert mean == pytest.approx(15.0)


def test_rare_readings_by_hand_are_bridged() -> None:
    log = beer_log([1.050, 1.040, 1.030, 1.020], step_s=86_400, header="time,SG")
    assert coverage(log, log.times_utc_s[0], log.times_utc_s[-1]) == pytest.approx(1.0)


def test_a_span_reaching_beyond_the_log_is_covered_in_part() -> None:
    assert coverage(LOG, T0 - (END - T0), END) == pytest.approx(0.5)


def test_the_coverage_of_a_part_that_was_not_logged_is_zero() -> None:
    assert coverage(LOG, T0, END, role="gravity") == 0.0


# Nothing was logged there: no number may be the answer.
@pytest.mark.parametrize("role", [BEER, "gravity"])
def test_without_readings_there_is_no_answer(role: Role) -> None:
    assert mean_between(LOG, role, start_s=T0 - 7200, end_s=T0 - 3600) is None


def test_one_reading_is_its_own_mean() -> None:
    assert mean_between(beer_log([19.5]), BEER, start_s=T0 - 60, end_s=T0 + 60) == 19.5


def test_a_summary_counts_what_is_usable() -> None:
    cells = [f"{value:.2f}" for value in wavy(60)]
    cells[10], cells[11], cells[40] = "-127", "", "39"
    found = summarise(beer_log(cells), BEER)
    assert found is not None
    flags = {kind: count for kind, count in found.flags.items() if count}
    assert (found.count, found.usable, flags) == (60, 57, {"missing": 1, "sentinel": 1, "spike": 1})


def test_a_summary_finds_the_longest_gap() -> None:
    found = summarise(gappy(5.0), BEER)
    assert found is not None
    assert (found.interval_s, found.longest_gap_s, found.longest_gap_start_s) == (
        QUARTER_S,
        5 * 3600,
        T0 + 10 * 3600,
    )


def test_a_summary_gives_lowest_mean_and_highest() -> None:
    found = summarise(beer_log([10, 20, 20], step_s=3600), BEER)
    assert found is not None
    assert (found.lowest, found.mean, found.highest, found.unit) == (10, 17.5, 20, "C")


def test_there_is_no_summary_of_a_part_that_was_not_logged() -> None:
    assert summarise(LOG, "gravity") is None
