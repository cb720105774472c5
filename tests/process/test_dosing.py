"""Salts weighed and dissolved: sums that a brewer can do by hand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process.dosing import (
    forms_of,
    ions_by_form_mg_per_l,
    mixed_mg_per_l,
    scale_error_percent,
    stock_for,
)
from tests.process.cards import constants

grams = st.floats(0.01, 100.0)
litres = st.floats(1.0, 200.0)
steps = st.floats(0.001, 5.0)

# Source of the table: molar masses; 5 g in 20 L is 250 mg/L of the salt.
FIVE_GRAMS_IN_20_L = [
    ("calcium chloride dihydrate", "calcium", 68.2),
    ("calcium chloride dihydrate", "chloride", 120.6),
    ("calcium chloride anhydrous", "calcium", 90.3),
    ("calcium chloride anhydrous", "chloride", 159.7),
]


@pytest.mark.parametrize(("form", "ion", "mg_per_l"), FIVE_GRAMS_IN_20_L)
@pytest.mark.parametrize("unsure", [True, False])
def test_calcium_chloride_adds_what_its_form_holds(
    form: str, ion: str, mg_per_l: float, unsure: bool
) -> None:
    salt = "calcium chloride form unknown" if unsure else form
    ions = ions_by_form_mg_per_l(salt, salt_g=5.0, water_l=20.0, constants=constants())
    assert ions[form][ion] == pytest.approx(mg_per_l, abs=0.1)


def test_a_salt_of_unknown_form_is_told_in_both() -> None:
    assert len(forms_of("calcium chloride form unknown")) == 2


def test_the_anhydrous_form_holds_a_third_more() -> None:
    both = ions_by_form_mg_per_l(
        "calcium chloride form unknown", salt_g=5.0, water_l=20.0, constants=constants()
    )
    wet, dry = (both[form]["calcium"] for form in forms_of("calcium chloride form unknown"))
    assert dry / wet == pytest.approx(1.32, abs=0.005)


@given(grams, litres)
def test_twice_the_salt_in_twice_the_water_is_the_same_water(salt_g: float, water_l: float) -> None:
    once, twice = (
        ions_by_form_mg_per_l(
            "sodium chloride",
            salt_g=times * salt_g,
            water_l=times * water_l,
            constants=constants(),
        )
        for times in (1.0, 2.0)
    )
    assert once["sodium chloride"] == pytest.approx(twice["sodium chloride"])


def test_four_tenths_of_a_gram_on_a_scale_of_a_gram_may_be_anything() -> None:
    assert scale_error_percent(0.4, 1.0) == pytest.approx(125.0)


@given(grams, steps)
def test_a_stock_s_dose_holds_the_salt_that_was_wanted(salt_g: float, step_g: float) -> None:
    stock = stock_for("sodium chloride", salt_g=salt_g, scale_step_g=step_g)
    assert stock.salt_g * stock.dose_ml / stock.made_up_to_ml == pytest.approx(salt_g)


@given(grams, steps)
def test_a_stock_is_weighed_better_than_one_in_twenty(salt_g: float, step_g: float) -> None:
    stock = stock_for("sodium chloride", salt_g=salt_g, scale_step_g=step_g)
    assert scale_error_percent(stock.salt_g, step_g) <= 5.0 + 1e-9


@pytest.mark.parametrize(
    ("salt", "soluble"), [("calcium chloride dihydrate", True), ("calcium carbonate", False)]
)
def test_a_stock_is_made_of_what_dissolves(salt: str, soluble: bool) -> None:
    assert stock_for(salt, salt_g=0.4, scale_step_g=1.0).soluble == soluble


@given(st.lists(st.tuples(litres, st.floats(0.0, 500.0)), min_size=1, max_size=5))
def test_waters_mixed_lie_between_the_weakest_and_the_strongest(
    parts: list[tuple[float, float]],
) -> None:
    strengths = [strength for _, strength in parts]
    assert min(strengths) - 1e-9 <= mixed_mg_per_l(parts) <= max(strengths) + 1e-9


# Source of the table: solubility at 0 C, from memory [g/L].
DISSOLVES_COLD = [
    ("sodium bicarbonate", 69.0),
    ("sodium chloride", 357.0),
    ("calcium chloride anhydrous", 595.0),
    ("magnesium sulfate heptahydrate", 500.0),
]


@pytest.mark.parametrize(("salt", "g_per_l"), DISSOLVES_COLD)
def test_a_stock_dissolves_in_cold_water_with_room_to_spare(salt: str, g_per_l: float) -> None:
    stock = stock_for(salt, salt_g=0.4, scale_step_g=1.0)
    assert 1000.0 * stock.salt_g / stock.made_up_to_ml < 0.8 * g_per_l
