"""Figures are told with no more digits than their range is worth."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.report.rounding import figures

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
