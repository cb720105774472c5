"""Laws of the yeast side: diacetyl, acetaldehyde, yeast contact, esters."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.acetaldehyde import acetaldehyde_left_mg_per_l
from diagnose.process.autolysis import yeast_contact_days_at_20c
from diagnose.process.diacetyl import (
    diacetyl_to_come_mg_per_l,
    half_lives_passed,
    precursor_half_life_hours,
    precursor_left_mg_per_l,
    rest_hours_needed,
)
from diagnose.process.esters import early_beer_c, relative_load
from tests.process.cards import constants

SAME = 1e-9
beer = st.floats(1.0, 34.0)
days = st.floats(0.0, 60.0)


def held(time_d: float, beer_c: float) -> tuple[list[float], list[float]]:
    return [0.0, 24 * time_d], [beer_c, beer_c]


@given(beer, beer)
def test_the_precursor_never_lasts_longer_when_warmer(first_c: float, second_c: float) -> None:
    cold, warm = sorted((first_c, second_c))
    assert precursor_half_life_hours(warm, constants()) <= precursor_half_life_hours(
        cold, constants()
    ) * (1 + SAME)


@given(beer)
def test_one_half_life_of_waiting_passes_one_half_life(beer_c: float) -> None:
    hours = precursor_half_life_hours(beer_c, constants())
    passed = half_lives_passed([0.0, hours], [beer_c, beer_c], constants=constants())
    assert passed == pytest.approx(1.0, rel=SAME)


@given(st.floats(0.0, 30.0), st.floats(0.0, 30.0))
def test_more_half_lives_never_leave_more_diacetyl_to_come(first: float, second: float) -> None:
    few, many = sorted((first, second))
    assert diacetyl_to_come_mg_per_l(many, constants()) <= diacetyl_to_come_mg_per_l(
        few, constants()
    )


@given(st.floats(0.16, 2.0), st.floats(1.0, 30.0))
def test_after_the_rest_that_was_asked_for_the_limit_is_met(start: float, beer_c: float) -> None:
    hours = rest_hours_needed(start, beer_c, constants())
    passed = half_lives_passed([0.0, hours], [beer_c, beer_c], constants=constants())
    to_come = constants()["aal_to_diacetyl_mass"] * precursor_left_mg_per_l(start, passed)
    assert to_come == pytest.approx(constants()["diacetyl_limit"], rel=1e-6)


def test_little_precursor_needs_no_rest() -> None:
    assert rest_hours_needed(0.05, 15.0, constants()) == 0.0


@given(days, days, beer)
def test_more_days_on_yeast_never_leave_more_acetaldehyde(
    first: float, second: float, beer_c: float
) -> None:
    short, long = sorted((first, second))
    left = [
        acetaldehyde_left_mg_per_l(*held(time, beer_c), constants=constants())
        for time in (short, long)
    ]
    assert left[1] <= left[0] * (1 + SAME)


@given(st.floats(0.1, 60.0), beer, beer)
def test_warmer_yeast_never_leaves_more_acetaldehyde(
    time_d: float, first_c: float, second_c: float
) -> None:
    cold, warm = sorted((first_c, second_c))
    left = [
        acetaldehyde_left_mg_per_l(*held(time_d, heat), constants=constants())
        for heat in (cold, warm)
    ]
    assert left[1] <= left[0] * (1 + SAME)


@pytest.mark.parametrize(("beer_c", "days_to_half"), [(19.0, 2.0), (9.0, 5.5)])
def test_acetaldehyde_halves_in_the_remembered_time(beer_c: float, days_to_half: float) -> None:
    left = acetaldehyde_left_mg_per_l(*held(days_to_half, beer_c), constants=constants())
    assert left == pytest.approx(constants()["acetaldehyde_peak"] / 2, rel=SAME)


@given(days, beer)
def test_ten_degrees_colder_halves_the_days_on_yeast(time_d: float, beer_c: float) -> None:
    warm = yeast_contact_days_at_20c(*held(time_d, beer_c), constants=constants())
    cold = yeast_contact_days_at_20c(*held(time_d, beer_c), shift_c=-4.0, constants=constants())
    assert cold == pytest.approx(warm * 2**-0.4, rel=SAME)


@given(beer.filter(lambda c: c >= 4), beer.filter(lambda c: c >= 4), st.floats(0.1, 9.0))
def test_a_warmer_start_never_makes_less_ester(
    first_c: float, second_c: float, slope: float
) -> None:
    cold, warm = sorted((first_c, second_c))
    made = [
        relative_load(early_beer_c=heat, reference_c=18.0, slope_percent_per_c=slope)
        for heat in (cold, warm)
    ]
    assert made[0] <= made[1] * (1 + SAME)


def test_what_comes_after_three_days_does_not_count_as_early() -> None:
    hours = np.array([0.0, 72.0, 72.0, 240.0])
    assert early_beer_c(hours, [18.0, 18.0, 30.0, 30.0]) == pytest.approx(18.0)


@pytest.mark.parametrize("beer_c", [-5.0, 80.0])
def test_a_beer_the_rate_was_not_meant_for_is_refused(beer_c: float) -> None:
    with pytest.raises(OutsideValidity, match="a beer at C"):
        precursor_half_life_hours(beer_c, constants())
