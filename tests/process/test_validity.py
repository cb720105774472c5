"""A model gives a number within its limits, and says its limits beyond them."""

import inspect
import pkgutil
from collections.abc import Callable
from importlib import import_module
from typing import Any

import numpy as np
import pytest

import diagnose.process as room
from diagnose.process import OutsideValidity
from diagnose.process.cooling import Cooling
from diagnose.process.trace import off_by
from diagnose.process.validity import require_within
from tests.process.cards import constants
from tests.process.limits import FERMENTATION, HOT_SIDE, Limited
from tests.process.limits_of_kit import INGREDIENTS, PACKAGE, WATER

LIMITED = (*FERMENTATION, *HOT_SIDE, *WATER, *INGREDIENTS, *PACKAGE)
BEYOND = [
    pytest.param(one, argument, value, id=f"{one.model}-{argument}-{index}")
    for one in LIMITED
    for argument, values in one.beyond.items()
    for index, value in enumerate(values)
]
# These hand limits on and have none of their own.
NOT_MODELS = {"band.spread", "validity.require_within", "trace.off_by"}


def public_models() -> dict[str, Callable[..., Any]]:
    modules = {
        one.name: import_module(f"{room.__name__}.{one.name}")
        for one in pkgutil.iter_modules(room.__path__)
    }
    return {
        f"{name}.{key}": value
        for name, module in modules.items()
        for key, value in vars(module).items()
        if inspect.isfunction(value)
        and value.__module__ == module.__name__
        and not key.startswith("_")
    }


MODELS = public_models()
SAID_TO_REFUSE = {
    name for name, model in MODELS.items() if "OutsideValidity" in (model.__doc__ or "")
} - NOT_MODELS


def answer(one: Limited, **changed: Any) -> Any:
    model = MODELS[one.model]
    given = {**one.within, **changed}
    if "constants" in inspect.signature(model).parameters:
        return model(**given, constants=constants())
    return model(**given)


def test_every_model_whose_docstring_has_limits_is_in_the_table() -> None:
    assert {one.model for one in LIMITED} == SAID_TO_REFUSE


@pytest.mark.parametrize("one", LIMITED, ids=lambda one: one.model)
def test_a_model_answers_within_its_limits(one: Limited) -> None:
    assert answer(one) is not None


# Source of the table: the limits in the models' own docstrings.
@pytest.mark.parametrize(("one", "argument", "value"), BEYOND)
def test_a_model_says_its_limits_beyond_them(one: Limited, argument: str, value: Any) -> None:
    with pytest.raises(OutsideValidity, match=r"outside what the source covers: .+ to "):
        answer(one, **{argument: value})


TRACED = [
    one
    for one in BEYOND
    if one.values[1] in ("beer_c", "store_c") and isinstance(one.values[2], list)
]


# Source of the table: the limits in the models' own docstrings.
@pytest.mark.parametrize(("one", "argument", "value"), TRACED)
def test_one_reading_of_a_trace_beyond_its_limit_is_enough(
    one: Limited, argument: str, value: list[float]
) -> None:
    inside = one.within[argument][0]
    for trace in ([inside, value[0]], [value[0], inside]):
        with pytest.raises(OutsideValidity):
            answer(one, **{argument: trace})


@pytest.mark.parametrize("name", sorted(SAID_TO_REFUSE))
def test_a_model_is_asked_beyond_a_limit_of_its_own(name: str) -> None:
    assert any(one.model == name and one.beyond for one in LIMITED)


def test_a_wort_that_ends_colder_than_its_coolant_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="wort cooled to C 10"):
        Cooling(from_c=95.0, to_c=10.0, coolant_c=12.0, minutes=20.0)


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_what_is_no_number_is_refused(value: float) -> None:
    with pytest.raises(OutsideValidity):
        require_within(value, (0.0, 1.0), "a share of")


@pytest.mark.parametrize("shift_c", [-9.0, 9.0])
def test_a_doubt_that_reaches_beyond_a_limit_stays_at_it(shift_c: float) -> None:
    off = off_by(np.array([-4.0, 44.0]), shift_c, (-5.0, 45.0), "a store at C")
    assert off.min() >= -5.0
    assert off.max() <= 45.0


def test_a_limit_is_told_without_powers_of_ten() -> None:
    with pytest.raises(OutsideValidity, match=r"\(0\.000001 to 1,000,000\)"):
        require_within(0.0, (1e-6, 1e6), "a mash with malt of kg")
