"""Laws of adding a rate up over a temperature history."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process.diacetyl import half_lives_passed
from diagnose.process.kinetics import equivalent_time, log_between, q10_speed
from diagnose.process.staling import storage_days_at_20c
from diagnose.process.trace import cut_trace, mean_c, read_trace, total_over
from tests.process.cards import constants

SAME = 1e-9
temperatures = st.lists(st.floats(0.0, 40.0), min_size=2, max_size=12)
a_temperature = st.floats(0.0, 40.0)


def evenly(values: list[float]) -> list[float]:
    return [24.0 * index for index in range(len(values))]


@given(temperatures, st.floats(0.01, 0.99))
def test_equivalent_time_is_additive_over_any_cut(heat: list[float], share: float) -> None:
    hours = evenly(heat)
    cut_h = share * hours[-1]
    early = cut_trace(hours, heat, start_h=0.0, end_h=cut_h)
    late = cut_trace(hours, heat, start_h=cut_h, end_h=hours[-1])
    parts = sum(storage_days_at_20c(*part, constants=constants()) for part in (early, late))
    whole = storage_days_at_20c(hours, heat, constants=constants())
    assert parts == pytest.approx(whole, rel=1e-6)


@given(a_temperature, a_temperature, st.integers(2, 200))
def test_a_fine_log_of_a_steady_drift_gives_the_answer_of_a_coarse_one(
    first_c: float, last_c: float, readings: int
) -> None:
    coarse = storage_days_at_20c([0.0, 720.0], [first_c, last_c], constants=constants())
    fine = storage_days_at_20c(
        np.linspace(0, 720, readings), np.linspace(first_c, last_c, readings), constants=constants()
    )
    assert fine == pytest.approx(coarse, rel=1e-6)


@given(st.floats(0.0, 2000.0))
def test_at_20_c_a_day_counts_as_a_day(hours: float) -> None:
    counted = storage_days_at_20c([0.0, hours], [20.0, 20.0], constants=constants())
    assert counted == pytest.approx(hours / 24, rel=SAME)


@given(temperatures, st.integers(0, 11), st.floats(0.0, 5.0))
def test_a_warmer_history_never_counts_for_less(
    heat: list[float], where: int, more_c: float
) -> None:
    warmer = list(heat)
    warmer[where % len(heat)] += more_c
    hours = evenly(heat)
    counted, warmer_counted = (
        half_lives_passed(hours, trace, constants=constants()) for trace in (heat, warmer)
    )
    assert warmer_counted >= counted * (1 - SAME)


@given(temperatures, st.floats(0.0, 5.0))
def test_a_shift_is_the_same_as_warming_every_reading(heat: list[float], more_c: float) -> None:
    hours = evenly(heat)
    shifted = half_lives_passed(hours, heat, shift_c=more_c, constants=constants())
    warmed = half_lives_passed(hours, [one + more_c for one in heat], constants=constants())
    assert shifted == pytest.approx(warmed, rel=SAME)


@given(temperatures)
def test_the_mean_lies_between_the_coldest_and_the_warmest(heat: list[float]) -> None:
    assert min(heat) - SAME <= mean_c(evenly(heat), heat) <= max(heat) + SAME


@given(a_temperature, a_temperature, st.floats(1.5, 5.0), st.floats(0.1, 500.0))
def test_counting_at_another_temperature_and_back_changes_nothing(
    here_c: float, there_c: float, q10: float, days: float
) -> None:
    there = equivalent_time(days, kept_c=here_c, counted_at_c=there_c, q10=q10)
    back = equivalent_time(there, kept_c=there_c, counted_at_c=here_c, q10=q10)
    assert back == pytest.approx(days, rel=SAME)


@given(a_temperature, st.floats(1.1, 6.0))
def test_ten_degrees_more_multiply_the_speed_by_q10(here_c: float, q10: float) -> None:
    both = q10_speed(np.array([here_c, here_c + 10]), reference_c=20.0, q10=q10)
    assert both[1] / both[0] == pytest.approx(q10, rel=SAME)


@given(st.floats(0.01, 100.0), st.floats(0.01, 100.0))
def test_a_rate_between_two_points_meets_both(cold: float, warm: float) -> None:
    met = log_between(np.array([4.0, 20.0]), (4.0, cold), (20.0, warm))
    assert met == pytest.approx([cold, warm], rel=SAME)


def test_a_step_is_written_as_the_same_hour_twice() -> None:
    stepped = total_over([0, 24, 24, 48], [10, 10, 20, 20], lambda heat: heat / 24)
    assert stepped == pytest.approx(30.0, rel=SAME)


def test_a_single_moment_comes_to_nothing() -> None:
    assert storage_days_at_20c([5.0], [20.0], constants=constants()) == 0.0


@pytest.mark.parametrize(
    ("hours", "heat", "complaint"),
    [
        ([0.0, 1.0], [20.0], "one length"),
        ([], [], "one length"),
        ([0.0, 1.0], [20.0, float("nan")], "gap"),
        ([1.0, 0.0], [20.0, 20.0], "backward"),
    ],
)
def test_a_broken_history_is_refused(hours: list[float], heat: list[float], complaint: str) -> None:
    with pytest.raises(ValueError, match=complaint):
        read_trace(hours, heat)


def test_a_stretch_outside_the_history_is_refused() -> None:
    with pytest.raises(ValueError, match="between 50 and 60 h"):
        cut_trace([0.0, 24.0], [20.0, 20.0], start_h=50.0, end_h=60.0)
