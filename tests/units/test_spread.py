"""What a text widens a reading by, and what a second figure beside the first one settles."""

import pytest

from diagnose.units import Field, Reading, read_quantity

CLOSE = 1e-9


def ends(typed: str, field: Field) -> tuple[float, float, float]:
    reading = read_quantity(typed, field)
    return reading.value, reading.low, reading.high


# Source: the text itself; how far "about" reaches is judgement (the table in field.py).
SPREADS: list[tuple[Field, str, float, float, float]] = [
    (Field.TEMPERATURE, "18-20 C", 19, 18, 20),
    (Field.TEMPERATURE, "18 – 20 °C", 19, 18, 20),
    (Field.TEMPERATURE, "18 C to 20 C", 19, 18, 20),
    (Field.TEMPERATURE, "18 C - 20", 19, 18, 20),
    (Field.TEMPERATURE, "18..20 C", 19, 18, 20),
    (Field.TEMPERATURE, "between 18 and 20 C", 19, 18, 20),
    (Field.TEMPERATURE, "from 18 to 20 C", 19, 18, 20),
    (Field.TEMPERATURE, "-2--1 C", -1.5, -2, -1),
    (Field.TEMPERATURE, "-1 - 2 C", 0.5, -1, 2),
    (Field.TEMPERATURE, "20 C +/- 1", 20, 19, 21),
    (Field.TEMPERATURE, "20 ± 1 °C", 20, 19, 21),
    (Field.TEMPERATURE, "20 C plus or minus 1", 20, 19, 21),
    (Field.TEMPERATURE, "68 F ± 1.8", 20, 19, 21),
    (Field.TEMPERATURE, "20 C ± 1.8 F", 20, 19, 21),
    (Field.TEMPERATURE, "about 20 C", 20, 19, 21),
    (Field.TEMPERATURE, "ca. 20 C", 20, 19, 21),
    (Field.TEMPERATURE, "c. 20 C", 20, 19, 21),
    (Field.TEMPERATURE, "~20 C", 20, 19, 21),
    (Field.TEMPERATURE, "≈ 20 C", 20, 19, 21),
    (Field.TEMPERATURE, "roughly 20 C", 20, 19, 21),
    (Field.TEMPERATURE, "20 C or so", 20, 19, 21),
    (Field.TEMPERATURE, "20ish C", 20, 19, 21),
    (Field.TEMPERATURE, "~18-20 C", 19, 17, 21),
    (Field.VOLUME, "about 20 L", 20, 19, 21),
    (Field.VOLUME, "19 L ± 1", 19, 18, 20),
    (Field.VOLUME, "20 L ± 5 %", 20, 19, 21),
    (Field.VOLUME, "0.5 L ± 1", 0.5, 0, 1.5),
    (Field.MASS, "about 100 g", 100, 95, 105),
    (Field.MASS, "28-30 g", 29, 28, 30),
    (Field.GRAVITY, "about 1.050", 1.05, 1.048, 1.052),
    (Field.GRAVITY, "OG ~1.050", 1.05, 1.048, 1.052),
    (Field.GRAVITY, "about 1.05", 1.05, 1.045, 1.055),
    (Field.GRAVITY, "1.050-1.052", 1.051, 1.05, 1.052),
    (Field.GRAVITY, "1050-1052", 1.051, 1.05, 1.052),
    (Field.GRAVITY, "1.050 ± 0.001", 1.05, 1.049, 1.051),
    (Field.GRAVITY, "1.050 ± 1 point", 1.05, 1.049, 1.051),
    (Field.DURATION, "10-14 days", 288, 240, 336),
    (Field.DURATION, "one to two weeks", 252, 168, 336),
    (Field.DURATION, "1 h 30 - 2 h", 1.75, 1.5, 2),
    (Field.DURATION, "about 2 weeks", 336, 252, 420),
    (Field.DURATION, "a couple of weeks", 336, 252, 420),
    (Field.PH, "about 5.4", 5.4, 5.3, 5.5),
    (Field.PERCENT, "60-70", 65, 60, 70),
    (Field.PERCENT, "5 ± 1 %", 5, 4, 6),
    (Field.PERCENT, "about 100 %", 100, 95, 100),
    (Field.CELLS, "about 200 billion", 200, 160, 240),
]


@pytest.mark.parametrize(("field", "typed", "middle", "low", "high"), SPREADS)
def test_a_reading_widens_by_what_is_written(
    field: Field, typed: str, middle: float, low: float, high: float
) -> None:
    assert ends(typed, field) == pytest.approx((middle, low, high), rel=CLOSE)


# Source: arithmetic on definitions; a second figure settles what the first one leaves open.
SIDE_BY_SIDE: list[tuple[Field, str, float]] = [
    (Field.TEMPERATURE, "18.9 C (66 F)", 18.9),
    (Field.TEMPERATURE, "68 (20 C)", 20),
    (Field.TEMPERATURE, "20 C = 68 F", 20),
    (Field.TEMPERATURE, "15 °C/59 °F", 15),
    (Field.VOLUME, "5 gal (19 L)", 5 * 3.785411784),
    (Field.VOLUME, "5 gal (23 L)", 5 * 4.54609),
    (Field.VOLUME, "19 L (5 gal)", 19),
    (Field.GRAVITY, "1.052 (12.9 P)", 1.052),
    (Field.GRAVITY, "1.052 = 12.9 P", 1.052),
    (Field.MASS, "2 lb 8 oz (1.1 kg)", 2.5 * 453.59237),
]


@pytest.mark.parametrize(("field", "typed", "expected"), SIDE_BY_SIDE)
def test_a_second_figure_settles_the_first(field: Field, typed: str, expected: float) -> None:
    assert read_quantity(typed, field).value == pytest.approx(expected, rel=CLOSE)


def test_what_was_typed_is_kept_as_typed() -> None:
    assert read_quantity("  66 °F ", Field.TEMPERATURE).typed == "  66 °F "


def test_a_reading_names_the_base_unit_of_its_field() -> None:
    assert read_quantity("66 F", Field.TEMPERATURE).unit == "C"


def test_one_figure_is_exact() -> None:
    assert read_quantity("66 F", Field.TEMPERATURE).exact


def test_a_range_is_not_exact() -> None:
    assert not read_quantity("18-20 C", Field.TEMPERATURE).exact


def test_a_reading_refuses_ends_that_do_not_enclose_it() -> None:
    with pytest.raises(ValueError, match="does not hold"):
        Reading("20 C", value=20.0, low=21.0, high=22.0, unit="C")
