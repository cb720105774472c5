"""Factors against an independent unit library, and extract against published table rows."""

import ast
import math
from pathlib import Path
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.units import (
    bar_from_psi,
    celsius_from_fahrenheit,
    celsius_from_kelvin,
    conversions,
    fahrenheit_difference_from_celsius,
    fahrenheit_from_celsius,
    gravity_from_plato,
    kelvin_from_celsius,
    plato_from_gravity,
    psi_from_bar,
)
from diagnose.units.field import Field
from diagnose.units.read import read_quantity

RELATIVE = 1e-9  # every factor is a definition, so only rounding may differ
PLATO_ROUND_TRIP = 0.01  # degrees; the two formulas are not exact inverses
ORACLE: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)

# Source: definitions, as the unit library holds them.
BY_DEFINITION = [
    (Field.VOLUME, "1 US gal", "gallon", "liter"),
    (Field.VOLUME, "1 imp gal", "imperial_gallon", "liter"),
    (Field.VOLUME, "1 US qt", "quart", "liter"),
    (Field.VOLUME, "1 imp qt", "imperial_quart", "liter"),
    (Field.VOLUME, "1 US pt", "pint", "liter"),
    (Field.VOLUME, "1 imp pt", "imperial_pint", "liter"),
    (Field.VOLUME, "1 US fl oz", "US_fluid_ounce", "liter"),
    (Field.VOLUME, "1 imp fl oz", "imperial_fluid_ounce", "liter"),
    (Field.VOLUME, "1 US bbl", "beer_barrel", "liter"),
    (Field.VOLUME, "1 UK bbl", "imperial_barrel", "liter"),
    (Field.VOLUME, "1 hL", "hectoliter", "liter"),
    (Field.VOLUME, "1 mL", "milliliter", "liter"),
    (Field.VOLUME, "1 cL", "centiliter", "liter"),
    (Field.VOLUME, "1 dL", "deciliter", "liter"),
    (Field.MASS, "1 lb", "pound", "gram"),
    (Field.MASS, "1 oz", "ounce", "gram"),
    (Field.MASS, "1 grain", "grain", "gram"),
    (Field.MASS, "1 kg", "kilogram", "gram"),
    (Field.MASS, "1 mg", "milligram", "gram"),
    (Field.DURATION, "1 s", "second", "hour"),
    (Field.DURATION, "1 min", "minute", "hour"),
    (Field.DURATION, "1 day", "day", "hour"),
    (Field.DURATION, "1 week", "week", "hour"),
    (Field.DURATION, "1 fortnight", "fortnight", "hour"),
    (Field.DURATION, "1 month", "month", "hour"),
    (Field.DURATION, "1 year", "year", "hour"),
    (Field.PRESSURE, "1 psi", "psi", "bar"),
    (Field.PRESSURE, "1 kPa", "kilopascal", "bar"),
    (Field.PRESSURE, "1 mbar", "millibar", "bar"),
    (Field.CONCENTRATION, "1 g/L", "gram/liter", "milligram/liter"),
    (Field.CONCENTRATION, "1 µg/L", "microgram/liter", "milligram/liter"),
    (Field.CONCENTRATION, "1 g/hL", "gram/hectoliter", "milligram/liter"),
    (Field.POWER, "1 kW", "kilowatt", "watt"),
]


@pytest.mark.parametrize(("field", "typed", "unit", "base"), BY_DEFINITION)
def test_one_of_a_unit_is_what_the_definition_says(
    field: Field, typed: str, unit: str, base: str
) -> None:
    expected = ORACLE.Quantity(1, unit).to(base).magnitude
    assert math.isclose(read_quantity(typed, field).value, expected, rel_tol=RELATIVE)


@given(st.floats(-459, 302))
def test_fahrenheit_agrees_with_the_unit_library(temperature_f: float) -> None:
    expected = ORACLE.Quantity(temperature_f, "degF").to("degC").magnitude
    assert math.isclose(celsius_from_fahrenheit(temperature_f), expected, abs_tol=1e-9)


@given(st.floats(-273.15, 150))
def test_fahrenheit_and_back_is_the_same_temperature(temperature_c: float) -> None:
    back = celsius_from_fahrenheit(fahrenheit_from_celsius(temperature_c))
    assert math.isclose(back, temperature_c, abs_tol=1e-9)


