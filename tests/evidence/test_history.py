"""How warm the beer was: by the probe log first, else by what was noted."""

from datetime import UTC, datetime, timedelta
from textwrap import dedent

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.batch.probe import ProbeLog
from diagnose.evidence.finding import NumberFinding
from diagnose.evidence.history import LEAST_COVERAGE, History
from diagnose.process import Band
from diagnose.process.trace import mean_c
from tests.evidence.records import edges, findings_of, log_of

PITCHED = datetime(2026, 3, 14, 12, tzinfo=UTC)
NOTED = """
brewed: 2026-03-14
fermentation: {temperature: 18 C, peak: 20 C}
"""
STILL = Band(0.0, 0.0, 0.0)
SAME = 1e-9

temperatures = st.lists(st.floats(0.0, 40.0), min_size=2, max_size=8)


def hourly(beer_c: float, hours: float, heading: str = "beer temperature (C)") -> ProbeLog:
    """A log of one reading an hour, all but the same: a probe that never moves looks stuck."""
    rows = [
        ((PITCHED + timedelta(hours=hour)).isoformat(), round(beer_c + 0.1 * (hour % 2), 2))
        for hour in range(int(hours) + 1)
    ]
    return log_of(rows, heading)


def early_c(record: str, log: ProbeLog | None = None) -> tuple[float, float, float]:
    finding = findings_of(dedent(record), log)["early_beer_c"]
    assert isinstance(finding, NumberFinding)
    return edges(finding.band)


def test_the_probe_log_is_believed_before_the_notes() -> None:
    assert early_c(NOTED, hourly(23.0, 100))[1] == pytest.approx(23.05, abs=0.01)


