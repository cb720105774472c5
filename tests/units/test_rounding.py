"""Figures are told with no more digits than their range is worth."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.units.rounding import figure, figures
from diagnose.units.scales import change_in_both, scales_over

# Source of the table: worked by eye; a range is told in at least three steps of its last digit.
TOLD = [
    ((3.346, 0.0734, 11.4), ("3.3", "0.1", "11.4")),
    ((1.09, -7.61, 9.75), ("1", "-8", "10")),
    ((5.46, 5.23, 5.65), ("5.5", "5.2", "5.7")),
    ((0.0571, 0.0265, 0.144), ("0.06", "0.03", "0.14")),
    ((67.0, 66.0, 68.0), ("67", "66", "68")),
    ((20.0, 18.5, 21.5), ("20.0", "18.5", "21.5")),
    ((0.0, -0.1, 0.1), ("0.0", "-0.1", "0.1")),
    ((1.014, 1.013, 1.015), ("1.014", "1.013", "1.015")),
    ((64.8, 41.7, 92.6), ("65", "42", "93")),
    ((142.0, 142.0, 142.0), ("142", "142", "142")),
    ((0.333333, 0.333333, 0.333333), ("0.333", "0.333", "0.333")),
    ((0.0, 0.0, 0.0), ("0", "0", "0")),
    ((-0.2, -3.0, 3.0), ("-0.2", "-3.0", "3.0")),
    ((1.6, 0.9, 7.0), ("1.6", "0.9", "7.0")),
    ((8.4, 1.2, 16.3), ("8", "1", "16")),
    ((7.692, 7.692, 7.692), ("7.7", "7.7", "7.7")),
    ((-0.0, -0.001, 4.0), ("0", "0", "4")),
    # twelve ounces over thirteen and a quarter pounds, reckoned twice
    ((5.660377358490566, 5.660377358490565, 5.660377358490567), ("5.7", "5.7", "5.7")),
]


@pytest.mark.parametrize(("band", "told"), TOLD)
def test_a_figure_has_the_digits_its_range_is_worth(
    band: tuple[float, float, float], told: tuple[str, str, str]
) -> None:
    assert figures(band) == told


bands = st.lists(st.floats(-1e6, 1e6), min_size=3, max_size=3).map(sorted)


@given(bands)
def test_a_figure_told_still_lies_in_its_range(band: list[float]) -> None:
    low, value, high = band
    mid, least, most = map(float, figures((value, low, high)))
    assert least <= mid <= most


@given(bands)
def test_no_figure_is_told_as_a_power_of_ten(band: list[float]) -> None:
    low, value, high = band
    assert not any("e" in text for text in figures((value, low, high)))


@given(bands)
def test_rounding_moves_a_figure_by_less_than_a_sixth_of_its_range(band: list[float]) -> None:
    low, value, high = band
    if high - low > 1e-6:
        assert abs(float(figures((value, low, high))[0]) - value) <= (high - low) / 6.0


# Source of the table: worked by hand; what is left of a subtraction of floats is nought.
PLAIN = [
    (4.441e-16, None, "0"),
    (-4.441e-16, None, "0"),
    (0.2828, None, "0.283"),
    (-0.2828, 1, "-0.3"),
    (-0.04, 1, "0.0"),
    (12345.6, None, "12346"),
    (0.00042, None, "0.00042"),
]


@pytest.mark.parametrize(("value", "decimals", "told"), PLAIN)
def test_one_number_is_told_without_crumbs_and_powers_of_ten(
    value: float, decimals: int | None, told: str
) -> None:
    assert figure(value, decimals) == told


# Source of the table: worked by hand; a series is told in at least thirty steps.
SERIES = [
    ([0.0, 4.441e-16], "pH", 4.441e-16, "0 pH"),
    ([0.35, 0.35], "pH", 0.35, "0.35 pH"),
    ([-8.2, None, 4.1], "points of apparent attenuation", -0.2828, "-0.3 points of apparent "),
    ([150.2, 900.0], "mg/L", 150.2, "150 mg/L"),
    ([9.0, 22.0], "C", 18.888, "18.9 C (66 F)"),
    ([], "-", 0.0, "0"),
]


@pytest.mark.parametrize(("series", "unit", "value", "told"), SERIES)
def test_a_series_is_told_in_the_decimals_that_tell_its_values_apart(
    series: list[float | None], unit: str, value: float, told: str
) -> None:
    assert scales_over(unit, series).both(value).startswith(told)


# Source of the table: worked by hand; a difference of 5 C is one of 9 F.
CHANGES = [
    ((5.0, 1.0, 11.0), "C", "+5 C (+1 to +11); +9 F (+2 to +20)"),
    ((4.441e-16, -0.2, 0.4), "pH", "0.0 pH (-0.2 to +0.4)"),
    ((-0.2828, -0.2828, -0.2828), "-", "-0.283"),
]


@pytest.mark.parametrize(("band", "unit", "told"), CHANGES)
def test_a_change_is_told_with_its_sign_and_in_both_systems(
    band: tuple[float, float, float], unit: str, told: str
) -> None:
    assert change_in_both(band, unit) == told
