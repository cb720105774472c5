"""What brewers write and what it is read as: tables, one row per way of writing."""

import pytest

from diagnose.units import Field, read_quantity

CLOSE = 1e-9
Row = tuple[str, float]


def value(typed: str, field: Field) -> float:
    return read_quantity(typed, field).value


# Source for every table of this file: arithmetic on definitions.
TEMPERATURES: list[Row] = [
    ("66 F", (66 - 32) / 1.8),
    ("66°F", (66 - 32) / 1.8),
    ("66 °f", (66 - 32) / 1.8),
    ("66 deg F", (66 - 32) / 1.8),
    ("66 degrees Fahrenheit", (66 - 32) / 1.8),
    ("sixty-six F", (66 - 32) / 1.8),
    ("18.5C", 18.5),
    ("18,5 °C", 18.5),
    ("18 ℃", 18),
    ("18 ºC", 18),
    ("18½ C", 18.5),
    ("18 deg. C", 18),
    ("18 celsius", 18),
    ("18 centigrade", 18),
    ("18 C.", 18),
    ("+18 C", 18),
    ("-2 C", -2),
    ("−2 °C", -2),
    ("0 C", 0),
    ("293.15 K", 20),
    ("302 F", 150),
    ("18,500 C", 18.5),
]
VOLUMES: list[Row] = [
    ("3.5 US gal", 3.5 * 3.785411784),
    ("3.5 gal US", 3.5 * 3.785411784),
    ("3.5 gal (US)", 3.5 * 3.785411784),
    ("3.5 U.S. gallons", 3.5 * 3.785411784),
    ("3.5usgal", 3.5 * 3.785411784),
    ("3 US gal 2 qt", 3.5 * 3.785411784),
    ("5,0 US gal", 5 * 3.785411784),
    ("2 imp gal", 2 * 4.54609),
    ("2 imperial gallons", 2 * 4.54609),
    ("2 UK gal.", 2 * 4.54609),
    ("8 US fl oz", 8 * 3.785411784 / 128),
    ("1 imp pint", 4.54609 / 8),
    ("19 L", 19),
    ("19L", 19),
    ("19 litres", 19),
    ("19 liters", 19),
    ("19 ltr", 19),
    ("500 ml", 0.5),
    ("500mL", 0.5),
    ("33 cl", 0.33),
    ("1.5 hl", 150),
    ("half a litre", 0.5),
    ("2 L 500 mL", 2.5),
    ("1 1/2 L", 1.5),
    ("1 000 mL", 1),
]
MASSES: list[Row] = [
    ("2 lb 8 oz", 2.5 * 453.59237),
    ("2lb8oz", 2.5 * 453.59237),
    ("2 lbs. 8 oz.", 2.5 * 453.59237),
    ("2 lb, 8 oz", 2.5 * 453.59237),
    ("2 pounds and 8 ounces", 2.5 * 453.59237),
    ("2.5 lb", 2.5 * 453.59237),
    ("2-1/2 lb", 2.5 * 453.59237),
    ("2½ lb", 2.5 * 453.59237),
    ("2.5#", 2.5 * 453.59237),
    ("8 oz", 8 * 453.59237 / 16),
    ("1/2 oz", 453.59237 / 32),
    ("0,4 g", 0.4),
    ("1,5 g", 1.5),
    (",5 g", 0.5),
    (".5 g", 0.5),
    ("0,250 kg", 250),
    ("1.234,5 g", 1234.5),
    ("1,234.5 g", 1234.5),
    ("1,234,567 g", 1234567),
    ("4 kg 500 g", 4500),
    ("4.5 kilos", 4500),
    ("500 mg", 0.5),
    ("0 g", 0),
    ("0", 0),
]
GRAVITIES: list[Row] = [
    ("1.052", 1.052),
    ("1052", 1.052),
    ("1,052", 1.052),
    ("1 052", 1.052),
    ("1.05", 1.05),
    ("0.998", 0.998),
    ("998", 0.998),
    ("1.000", 1.0),
    ("1.052 SG", 1.052),
    ("OG 1.052", 1.052),
    ("OG: 1052", 1.052),
    ("1.010 FG", 1.010),
    ("52 points", 1.052),
    ("OG 52 points", 1.052),
    ("52 pts", 1.052),
    ("52", 1.052),
]
DURATIONS: list[Row] = [
    ("60 min", 1),
    ("60 minutes", 1),
    ("60-minute", 1),
    ("90'", 1.5),
    ("90 mins.", 1.5),
    ("1 h 30", 1.5),
    ("1h30", 1.5),
    ("1h30m", 1.5),
    ("1 hr 30 min", 1.5),
    ("1 h 90 min", 2.5),
    ("an hour", 1),
    ("half an hour", 0.5),
    ("an hour and a half", 1.5),
    ("one and a half hours", 1.5),
    ("three quarters of an hour", 0.75),
    ("a quarter of an hour", 0.25),
    ("30 s", 30 / 3600),
    ("half a day", 12),
    ("10 days", 240),
    ("7 d", 168),
    ("a week", 168),
    ("3 weeks", 504),
    ("2 wks", 336),
    ("2 weeks and 3 days", 408),
    ("two and a half weeks", 420),
    ("a fortnight", 336),
    ("a month", 730.5),
    ("14 months", 14 * 730.5),
    ("fourteen months", 14 * 730.5),
    ("6 mths", 6 * 730.5),
    ("2 years", 2 * 8766),
    ("1 year 2 months", 14 * 730.5),
]
OTHERS: list[tuple[Field, str, float]] = [
    (Field.PRESSURE, "12 psi", 12 * 0.06894757293168),
    (Field.PRESSURE, "12 psig", 12 * 0.06894757293168),
    (Field.PRESSURE, "0,8 bar", 0.8),
    (Field.PRESSURE, "80 kPa", 0.8),
    (Field.PRESSURE, "-0.1 bar", -0.1),
    (Field.CONCENTRATION, "50 mg/L", 50),
    (Field.CONCENTRATION, "50 mg / l", 50),
    (Field.CONCENTRATION, "50 mg per litre", 50),
    (Field.CONCENTRATION, "50 ppm", 50),
    (Field.CONCENTRATION, "30 ppb", 0.03),
    (Field.CONCENTRATION, "30 µg/L", 0.03),
    (Field.CONCENTRATION, "30 ug/l", 0.03),
    (Field.CONCENTRATION, "3 g/L", 3000),
    (Field.PH, "5.4", 5.4),
    (Field.PH, "5,4", 5.4),
    (Field.PH, "pH 5.4", 5.4),
    (Field.PH, "5.4 pH", 5.4),
    (Field.PERCENT, "75 %", 75),
    (Field.PERCENT, "75%", 75),
    (Field.PERCENT, "75", 75),
    (Field.PERCENT, "75 percent", 75),
    (Field.PERCENT, "75 per cent", 75),
    (Field.PERCENT, "5,2 % ABV", 5.2),
    (Field.PERCENT, "0.75 %", 0.75),
    (Field.PERCENT, "0", 0),
    (Field.CELLS, "200 billion", 200),
    (Field.CELLS, "200 billion cells", 200),
    (Field.CELLS, "200 bn", 200),
    (Field.CELLS, "500 million", 0.5),
    (Field.CELLS, "2e11", 200),
    (Field.CELLS, "2E11 cells", 200),
    (Field.CELLS, "2 x 10^11", 200),
    (Field.CELLS, "2×10¹¹ cells", 200),
    (Field.CELLS, "10^11", 100),
    (Field.CARBONATION, "2.4 volumes", 2.4),
    (Field.CARBONATION, "2.4 vols of CO2", 2.4),
    (Field.POWER, "2400 W", 2400),
    (Field.POWER, "2.4 kW", 2400),
    (Field.BITTERNESS, "35 IBU", 35),
    (Field.BITTERNESS, "35", 35),
]


