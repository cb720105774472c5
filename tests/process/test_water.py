"""Laws of salts, chlorine and mash pH."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.chlorine import (
    NEED_BY_SALT,
    carried_over_mg_per_l,
    chlorine_left_mg_per_l,
    metabisulfite_mg,
)
from diagnose.process.salts import (
    ION_ATOMS,
    SALT_ATOMS,
    SALT_IONS,
    UNKNOWN_FORMS,
    ion_share,
    ions_mg_per_l,
    molar_mass_g,
)
from diagnose.process.water import (
    acid_needed_meq,
    alkalinity_ppm,
    grist_distilled_ph,
    hardness_ppm,
    mash_ph,
    residual_alkalinity_ppm,
)
from tests.process.cards import constants

SAME = 1e-9
# Salts that give up no atom but water when they dissolve.
NEUTRAL = sorted(set(SALT_IONS) - {"calcium carbonate", "calcium hydroxide"})
WATER_G = 18.015
# Calcium chloride from the needs of brewers: whole mg/L.
WHOLE_MG = 0.5


@pytest.mark.parametrize("salt", NEUTRAL)
def test_the_ions_and_the_crystal_water_weigh_what_the_salt_weighs(salt: str) -> None:
    atoms, ions = SALT_ATOMS[salt], SALT_IONS[salt]
    in_ions = sum(count * ION_ATOMS[ion].get("H", 0) for ion, count in ions.items())
    waters = (atoms.get("H", 0) - in_ions) / 2
    total_g = waters * WATER_G + sum(
        count * molar_mass_g(ION_ATOMS[ion], constants()) for ion, count in ions.items()
    )
    assert total_g == pytest.approx(molar_mass_g(SALT_ATOMS[salt], constants()), rel=1e-6)


@given(st.sampled_from(sorted(SALT_IONS)), st.floats(0.0, 50.0), st.floats(1.0, 100.0))
def test_the_mass_of_an_ion_does_not_depend_on_the_volume(
    salt: str, salt_g: float, water_l: float
) -> None:
    ions = ions_mg_per_l(salt, salt_g=salt_g, water_l=water_l, constants=constants())
    for ion, strength in ions.items():
        in_all_g = strength * water_l / 1000
        assert in_all_g == pytest.approx(salt_g * ion_share(salt, ion, constants()), abs=1e-9)


@given(st.floats(0.1, 20.0), st.floats(0.1, 20.0), st.floats(1.0, 50.0))
def test_two_spoonfuls_of_a_salt_add_up(first_g: float, second_g: float, water_l: float) -> None:
    def calcium(salt_g: float) -> float:
        salt = "calcium sulfate dihydrate"
        return ions_mg_per_l(salt, salt_g=salt_g, water_l=water_l, constants=constants())["calcium"]

    assert calcium(first_g) + calcium(second_g) == pytest.approx(
        calcium(first_g + second_g), rel=SAME
    )


@pytest.mark.parametrize(
    ("form", "calcium", "chloride"),
    [("calcium chloride dihydrate", 68, 121), ("calcium chloride anhydrous", 90, 160)],
)
def test_five_grams_of_calcium_chloride_in_20_l_depend_on_the_form(
    form: str, calcium: int, chloride: int
) -> None:
    ions = ions_mg_per_l(form, salt_g=5.0, water_l=20.0, constants=constants())
    assert ions == pytest.approx({"calcium": calcium, "chloride": chloride}, abs=WHOLE_MG)


def test_an_unknown_form_of_calcium_chloride_may_be_either() -> None:
    forms = UNKNOWN_FORMS["calcium chloride form unknown"]
    weakest, strongest = (ion_share(form, "calcium", constants()) for form in forms)
    assert strongest / weakest == pytest.approx(1.32, abs=0.005)


def test_a_salt_gives_none_of_an_ion_it_does_not_hold() -> None:
    assert ion_share("sodium chloride", "calcium", constants()) == 0.0


def test_salt_in_no_water_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        ions_mg_per_l("sodium chloride", salt_g=5.0, water_l=0.0, constants=constants())


@given(st.floats(0.0, 10.0), st.floats(1.0, 100.0), st.sampled_from(sorted(NEED_BY_SALT)))
def test_the_bare_need_of_metabisulfite_leaves_no_chlorine(
    chlorine: float, water_l: float, salt: str
) -> None:
    need = constants()[NEED_BY_SALT[salt]]
    dose_mg = metabisulfite_mg(chlorine, water_l=water_l, need_mg_per_mg=need)
    left = chlorine_left_mg_per_l(
        chlorine, metabisulfite_mg_per_l=dose_mg / water_l, need_mg_per_mg=need
    )
    assert left == pytest.approx(0.0, abs=1e-9)


@given(st.floats(0.0, 10.0), st.floats(0.0, 20.0))
def test_metabisulfite_never_leaves_more_chlorine(chlorine: float, dose: float) -> None:
    left = chlorine_left_mg_per_l(chlorine, metabisulfite_mg_per_l=dose, need_mg_per_mg=1.34)
    assert 0.0 <= left <= chlorine


@pytest.mark.parametrize(("solution", "in_beer"), [(12.5, 0.0125), (200.0, 0.2)])
def test_a_puddle_of_sanitiser_is_thinned_by_the_beer(solution: float, in_beer: float) -> None:
    assert carried_over_mg_per_l(solution, left_ml=20.0, beer_l=20.0) == pytest.approx(in_beer)


@given(st.floats(0.0, 400.0), st.floats(0.0, 400.0), st.floats(0.0, 100.0))
def test_calcium_never_raises_the_residual_alkalinity(
    alkalinity: float, calcium: float, magnesium: float
) -> None:
    with_calcium, without = (
        residual_alkalinity_ppm(
            alkalinity_ppm=alkalinity,
            calcium_ppm=hardness,
            magnesium_ppm=magnesium,
            constants=constants(),
        )
        for hardness in (calcium, 0.0)
    )
    assert with_calcium <= without


@given(st.floats(5.4, 5.9), st.floats(2.0, 5.0), st.floats(5.0, 5.6))
def test_the_acid_that_is_needed_brings_the_mash_to_its_target(
    distilled: float, thickness: float, target: float
) -> None:
    acid = acid_needed_meq(target, distilled_ph=distilled, malt_kg=1.0, constants=constants())
    reached = mash_ph(
        residual_alkalinity_ppm=0.0,
        water_l_per_kg=thickness,
        distilled_ph=distilled,
        acid_meq_per_kg=acid,
        constants=constants(),
    )
    assert reached == pytest.approx(target, rel=SAME)


@given(st.floats(-100.0, 300.0), st.floats(0.0, 300.0))
def test_more_alkaline_water_never_lowers_the_mash_ph(first: float, more: float) -> None:
    reached = [
        mash_ph(
            residual_alkalinity_ppm=alkalinity,
            water_l_per_kg=3.0,
            distilled_ph=5.7,
            acid_meq_per_kg=0.0,
            constants=constants(),
        )
        for alkalinity in (first, first + more)
    ]
    assert reached[0] <= reached[1]


def test_bicarbonate_and_calcium_as_calcium_carbonate_carry_the_right_masses() -> None:
    chalk_g = molar_mass_g(SALT_ATOMS["calcium carbonate"], constants())
    calcium_g = molar_mass_g(ION_ATOMS["calcium"], constants())
    bicarbonate_g = molar_mass_g(ION_ATOMS["bicarbonate"], constants())
    found = (hardness_ppm("calcium", 1.0, constants()), alkalinity_ppm(1.0, constants()))
    assert found == pytest.approx((chalk_g / calcium_g, chalk_g / bicarbonate_g / 2), abs=1e-3)


def test_dark_malt_lowers_what_a_grist_gives_in_distilled_water() -> None:
    pale, dark = constants()["distilled_ph_base"], constants()["distilled_ph_roast"]
    mixed = grist_distilled_ph({"pale": (4.5, pale), "roast": (0.5, dark)})
    assert dark < mixed < pale
