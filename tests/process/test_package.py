"""Laws of the package: oxygen, light, gas and pressure."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.carbonation import (
    SUGAR_PER_VOLUME,
    bottle_pressure_bar,
    gauge_pressure_bar,
    held_volumes,
    keg_volumes,
    package_volumes,
    priming_sugar_g,
    residual_volumes,
)
from diagnose.process.light import BRIGHTNESS_BY_LIGHT, light_dose_klux_h
from diagnose.process.oxygen import (
    air_oxygen_mg,
    packaged_oxygen_mg_per_l,
    shaken_oxygen,
)
from tests.process.cards import constants

SAME = 1e-9
shares = st.floats(0.0, 1.0)


def packaged(headspace_ml: float, air_left: float, *, dissolved: float = 0.1) -> float:
    return packaged_oxygen_mg_per_l(
        dissolved_mg_per_l=dissolved,
        headspace_ml=headspace_ml,
        beer_l=0.5,
        air_left_share=air_left,
        constants=constants(),
    )


def filled(sugar: float, *, residual: float = 0.85, unfinished: float = 0.0) -> float:
    return package_volumes(
        residual_volumes=residual,
        sugar_g_per_l=sugar,
        sugar_g_per_l_per_volume=constants()["glucose_per_volume"],
        unfinished_points=unfinished,
        constants=constants(),
    )


@given(st.floats(0.0, 100.0), shares, shares)
def test_a_better_purge_never_leaves_more_oxygen(
    headspace: float, first: float, second: float
) -> None:
    little, much = sorted((first, second))
    assert packaged(headspace, little) <= packaged(headspace, much)


@given(st.floats(0.0, 100.0), shares, st.floats(0.0, 8.0))
def test_the_oxygen_in_beer_and_headspace_is_all_there_is(
    headspace: float, air_left: float, dissolved: float
) -> None:
    in_all_mg = dissolved * 0.5 + air_oxygen_mg(headspace * air_left, constants())
    assert packaged(headspace, air_left, dissolved=dissolved) * 0.5 == pytest.approx(in_all_mg)


@given(st.floats(0.0, 5.0))
def test_a_package_without_headspace_holds_what_is_dissolved(dissolved: float) -> None:
    shaken = shaken_oxygen(dissolved, headspace_ml=0.0, beer_ml=330.0, constants=constants())
    assert shaken == dissolved


@given(st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_a_warmer_finish_never_leaves_more_gas(first_c: float, second_c: float) -> None:
    cold, warm = sorted((first_c, second_c))
    assert residual_volumes(warm, constants()) <= residual_volumes(cold, constants()) * (1 + SAME)


@given(st.floats(1.5, 3.5), st.floats(0.0, 18.3))
def test_a_keg_at_its_pressure_comes_back_to_its_gas(volumes: float, beer_c: float) -> None:
    gauge_bar = gauge_pressure_bar(volumes, beer_c, constants())
    assert keg_volumes(gauge_bar, beer_c, constants()) == pytest.approx(volumes, rel=1e-6)


@given(st.floats(1.0, 4.0), st.floats(0.2, 1.0), st.sampled_from(sorted(SUGAR_PER_VOLUME)))
def test_priming_for_a_carbonation_reaches_it(wanted: float, residual: float, sugar: str) -> None:
    for_one = constants()[SUGAR_PER_VOLUME[sugar]]
    sugar_g = priming_sugar_g(
        wanted_volumes=wanted,
        residual_volumes=residual,
        sugar_g_per_l_per_volume=for_one,
        beer_l=20.0,
    )
    reached = package_volumes(
        residual_volumes=residual,
        sugar_g_per_l=sugar_g / 20.0,
        sugar_g_per_l_per_volume=for_one,
        unfinished_points=0.0,
        constants=constants(),
    )
    assert reached == pytest.approx(wanted, rel=SAME)


def test_two_points_of_unfinished_gravity_make_a_volume() -> None:
    assert filled(6.0, unfinished=2.0) - filled(6.0) == pytest.approx(1.0)


@given(st.floats(0.5, 6.0), st.floats(0.0, 40.0), st.floats(0.0, 40.0))
def test_a_warmer_bottle_never_stands_under_less_pressure(
    volumes: float, first_c: float, second_c: float
) -> None:
    cold, warm = sorted((first_c, second_c))
    assert bottle_pressure_bar(volumes, cold, constants()) <= bottle_pressure_bar(
        volumes, warm, constants()
    ) * (1 + SAME)


# 5 volumes at 40 C stay below the 10 bar at which the way back ends.
@given(st.floats(0.5, 5.0), st.floats(0.0, 40.0))
def test_the_gas_a_pressure_holds_makes_that_pressure(volumes: float, beer_c: float) -> None:
    pressure_bar = bottle_pressure_bar(volumes, beer_c, constants())
    assert held_volumes(pressure_bar, beer_c, constants()) == pytest.approx(volumes, rel=SAME)


@given(st.floats(0.0, 500.0), st.floats(0.0, 500.0), shares)
def test_light_doses_add_up(first_h: float, second_h: float, factor: float) -> None:
    def dose(hours: float) -> float:
        return light_dose_klux_h(brightness_lux=800.0, hours=hours, glass_factor=factor)

    assert dose(first_h) + dose(second_h) == pytest.approx(dose(first_h + second_h))


def test_every_light_is_brighter_than_the_one_before() -> None:
    brightness = [constants()[BRIGHTNESS_BY_LIGHT[light]] for light in BRIGHTNESS_BY_LIGHT]
    assert brightness == sorted(set(brightness))


@pytest.mark.parametrize(("bottle_c", "volumes"), [(60.0, 2.5), (20.0, 20.0)])
def test_a_bottle_beyond_the_table_is_refused(bottle_c: float, volumes: float) -> None:
    with pytest.raises(OutsideValidity):
        bottle_pressure_bar(volumes, bottle_c, constants())


def test_a_keg_too_warm_for_the_table_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="a keg at C 25"):
        keg_volumes(1.0, 25.0, constants())