def test_the_probe_log_s_peak_is_believed_before_the_noted_one() -> None:
    finding = findings_of(NOTED, hourly(23.0, 130))["peak_beer_c"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(23.1)


def test_a_probe_log_of_too_short_a_time_gives_way_to_the_notes() -> None:
    hours = 72 * LEAST_COVERAGE - 2
    assert early_c(NOTED, hourly(23.0, hours))[1] == pytest.approx(18.0)


def test_a_probe_log_of_enough_of_the_time_is_used() -> None:
    hours = 72 * LEAST_COVERAGE + 2
    assert early_c(NOTED, hourly(23.0, hours))[1] == pytest.approx(23.05, abs=0.1)


def test_a_short_probe_log_without_notes_leaves_the_measure_open() -> None:
    assert "early_beer_c" not in findings_of("brewed: 2026-03-14", hourly(23.0, 20))


# Source of the table: common practice, no source; a working beer is warmer than its room.
@pytest.mark.parametrize(
    ("place", "shift"),
    [
        ("in the beer", (-0.5, 0.0, 0.5)),
        ("on the wall", (-1.5, 0.0, 1.5)),
        ("in the room", (1.0, 3.0, 6.0)),
    ],
)
def test_where_the_probe_hung_shifts_what_it_read(
    place: str, shift: tuple[float, float, float]
) -> None:
    record = f"brewed: 2026-03-14\nfermentation: {{probe_place: {place}}}"
    read_c = 19.05
    assert early_c(record, hourly(19.0, 100)) == pytest.approx(
        tuple(read_c + edge for edge in shift), abs=0.01
    )


def test_a_column_of_air_counts_as_the_room() -> None:
    in_the_air = early_c("brewed: 2026-03-14", hourly(19.0, 100, "room temperature (C)"))
    assert in_the_air == pytest.approx((20.05, 22.05, 25.05), abs=0.01)


def test_notes_are_trusted_less_than_a_probe() -> None:
    noted, logged = early_c(NOTED), early_c(NOTED, hourly(18.0, 100))
    assert noted[2] - noted[0] > logged[2] - logged[0]


@given(st.floats(0.0, 40.0), st.floats(0.0, 50.0), st.floats(0.1, 50.0))
def test_any_part_of_a_steady_history_is_as_warm_as_the_whole(
    beer_c: float, start: float, length: float
) -> None:
    whole = History(np.array([0.0, 100.0]), np.array([beer_c, beer_c]), STILL, "", ())
    part = whole.cut(start, start + length)
    assert mean_c(part.hours, part.beer_c) == pytest.approx(beer_c, abs=SAME)


@given(temperatures, st.data())
def test_a_part_of_a_history_is_never_warmer_or_colder_than_the_whole(
    beer_c: list[float], data: st.DataObject
) -> None:
    start, end = sorted(data.draw(st.tuples(st.floats(0, 90), st.floats(91, 100))))
    hours = np.linspace(0.0, 100.0, len(beer_c))
    part = History(hours, np.array(beer_c), STILL, "", ()).cut(start, end)
    assert min(beer_c) - SAME <= part.beer_c.min() <= part.beer_c.max() <= max(beer_c) + SAME


@given(temperatures)
def test_a_part_spans_exactly_what_was_asked_for(beer_c: list[float]) -> None:
    hours = np.linspace(0.0, 100.0, len(beer_c))
    part = History(hours, np.array(beer_c), STILL, "", ()).cut(12.5, 77.5)
    assert (part.hours[0], part.hours[-1]) == (12.5, 77.5)


# Source of the table: first principles; whichever came first ended the yeast's work.
@pytest.mark.parametrize(
    ("record", "days"),
    [
        ("fermentation: {finished: 2026-03-20, crashed: 2026-03-25}", 5.0),
        (
            "fermentation: {finished: 2026-03-20, crashed: 2026-03-25}\n"
            "packaging: {when: 2026-03-28}",
            5.0,
        ),
        ("fermentation: {finished: 2026-03-20, off_yeast: 2026-03-22, crashed: 2026-03-25}", 2.0),
        ("fermentation: {finished: 2026-03-20}\npackaging: {when: 2026-03-28}", 8.0),
        ("fermentation: {finished: 2026-03-20, crashed: 2026-03-20}", 0.0),
        (
            "gravity: {final: 1.012, readings: [{when: 2026-03-18, gravity: 1.014}, "
            "{when: 2026-03-21, gravity: 1.012}]}\nfermentation: {crashed: 2026-03-25}",
            4.0,
        ),
    ],
)
def test_days_on_yeast_run_from_the_end_of_the_fall_to_the_first_parting(
    record: str, days: float
) -> None:
    finding = findings_of(record)["days_on_yeast_after_final"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(days)


def test_a_beer_off_its_yeast_before_the_end_has_passed_no_half_life() -> None:
    record = "fermentation: {finished: 2026-03-20, off_yeast: 2026-03-18}"
    finding = findings_of(record)["diacetyl_half_lives"]
    assert isinstance(finding, NumberFinding)
    assert edges(finding.band) == (0.0, 0.0, 0.0)


# Source: a hydrometer is read to a point, so a reading one point above the final one is final.
@pytest.mark.parametrize("final", [1.002, 1.008, 1.010, 1.011, 1.012, 1.013, 1.014, 1.016, 1.020])
def test_a_reading_one_point_above_the_final_gravity_is_final_whatever_the_figures(
    final: float,
) -> None:
    record = f"""
    brewed: 2026-03-14
    gravity:
      original: 1.055
      final: {final:.3f}
      readings:
        - {{when: 2026-03-22, gravity: {final + 0.001:.3f}}}
        - {{when: 2026-03-26, gravity: {final:.3f}}}
    packaging: {{when: 2026-03-27}}
    """
    finding = findings_of(dedent(record))["days_final_to_package"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(5.0)


def test_a_crash_on_the_day_the_gravity_stopped_leaves_the_rest_to_the_hours_nobody_wrote() -> None:
    # 12 h x sqrt(2) of doubt at 20 C, where the half-life is 30 h and may be half of that
    record = """
    brewed: 2026-03-14
    fermentation: {temperature: 20 C, finished: 2026-03-24, crashed: 2026-03-24}
    """
    finding = findings_of(dedent(record))["diacetyl_half_lives"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.low == finding.band.mid == 0.0
    assert 17.0 / 30.0 < finding.band.high < 3.0 * 17.0 / 30.0
    assert finding.says == "off the yeast as soon as the gravity stopped"


def test_a_crash_days_before_the_gravity_stopped_leaves_no_rest() -> None:
    record = """
    brewed: 2026-03-14
    gravity: {original: 1.050, final: 1.012, readings: [{when: 2026-03-28, gravity: 1.012}]}
    fermentation: {temperature: 20 C, crashed: 2026-03-24}
    """
    finding = findings_of(dedent(record))["diacetyl_half_lives"]
    assert isinstance(finding, NumberFinding)
    assert finding.band == STILL
    assert finding.says == "off the yeast before the gravity had stopped"
