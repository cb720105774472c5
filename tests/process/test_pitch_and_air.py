"""Laws of yeast storage, of pitching and of oxygen from air."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.aeration import oxygen_at_pitch_mg_per_l, saturated_wort_mg_per_l
from diagnose.process.pitch import (
    cells_needed_billion,
    living_from_dry_billion,
    living_from_liquid_billion,
    living_from_slurry_billion,
    pitch_ratio,
)
from tests.process.cards import constants

SAME = 1e-9
months = st.floats(0.0, 48.0)
fridge = st.floats(0.0, 25.0)


@given(months, months, fridge)
def test_dry_yeast_never_gains_life_with_age(first: float, second: float, kept_c: float) -> None:
    young, old = sorted((first, second))
    alive = [
        living_from_dry_billion(11.5, age_months=age, stored_c=kept_c, constants=constants())
        for age in (young, old)
    ]
    assert alive[1] <= alive[0]


@given(months, months, fridge)
def test_a_liquid_pack_never_gains_life_with_age(
    first: float, second: float, kept_c: float
) -> None:
    young, old = sorted((first, second))
    alive = [
        living_from_liquid_billion(100.0, age_months=age, stored_c=kept_c, constants=constants())
        for age in (young, old)
    ]
    assert alive[1] <= alive[0]


@given(st.floats(0.0, 30.0), fridge, fridge)
def test_slurry_never_lives_longer_when_warmer(
    weeks: float, first_c: float, second_c: float
) -> None:
    cold, warm = sorted((first_c, second_c))
    alive = [
        living_from_slurry_billion(200.0, age_weeks=weeks, stored_c=heat, constants=constants())
        for heat in (cold, warm)
    ]
    assert alive[1] <= alive[0] * (1 + SAME)


@pytest.mark.parametrize(("kept_c", "loss_percent"), [(4.0, 4.0), (20.0, 20.0)])
def test_a_year_costs_dry_yeast_what_the_posts_say(kept_c: float, loss_percent: float) -> None:
    fresh, aged = (
        living_from_dry_billion(10.0, age_months=age, stored_c=kept_c, constants=constants())
        for age in (0.0, 12.0)
    )
    assert 100 * (1 - aged / fresh) == pytest.approx(loss_percent, rel=SAME)


@given(st.floats(5.0, 60.0), st.floats(4.0, 25.0), st.floats(0.5, 2.0))
def test_the_cells_that_are_needed_make_a_ratio_of_one(
    volume_l: float, extract_p: float, rate: float
) -> None:
    needed = cells_needed_billion(volume_l, extract_p, rate)
    ratio = pitch_ratio(
        living_billion=needed, volume_l=volume_l, extract_p=extract_p, rate_million_per_ml_p=rate
    )
    assert ratio == pytest.approx(1.0, rel=SAME)


@given(st.floats(0.0, 30.0), st.floats(0.0, 30.0), st.floats(0.0, 25.0))
def test_warmer_wort_never_takes_up_more_oxygen(
    first_c: float, second_c: float, extract_p: float
) -> None:
    cold, warm = sorted((first_c, second_c))
    assert saturated_wort_mg_per_l(warm, extract_p, constants()) <= saturated_wort_mg_per_l(
        cold, extract_p, constants()
    ) * (1 + SAME)


@given(st.floats(0.0, 30.0), st.floats(0.0, 25.0), st.floats(0.0, 25.0))
def test_stronger_wort_never_takes_up_more_oxygen(
    wort_c: float, first_p: float, second_p: float
) -> None:
    weak, strong = sorted((first_p, second_p))
    assert saturated_wort_mg_per_l(wort_c, strong, constants()) <= saturated_wort_mg_per_l(
        wort_c, weak, constants()
    )


@given(st.floats(0.0, 30.0), st.floats(0.0, 25.0), st.floats(0.0, 1.0))
def test_air_never_gives_more_than_saturation(
    wort_c: float, extract_p: float, share: float
) -> None:
    given_by_air = oxygen_at_pitch_mg_per_l(
        wort_c=wort_c, extract_p=extract_p, saturation_share=share, constants=constants()
    )
    assert given_by_air <= saturated_wort_mg_per_l(wort_c, extract_p, constants())


def test_dry_yeast_from_a_hot_car_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="dry yeast kept at C 40"):
        living_from_dry_billion(11.5, age_months=1.0, stored_c=40.0, constants=constants())


def test_water_is_no_wort_to_pitch_into() -> None:
    with pytest.raises(OutsideValidity):
        cells_needed_billion(20.0, 0.0, 0.75)
