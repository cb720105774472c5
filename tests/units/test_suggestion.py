"""A temperature that only makes sense on the other scale."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.units import Field, Habits, Reading, read_quantity, suggest_other_scale

FERMENTATION_C = (0.0, 45.0)


def suggestion(typed: str, habits: Habits | None = None) -> str | None:
    reading = read_quantity(typed, Field.TEMPERATURE, habits or Habits())
    return suggest_other_scale(reading, *FERMENTATION_C)


@given(st.integers(0, 45))
def test_a_plausible_temperature_is_left_alone(number: int) -> None:
    assert suggestion(f"{number} C") is None


@given(st.integers(46, 113))
def test_celsius_too_hot_to_be_true_is_asked_about(number: int) -> None:
    assert (suggestion(f"{number} C") or "").startswith(f"did you mean {number} F (")


# Source: arithmetic on definitions.
ASKED = [
    ("68 C", "did you mean 68 F (20 C)?"),
    ("66-70 C", "did you mean 68 F (20 C)?"),
    ("about 68 C", "did you mean 68 F (20 C)?"),
    ("20 F", "did you mean 20 C (68 F)?"),
    ("22.5 F", "did you mean 22.5 C (72.5 F)?"),
]


@pytest.mark.parametrize(("typed", "question"), ASKED)
def test_the_other_scale_is_offered(typed: str, question: str) -> None:
    assert suggestion(typed) == question


@pytest.mark.parametrize("typed", ["150 F", "150 C", "-20 C", "68 C (154 F)", "350 K"])
def test_nothing_is_offered_where_the_other_scale_is_no_better(typed: str) -> None:
    assert suggestion(typed) is None


def test_a_bare_number_read_as_celsius_by_habit_is_asked_about() -> None:
    assert suggestion("68", Habits(temperature="C")) == "did you mean 68 F (20 C)?"


def test_a_bare_number_read_as_fahrenheit_by_habit_is_asked_about() -> None:
    assert suggestion("20", Habits(temperature="F")) == "did you mean 20 C (68 F)?"


def test_a_reading_with_unreadable_text_is_left_alone() -> None:
    assert suggest_other_scale(Reading("probe", 68.0, 68.0, 68.0, "C"), 0.0, 45.0) is None
