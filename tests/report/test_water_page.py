"""The water of a record as `batch show` tells it: typed in, and read off the page."""

import pytest

from diagnose.consult import show_batch
from diagnose.report import print_batch
from tests.consult.asked import asked
from tests.knowledge.shipped import rule_base
from tests.report.printed import printed, widest

COLUMNS = 80
SALTED = """
brewed: 2026-03-14
method: {method}
volume: 20 L
water: [{{source: distilled, used_for: all, volume: 20 L}}]
salts: [{{salt: calcium chloride {form}, amount: {amount}, into: {into}, scale_step: {step}}}]
mash: {{water: {mash}}}
"""
ORDINARY = {
    "method": "all grain",
    "form": "dihydrate",
    "amount": "5 g",
    "into": "mash",
    "step": "0.1 g",
    "mash": "unknown",
}


def water_page(**changed: str) -> str:
    """The section "Water" as one line of words."""
    answer = show_batch(rule_base(), asked("", SALTED.format(**{**ORDINARY, **changed})))
    page = printed(lambda console: print_batch(console, answer), COLUMNS)
    assert widest(page) <= COLUMNS
    return " ".join(page.partition("\nWater\n")[2].partition("\n\n")[0].split())


# Source of the table: the acceptance examples; molar masses.
ADDED = [
    ("dihydrate", "calcium chloride dihydrate: adds calcium 68, chloride 121 mg/L"),
    ("anhydrous", "calcium chloride anhydrous: adds calcium 90, chloride 160 mg/L"),
    ("form unknown", "calcium chloride dihydrate: adds calcium 68, chloride 121 mg/L"),
    ("form unknown", "calcium chloride anhydrous: adds calcium 90, chloride 160 mg/L"),
]


@pytest.mark.parametrize(("form", "told"), ADDED)
def test_five_grams_in_20_litres_are_told_by_their_form(form: str, told: str) -> None:
    assert told in water_page(form=form)


@pytest.mark.parametrize("form", ["dihydrate", "anhydrous"])
def test_a_form_that_is_known_is_told_alone(form: str) -> None:
    assert water_page(form=form).count("adds calcium") == 1


def test_an_unknown_form_widens_the_whole_water() -> None:
    assert "calcium 79 (67 to 93)" in water_page(form="form unknown")


@pytest.mark.parametrize(("method", "told"), [("extract", True), ("all grain", False)])
def test_extract_is_said_to_bring_minerals_of_its_own(method: str, told: bool) -> None:
    page = water_page(method=method)
    assert ("extract brings its own minerals: amount unknown" in page) == told


def test_a_dose_too_small_for_its_scale_is_said_to_be_off_and_how_to_weigh_it() -> None:
    page = water_page(amount="0.4 g", step="1 g")
    assert "scale: error up to 125 %; make a stock solution: 10 g" in page
    assert "4 mL of it hold 0.4 g" in page


def test_a_dose_that_suits_its_scale_wants_no_stock() -> None:
    page = water_page()
    assert "scale: error up to 1 %" in page
    assert "stock" not in page


# Source of the table: 5 g of the dihydrate hold 1,363 mg of calcium.
@pytest.mark.parametrize(
    ("mash", "told"),
    [("unknown", "into the mash (20 L in all)"), ("10 L", "into the mash (10 L) ")],
)
def test_a_salt_is_spread_over_the_water_it_went_into_or_else_all_of_it(
    mash: str, told: str
) -> None:
    assert told in water_page(mash=mash)


def test_mash_and_whole_brew_are_told_apart_where_the_record_does() -> None:
    page = water_page(mash="10 L")
    assert "mash (10 L): calcium 136" in page
    assert "whole brew (20 L): calcium 68" in page


def test_residual_alkalinity_goes_down_with_calcium() -> None:
    assert "residual alkalinity -49" in water_page()


def test_a_record_without_water_has_no_such_section() -> None:
    answer = show_batch(rule_base(), asked("", "mash: {at: 66 C}"))
    assert "Water" not in printed(lambda console: print_batch(console, answer), COLUMNS)
