"""A number on a card holds together or is refused."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from diagnose.documents.number import Number

sizes = st.floats(-1e9, 1e9)
# Source of the table: common practice, no source.
WHOLE: dict[str, Any] = {"value": 2, "low": 1, "high": 3, "basis": "judgement", "source": "s"}
REFUSED: list[dict[str, Any]] = [
    {"low": 2.5},
    {"high": 1.5},
    {"basis": "guess"},
    {"source": ""},
    {"value": float("nan")},
    {"high": float("inf")},
    {"wrong": 1},
]


@settings(deadline=None, derandomize=True)
@given(st.tuples(sizes, sizes, sizes).map(sorted))
def test_any_value_within_its_range_is_kept(triple: list[float]) -> None:
    low, value, high = triple
    number = Number(value=value, low=low, high=high, basis="practice", source="trade_practice")
    assert (number.low, number.value, number.high) == (low, value, high)


@pytest.mark.parametrize("change", REFUSED, ids=str)
def test_a_number_that_does_not_hold_together_is_refused(change: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Number.model_validate({**WHOLE, **change})


def test_a_number_cannot_be_changed() -> None:
    with pytest.raises(ValidationError):
        Number.model_validate(WHOLE).value = 3.0  # type: ignore[misc]
