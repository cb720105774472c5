"""Laws that hold for any number and any text."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from diagnose.errors import UnreadableQuantity
from diagnose.units import Field, Reading, celsius_from_fahrenheit, read_quantity, show
from diagnose.units.field import CARDS

# Half of the last digit `show` writes, as (absolute [base unit], share of the value).
SHOWN_TO: dict[Field, tuple[float, float]] = {
    Field.TEMPERATURE: (0.05, 0),
    Field.VOLUME: (0.0, 0.05),
    Field.MASS: (0.0, 0.05),
    Field.GRAVITY: (0.0005, 0),
    Field.DURATION: (0.5 / 36000, 0.03),
    Field.PRESSURE: (0.005, 0),
    Field.CONCENTRATION: (0.0, 0.005),
    Field.PH: (0.005, 0),
    Field.PERCENT: (0.0, 0.005),
    Field.CELLS: (0.0, 0.005),
    Field.CARBONATION: (0.0, 0.005),
    Field.POWER: (0.0, 0.005),
    Field.BITTERNESS: (0.5, 0),
}
SLACK = 1 + 1e-6  # a shown figure may sit exactly on the edge

fields = st.sampled_from(list(Field))
tidy_numbers = st.decimals("0.01", "99.99", places=2, allow_nan=False).map(str)
brewing_text = st.text(
    st.sampled_from("0123456789.,-+/±~%°'#() CFLgkmolbzhdysPUSimpaun½×^²e"), max_size=20
)


@st.composite
def quantities(draw: st.DrawFn) -> tuple[Field, float]:
    """A field and a value within its limits, none of them too small to be written."""
    field = draw(fields)
    card = CARDS[field]
    smallest = 0.001 if card.low == 0 else card.low
    return field, draw(st.floats(smallest, min(card.high, 1e5)))


@given(quantities())
def test_what_is_shown_is_read_back(quantity: tuple[Field, float]) -> None:
    field, value = quantity
    absolute, share = SHOWN_TO[field]
    back = read_quantity(show(value, field), field).value
    assert math.isclose(back, value, rel_tol=share * SLACK, abs_tol=absolute * SLACK)


@given(quantities(), st.floats(0, 0.2))
def test_a_range_that_is_shown_is_read_back(quantity: tuple[Field, float], width: float) -> None:
    field, value = quantity
    card = CARDS[field]
    low, high = value, min(value + abs(value) * width, card.high)
    absolute, share = SHOWN_TO[field]
    reading = Reading("", (low + high) / 2, low, high, field.unit)
    back = read_quantity(show(reading, field), field)
    room = max(absolute, share * abs(high), 0.05 * abs(high) if share else 0) * SLACK
    assert abs(back.low - low) <= room and abs(back.high - high) <= room


@given(fields, st.one_of(st.text(max_size=30), brewing_text))
def test_any_text_is_read_within_limits_or_refused(field: Field, typed: str) -> None:
    try:
        reading = read_quantity(typed, field)
    except UnreadableQuantity:
        return
    card = CARDS[field]
    room = 1e-6 * max(1.0, abs(card.high))
    assert card.low - room <= reading.low <= reading.value <= reading.high <= card.high + room


@given(fields, st.one_of(st.text(max_size=30), brewing_text))
def test_what_was_typed_is_kept(field: Field, typed: str) -> None:
    try:
        reading = read_quantity(typed, field)
    except UnreadableQuantity:
        return
    assert reading.typed == typed


@given(tidy_numbers, st.sampled_from([(Field.VOLUME, "L"), (Field.MASS, "g"), (Field.PH, "")]))
def test_a_decimal_comma_is_a_decimal_point(number: str, kind: tuple[Field, str]) -> None:
    field, unit = kind
    assume(float(number) <= CARDS[field].high)
    with_point = read_quantity(f"{number} {unit}", field)
    with_comma = read_quantity(f"{number.replace('.', ',')} {unit}", field)
    assert with_comma.value == with_point.value


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(["g", "kg", "oz", "lb"]))
def test_a_comma_before_three_digits_of_mass_is_refused(whole: int, rest: int, unit: str) -> None:
    with pytest.raises(UnreadableQuantity, match="could be"):
        read_quantity(f"{whole},{rest:03} {unit}", Field.MASS)


@given(st.integers(-22, 300))
def test_fahrenheit_is_read_as_its_celsius(number: int) -> None:
    reading = read_quantity(f"{number} F", Field.TEMPERATURE)
    assert reading.value == celsius_from_fahrenheit(number)


@given(st.integers(-22, 150))
def test_a_bare_temperature_is_refused_with_both_scales(number: int) -> None:
    with pytest.raises(UnreadableQuantity, match=rf"{number} C or {number} F"):
        read_quantity(str(number), Field.TEMPERATURE)


@given(st.integers(1, 1000), st.sampled_from(["gal", "gallons", "qt", "pt", "fl oz", "oz"]))
def test_a_measure_of_no_country_is_refused_with_both(number: int, unit: str) -> None:
    with pytest.raises(UnreadableQuantity, match=rf"{number} US .* or {number} imp "):
        read_quantity(f"{number} {unit}", Field.VOLUME)


@given(st.integers(1, 200), st.integers(0, 15))
def test_pounds_and_ounces_add_up(pounds: int, ounces: int) -> None:
    together = read_quantity(f"{pounds} lb {ounces} oz", Field.MASS).value
    in_ounces = read_quantity(f"{16 * pounds + ounces} oz", Field.MASS).value
    assert math.isclose(together, in_ounces, rel_tol=1e-12)


@given(st.integers(0, 100), st.integers(0, 50))
def test_a_range_has_the_ends_that_are_written(low: int, width: int) -> None:
    reading = read_quantity(f"{low}-{low + width} C", Field.TEMPERATURE)
    assert (reading.low, reading.high) == (low, low + width)


@given(st.integers(1, 100))
def test_about_reaches_to_both_sides(number: int) -> None:
    reading = read_quantity(f"about {number} L", Field.VOLUME)
    assert reading.low < number < reading.high


@given(st.integers(980, 1200))
def test_the_three_ways_of_writing_a_gravity_agree(thousandths: int) -> None:
    texts = (f"{thousandths}", f"{thousandths / 1000:.3f}", f"{thousandths / 1000:.3f} SG")
    values = {round(read_quantity(text, Field.GRAVITY).value, 9) for text in texts}
    assert values == {thousandths / 1000}
