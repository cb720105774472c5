"""Laws of attenuation, mash and bitterness."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.attenuation import (
    alcohol_by_weight_percent,
    apparent_attenuation_percent,
    real_attenuation_percent,
    real_extract_p,
)
from diagnose.process.bitterness import HopCharge, bitterness_ibu, bitterness_ratio, utilisation
from diagnose.process.mash import (
    diastatic_power_lintner,
    expected_attenuation_percent,
    grist_correction_points,
    mash_attenuation_percent,
)
from tests.process.cards import constants

SAME = 1e-9
worts = st.floats(5.0, 28.0)
shares = st.floats(0.0, 1.0)
gravities = st.floats(1.002, 1.130)


def ibu(*charges: HopCharge) -> float:
    return bitterness_ibu(charges, wort_sg=1.050, volume_l=20.0, constants=constants())


@given(worts, shares)
def test_real_extract_lies_between_apparent_and_original(original: float, left: float) -> None:
    apparent = original * left
    real = real_extract_p(original, apparent, constants())
    assert apparent - SAME <= real <= original + SAME


@given(worts, shares, shares)
def test_more_fermented_beer_never_holds_less_alcohol(
    original: float, first: float, second: float
) -> None:
    dry, full = sorted((original * first, original * second))
    assert alcohol_by_weight_percent(original, full, constants()) <= alcohol_by_weight_percent(
        original, dry, constants()
    )


@given(worts, shares)
def test_real_attenuation_never_exceeds_apparent(original: float, left: float) -> None:
    real = real_attenuation_percent(original, original * left, constants())
    assert real <= 100 * (1 - left) + 1e-9


@given(gravities, shares)
def test_apparent_attenuation_gives_the_final_gravity_back(original: float, gone: float) -> None:
    final = original - gone * (original - 1)
    assert apparent_attenuation_percent(original, final) == pytest.approx(100 * gone, abs=1e-8)


@given(st.floats(60.0, 80.0), st.floats(60.0, 80.0))
def test_a_hotter_mash_never_ferments_further(first_c: float, second_c: float) -> None:
    cool, hot = sorted((first_c, second_c))
    assert mash_attenuation_percent(hot, constants()) <= mash_attenuation_percent(cool, constants())


@given(st.floats(60.0, 95.0))
def test_an_ordinary_mash_gives_what_the_yeast_usually_does(usual: float) -> None:
    expected = expected_attenuation_percent(
        yeast_percent=usual,
        mash_c=constants()["ordinary_mash_c"],
        correction_points=0.0,
        constants=constants(),
    )
    assert expected == pytest.approx(usual, rel=SAME)


@given(st.floats(15.0, 300.0), st.floats(15.0, 300.0))
def test_a_longer_mash_never_ferments_less(first: float, second: float) -> None:
    points = [
        grist_correction_points(
            mash_minutes=time, dextrin_malt_percent=5.0, sugar_percent=0.0, constants=constants()
        )
        for time in sorted((first, second))
    ]
    assert points[0] <= points[1]


@given(st.floats(0.1, 20.0), st.floats(0.0, 160.0), st.floats(0.1, 20.0), st.floats(0.0, 160.0))
def test_the_power_of_a_grist_lies_between_its_malts(
    first_kg: float, first_power: float, second_kg: float, second_power: float
) -> None:
    mean = diastatic_power_lintner(
        {"first": (first_kg, first_power), "second": (second_kg, second_power)}
    )
    weak, strong = sorted((first_power, second_power))
    assert weak - 1e-9 <= mean <= strong + 1e-9


@given(st.floats(0.0, 120.0), st.floats(0.0, 120.0), st.floats(1.0, 1.130))
def test_hops_boiled_longer_never_give_less_bitterness(
    first: float, second: float, wort_sg: float
) -> None:
    short, long = sorted((first, second))
    assert utilisation(wort_sg, short, constants()) <= utilisation(wort_sg, long, constants())


@given(st.floats(0.0, 120.0), gravities, gravities)
def test_stronger_wort_never_takes_up_more_bitterness(
    time: float, first: float, second: float
) -> None:
    thin, thick = sorted((first, second))
    assert utilisation(thick, time, constants()) <= utilisation(thin, time, constants())


@given(st.floats(0.0, 100.0), st.floats(0.0, 60.0))
def test_charges_of_hops_add_up(hop_g: float, time: float) -> None:
    one, other = HopCharge(hop_g, 5.0, time), HopCharge(30.0, 8.0, 60.0)
    assert ibu(one, other) == pytest.approx(ibu(one) + ibu(other))


def test_a_beer_without_hops_has_no_bitterness() -> None:
    assert ibu() == 0.0


def test_fifty_ibu_at_1050_is_a_ratio_of_one() -> None:
    assert bitterness_ratio(50.0, 1.050) == pytest.approx(1.0)


@pytest.mark.parametrize("mash_c", [55.0, 85.0])
def test_a_mash_beyond_the_measured_ones_is_refused(mash_c: float) -> None:
    with pytest.raises(OutsideValidity, match="a mash at C"):
        mash_attenuation_percent(mash_c, constants())


def test_water_has_no_attenuation() -> None:
    with pytest.raises(OutsideValidity):
        apparent_attenuation_percent(1.0, 1.0)
