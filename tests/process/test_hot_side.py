"""Laws of the boil: DMS, its precursor, and the way down to pitching temperature."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.boil import (
    Sulfide,
    evaporation_percent_per_h,
    held_hot,
    precursor_half_life_minutes,
)
from diagnose.process.cooling import Cooling, coolant_below
from diagnose.process.dms import HotSide, after_boil, dms_ug_per_l, precursor_in_wort_ug_per_l
from tests.process.cards import constants

SAME = 1e-9
# Cooling is integrated in steps of a minute or a twentieth of the chill.
STEPPED = 1e-3
PILSNER = HotSide(
    lager_malt_g_per_l=200.0,
    ale_malt_g_per_l=0.0,
    dark_malt_g_per_l=0.0,
    extract_g_per_l=0.0,
    wort_ph=5.3,
    boil_minutes=60.0,
    boiling_c=100.0,
    evaporation_percent_per_h=10.0,
    stand_minutes=0.0,
    stand_c=95.0,
    stand_venting=0.0,
    chill_minutes=20.0,
    chilled_to_c=20.0,
)
minutes = st.floats(0.0, 180.0)


def dms_of(**changes: float) -> float:
    return dms_ug_per_l(replace(PILSNER, **changes), constants())


@given(minutes, minutes)
def test_a_longer_boil_never_leaves_more_precursor(first: float, second: float) -> None:
    short, long = sorted((first, second))
    left_short, left_long = (
        after_boil(replace(PILSNER, boil_minutes=time), constants()).precursor_ug_per_l
        for time in (short, long)
    )
    assert left_long <= left_short * (1 + SAME)


@given(st.floats(1.0, 20.0), st.floats(1.0, 20.0))
def test_a_harder_boil_never_leaves_more_dms(first: float, second: float) -> None:
    weak, hard = sorted((first, second))
    assert dms_of(evaporation_percent_per_h=hard) <= dms_of(evaporation_percent_per_h=weak) * (
        1 + SAME
    )


@given(st.floats(5.0, 120.0), st.floats(5.0, 120.0))
def test_a_slower_chill_never_leaves_less_dms(first: float, second: float) -> None:
    quick, slow = sorted((first, second))
    assert dms_of(chill_minutes=slow) >= dms_of(chill_minutes=quick) * (1 - STEPPED)


@given(st.floats(1.0, 90.0), st.floats(0.0, 0.3))
def test_a_lid_on_the_stand_never_leaves_less_dms(stand: float, venting: float) -> None:
    covered = dms_of(stand_minutes=stand, stand_venting=0.0)
    open_stand = dms_of(stand_minutes=stand, stand_venting=venting)
    assert covered >= open_stand * (1 - SAME)


@given(st.floats(0.0, 400.0), st.floats(0.0, 400.0))
def test_more_lager_malt_never_brings_less_precursor(first: float, second: float) -> None:
    little, much = sorted((first, second))
    brought = [
        precursor_in_wort_ug_per_l(replace(PILSNER, lager_malt_g_per_l=mass), constants())
        for mass in (little, much)
    ]
    assert brought[0] <= brought[1]


@given(st.floats(0.0, 2000.0), st.floats(0.0, 500.0), st.floats(1.0, 600.0))
def test_under_a_tight_lid_precursor_and_dms_together_stay_the_same(
    precursor: float, dms: float, time: float
) -> None:
    after = held_hot(
        Sulfide(precursor, dms), minutes=time, half_life_minutes=35.0, stripping_per_min=0.0
    )
    total = after.precursor_ug_per_l + after.dms_ug_per_l
    assert total == pytest.approx(precursor + dms, rel=1e-9, abs=1e-9)


@given(st.floats(0.5, 60.0), st.floats(0.5, 60.0), st.floats(0.0, 0.2))
def test_two_stretches_of_boil_are_one_long_stretch(
    first: float, second: float, stripping: float
) -> None:
    steps = {"half_life_minutes": 35.0, "stripping_per_min": stripping}
    once = held_hot(Sulfide(1000.0, 50.0), minutes=first + second, **steps)
    halfway = held_hot(Sulfide(1000.0, 50.0), minutes=first, **steps)
    twice = held_hot(halfway, minutes=second, **steps)
    assert twice.dms_ug_per_l == pytest.approx(once.dms_ug_per_l, rel=1e-6)


@given(st.floats(70.0, 100.0), st.floats(70.0, 100.0), st.floats(5.0, 5.8))
def test_hotter_wort_never_keeps_its_precursor_longer(
    first_c: float, second_c: float, wort_ph: float
) -> None:
    cool_c, hot_c = sorted((first_c, second_c))
    hot, cool = (
        precursor_half_life_minutes(heat, wort_ph, constants()) for heat in (hot_c, cool_c)
    )
    assert hot <= cool * (1 + SAME)


@given(st.floats(30.0, 99.0), st.floats(5.0, 600.0))
def test_time_above_a_limit_is_part_of_the_chill(limit_c: float, time: float) -> None:
    cooling = Cooling(from_c=100.0, to_c=20.0, coolant_c=12.0, minutes=time)
    assert 0.0 <= cooling.minutes_above(limit_c) <= time


@given(st.floats(21.0, 99.0), st.floats(5.0, 600.0))
def test_the_wort_stands_at_a_limit_once_its_time_above_is_over(
    limit_c: float, time: float
) -> None:
    cooling = Cooling(from_c=100.0, to_c=20.0, coolant_c=12.0, minutes=time)
    assert cooling.wort_c(cooling.minutes_above(limit_c)) == pytest.approx(limit_c, rel=1e-6)


def test_a_chill_of_no_time_is_no_time_above_anything() -> None:
    cooling = Cooling(from_c=100.0, to_c=20.0, coolant_c=12.0, minutes=0.0)
    assert cooling.minutes_above(80.0) == 0.0


def test_a_wort_colder_than_tap_water_had_a_colder_coolant() -> None:
    assert coolant_below(9.0, constants()) == 6.0


@pytest.mark.parametrize(
    "changes",
    [
        {"wort_ph": 6.4},
        {"evaporation_percent_per_h": 55.0},
        {"boiling_c": 120.0},
        {"boil_minutes": -5.0},
        {"chilled_to_c": 101.0},
    ],
)
def test_what_the_sources_do_not_cover_is_refused(changes: dict[str, float]) -> None:
    with pytest.raises(OutsideValidity):
        dms_of(**changes)


def test_more_wort_after_the_boil_than_before_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        evaporation_percent_per_h(20.0, 23.0, 1.0)
