"""Quantities as brewers write them."""

import pytest

from diagnose.units import Field, Reading, read_quantity, show

# Source: arithmetic on definitions; the way of writing is common practice, no source.
SHOWN = [
    (Field.TEMPERATURE, "66 F", "18.9 C (66 F)"),
    (Field.TEMPERATURE, "-0.01 C", "0.0 C (32 F)"),
    (Field.TEMPERATURE, "18-20 C", "18.0 to 20.0 C (64 to 68 F)"),
    (Field.VOLUME, "19 L", "19.0 L (5.0 US gal)"),
    (Field.VOLUME, "5 US gal", "18.9 L (5.0 US gal)"),
    (Field.VOLUME, "2 L", "2.0 L (2.1 US qt)"),
    (Field.VOLUME, "500 mL", "500 mL (16.9 US fl oz)"),
    (Field.MASS, "2 lb 8 oz", "1.1 kg (2 lb 8 oz)"),
    (Field.MASS, "4.5 kg", "4.5 kg (9 lb 15 oz)"),
    (Field.MASS, "500 g", "500 g (1 lb 2 oz)"),
    (Field.MASS, "2 lb", "907 g (2 lb)"),
    (Field.MASS, "1 oz", "28.3 g (1.0 oz)"),
    (Field.MASS, "0,4 g", "0.4 g (0.014 oz)"),
    (Field.MASS, "1 kg ± 5 %", "0.95 to 1.05 kg (2 lb 2 oz to 2 lb 5 oz)"),
    (Field.MASS, "0 g", "0 g (0 oz)"),
    (Field.GRAVITY, "1.052", "1.052 (12.9 P)"),
    (Field.GRAVITY, "12.9 P", "1.052 (12.9 P)"),
    (Field.GRAVITY, "1.000", "1.000 (0.0 P)"),
    (Field.GRAVITY, "0.996", "0.996 (-1.0 P)"),
    (Field.DURATION, "30 s", "30 s"),
    (Field.DURATION, "0 min", "0 min"),
    (Field.DURATION, "60 min", "60 min"),
    (Field.DURATION, "1 h 30", "90 min"),
    (Field.DURATION, "2 h", "2 h"),
    (Field.DURATION, "half a day", "12 h"),
    (Field.DURATION, "3 days", "3 days"),
    (Field.DURATION, "2 weeks", "14 days"),
    (Field.DURATION, "3 weeks", "3 weeks"),
    (Field.DURATION, "10-14 days", "10 to 14 days"),
    (Field.DURATION, "14 months", "14 months"),
    (Field.DURATION, "3 years", "3 years"),
    (Field.PRESSURE, "12 psi", "0.83 bar (12 psi)"),
    (Field.PRESSURE, "0.1 bar", "0.10 bar (1.5 psi)"),
    (Field.CONCENTRATION, "50 ppm", "50 mg/L"),
    (Field.CONCENTRATION, "30 ppb", "0.03 mg/L (30 µg/L)"),
    (Field.PH, "5.4", "pH 5.40"),
    (Field.PERCENT, "75", "75 %"),
    (Field.CELLS, "2e11", "200 billion cells"),
    (Field.CARBONATION, "2.4 volumes", "2.4 volumes (4.7 g/L)"),
    (Field.POWER, "500 W", "500 W"),
    (Field.POWER, "2400 W", "2.4 kW"),
    (Field.BITTERNESS, "35", "35 IBU"),
]


@pytest.mark.parametrize(("field", "typed", "expected"), SHOWN)
def test_a_reading_is_shown_as_brewers_write_it(field: Field, typed: str, expected: str) -> None:
    assert show(read_quantity(typed, field), field) == expected


def test_a_number_is_shown_like_a_reading() -> None:
    assert show(18.89, Field.TEMPERATURE) == "18.9 C (66 F)"


def test_one_system_alone_is_shown_on_request() -> None:
    assert show(18.89, Field.TEMPERATURE, both=False) == "18.9 C"


def test_ends_that_look_the_same_are_shown_once() -> None:
    assert show(Reading("", 20.0, 19.99, 20.01, "C"), Field.TEMPERATURE) == "20.0 C (68 F)"


def test_a_reading_of_another_field_is_refused() -> None:
    with pytest.raises(ValueError, match="shown as L"):
        show(read_quantity("20 C", Field.TEMPERATURE), Field.VOLUME)


@pytest.mark.parametrize("number", [float("nan"), float("inf")])
def test_a_number_that_is_not_finite_is_refused(number: float) -> None:
    with pytest.raises(ValueError, match="cannot be shown"):
        show(number, Field.VOLUME)