@pytest.mark.parametrize(("typed", "temperature_c"), TEMPERATURES)
def test_a_temperature_is_read(typed: str, temperature_c: float) -> None:
    assert value(typed, Field.TEMPERATURE) == pytest.approx(temperature_c, abs=CLOSE)


@pytest.mark.parametrize(("typed", "volume_l"), VOLUMES)
def test_a_volume_is_read(typed: str, volume_l: float) -> None:
    assert value(typed, Field.VOLUME) == pytest.approx(volume_l, rel=CLOSE)


@pytest.mark.parametrize(("typed", "mass_g"), MASSES)
def test_a_mass_is_read(typed: str, mass_g: float) -> None:
    assert value(typed, Field.MASS) == pytest.approx(mass_g, rel=CLOSE)


@pytest.mark.parametrize(("typed", "gravity_sg"), GRAVITIES)
def test_a_gravity_is_read(typed: str, gravity_sg: float) -> None:
    assert value(typed, Field.GRAVITY) == pytest.approx(gravity_sg, abs=CLOSE)


@pytest.mark.parametrize("typed", ["12.9 P", "12.9 °P", "12,9 plato", "12.9 degrees Plato"])
def test_plato_is_read_as_gravity(typed: str) -> None:
    assert value(typed, Field.GRAVITY) == pytest.approx(1.0522, abs=0.0001)


@pytest.mark.parametrize(("typed", "hours"), DURATIONS)
def test_a_duration_is_read(typed: str, hours: float) -> None:
    assert value(typed, Field.DURATION) == pytest.approx(hours, rel=CLOSE)


@pytest.mark.parametrize(("field", "typed", "expected"), OTHERS)
def test_a_quantity_of_another_field_is_read(field: Field, typed: str, expected: float) -> None:
    assert value(typed, field) == pytest.approx(expected, rel=CLOSE)