@given(st.floats(-273.15, 150))
def test_kelvin_and_back_is_the_same_temperature(temperature_c: float) -> None:
    back = celsius_from_kelvin(kelvin_from_celsius(temperature_c))
    assert math.isclose(back, temperature_c, abs_tol=1e-9)


@given(st.floats(-30, 150), st.floats(-30, 150))
def test_a_difference_is_the_difference_of_the_readings(one: float, two: float) -> None:
    in_f = fahrenheit_from_celsius(one) - fahrenheit_from_celsius(two)
    assert math.isclose(fahrenheit_difference_from_celsius(one - two), in_f, abs_tol=1e-9)


@given(st.floats(0, 300))
def test_psi_and_back_is_the_same_pressure(pressure_bar: float) -> None:
    assert math.isclose(bar_from_psi(psi_from_bar(pressure_bar)), pressure_bar, abs_tol=1e-9)


@given(st.floats(0.990, 1.120))
def test_plato_and_back_is_the_same_gravity(gravity_sg: float) -> None:
    extract_p = plato_from_gravity(gravity_sg)
    back = plato_from_gravity(gravity_from_plato(extract_p))
    assert math.isclose(back, extract_p, abs_tol=PLATO_ROUND_TRIP)


@given(st.floats(0.98, 1.2), st.floats(0.98, 1.2))
def test_more_gravity_is_more_extract(one: float, two: float) -> None:
    low, high = sorted((one, two))
    assert plato_from_gravity(low) <= plato_from_gravity(high)


# Source: status seen = rows of the USDA sucrose table 135-A-50; status recalled = circular C440
# of the US National Bureau of Standards, 1942 (from memory). Columns: SG 20/20, P, give or take.
EXTRACT_ROWS = [
    pytest.param(1.01569, 4.00, 0.02, id="G01-seen"),
    pytest.param(1.03098, 7.80, 0.02, id="G02-seen"),
    pytest.param(1.01490, 3.80, 0.02, id="G03-seen"),
    pytest.param(1.03017, 7.60, 0.02, id="G04-seen"),
    pytest.param(1.04003, 10.00, 0.02, id="G05-recalled"),
    pytest.param(1.04837, 12.00, 0.02, id="G06-recalled"),
    pytest.param(1.06109, 15.00, 0.02, id="G07-recalled"),
    pytest.param(1.08297, 20.00, 0.03, id="G08-recalled"),
]


@pytest.mark.parametrize(("gravity_sg", "extract_p", "room"), EXTRACT_ROWS)
def test_extract_meets_the_sucrose_tables(gravity_sg: float, extract_p: float, room: float) -> None:
    assert math.isclose(plato_from_gravity(gravity_sg), extract_p, abs_tol=room)


@pytest.mark.parametrize(("gravity_sg", "extract_p", "room"), EXTRACT_ROWS)
def test_gravity_meets_the_sucrose_tables(gravity_sg: float, extract_p: float, room: float) -> None:
    assert math.isclose(gravity_from_plato(extract_p), gravity_sg, abs_tol=room * 0.004)


def test_gravity_meets_the_table_row_kept_for_the_inverse() -> None:
    # G09, status seen: USDA sucrose table 135-A-50.
    assert math.isclose(gravity_from_plato(7.9), 1.03139, abs_tol=0.0001)


def test_a_volume_of_gas_is_the_recalled_mass() -> None:
    # 1.963 g/L per volume, 1.96-1.98: published-recalled, not a definition.
    assert math.isclose(read_quantity("1.963 g/L", Field.CARBONATION).value, 1.0, rel_tol=RELATIVE)


def factors_in(file: Path) -> set[str]:
    """The names of our conversion factors that a file gives a value of its own."""
    body = ast.parse(file.read_text("utf-8")).body
    targets = [t for node in body if isinstance(node, ast.Assign) for t in node.targets]
    targets += [node.target for node in body if isinstance(node, ast.AnnAssign)]
    names = {target.id.lstrip("_") for target in targets if isinstance(target, ast.Name)}
    return names & {name for name in vars(conversions) if name.isupper()}


# Source: a rule of this house; a factor has one home.
def test_no_conversion_factor_stands_in_a_second_place() -> None:
    home = Path(conversions.__file__)
    others = [file for file in home.parents[1].rglob("*.py") if file != home]
    assert {str(file): found for file in others if (found := factors_in(file))} == {}
