"""What is not guessed at: every refusal is one sentence, and names every reading there is."""

import pytest

from diagnose.errors import UnreadableQuantity
from diagnose.units import Field, Habits, read_quantity


def refusal(typed: str, field: Field) -> str:
    with pytest.raises(UnreadableQuantity) as caught:
        read_quantity(typed, field)
    return str(caught.value)


# Source for every table of this file: arithmetic on definitions, and the wording of this house.
TWO_READINGS: list[tuple[Field, str, list[str]]] = [
    (Field.TEMPERATURE, "68", ["68 could be 68 C or 68 F (20 C)"]),
    (Field.TEMPERATURE, "68°", ["68 C or 68 F (20 C)"]),
    (Field.TEMPERATURE, "68 degrees", ["68 C or 68 F (20 C)"]),
    (Field.TEMPERATURE, "about 68", ["68 C or 68 F (19 to 21 C)"]),
    (Field.TEMPERATURE, "66-70", ["66-70 C or 66-70 F (18.9 to 21.1 C)"]),
    (Field.TEMPERATURE, "200", ["could only be 200 F (93.3 C)"]),
    (Field.VOLUME, "5 gal", ["5 US gal (18.9 L)", "5 imp gal (22.7 L)"]),
    (Field.VOLUME, "5 gallons", ["5 US gal (18.9 L)", "5 imp gal (22.7 L)"]),
    (Field.VOLUME, "5 gal (20 L)", ["5 US gal (18.9 L)", "5 imp gal (22.7 L)"]),
    (Field.VOLUME, "5-6 gal", ["5-6 US gal (18.9 to 22.7 L)", "5-6 imp gal (22.7 to 27.3 L)"]),
    (Field.VOLUME, "8 oz", ["8 US fl oz (237 mL)", "8 imp fl oz (227 mL)"]),
    (Field.VOLUME, "8 fl. oz.", ["8 US fl oz (237 mL)", "8 imp fl oz (227 mL)"]),
    (Field.VOLUME, "1 pint", ["1 US pt (473 mL)", "1 imp pt (568 mL)"]),
    (Field.VOLUME, "2 pt", ["2 US pt (946 mL)", "2 imp pt (1.1 L)"]),
    (Field.VOLUME, "2 qt", ["2 US qt (1.9 L)", "2 imp qt (2.3 L)"]),
    (Field.VOLUME, "2 quarts", ["2 US qt (1.9 L)", "2 imp qt (2.3 L)"]),
    (Field.VOLUME, "19", ["19 L", "19 US gal (71.9 L)", "19 imp gal (86.4 L)"]),
    (Field.VOLUME, "12,500 L", ["12.5 L", "12500 L"]),
    (Field.MASS, "1,052 g", ["1.052 g", "1052 g"]),
    (Field.MASS, "2,500 kg", ["2.5 kg", "2500 kg"]),
    (Field.MASS, "12", ["12 g", "12 kg", "12 oz (340 g)", "12 lb (5.4 kg)"]),
    (Field.MASS, "5 gr", ["5 g", "5 grains (0.324 g)"]),
    (Field.GRAVITY, "12", ["12 points (1.012)", "12 P (1.048)"]),
    (Field.GRAVITY, "1.1", ["1.1 SG", "1.1 points (1.001)", "1.1 P (1.004)"]),
    (Field.DURATION, "60", ["60 min", "60 h", "60 days"]),
    (Field.DURATION, "14 m", ["14 min", "14 months"]),
    (Field.DURATION, "1,500 h", ["1.5 h", "1500 h"]),
    (Field.DURATION, "1:30", ["1 h 30 min", "1 min 30 s"]),
    (Field.PRESSURE, "12", ["12 bar", "12 psi (0.83 bar)", "12 kPa (0.12 bar)"]),
    (Field.CONCENTRATION, "50", ["50 mg/L", "50 µg/L (0.05 mg/L)"]),
    (Field.PERCENT, "0.75", ["0.75 %", "75 %"]),
    (Field.CELLS, "200", ["200 billion cells", "200 million cells"]),
    (Field.CARBONATION, "5", ["5 volumes", "5 g/L (2.55 volumes)"]),
    (Field.POWER, "2", ["2 W", "2 kW"]),
]


@pytest.mark.parametrize(("field", "typed", "readings"), TWO_READINGS)
def test_what_has_two_readings_is_refused_with_both(
    field: Field, typed: str, readings: list[str]
) -> None:
    message = refusal(typed, field)
    assert [reading for reading in readings if reading not in message] == []


SPOONS = [
    ("1 tsp", "1 tsp of gypsum is 4.0-4.6 g"),
    ("1 tsp gypsum", "1 tsp of gypsum is 4.0-4.6 g"),
    ("a teaspoon", "1 tsp of gypsum is 4.0-4.6 g"),
    ("1 1/2 tsp", "1.5 tsp of gypsum is 6.0-6.9 g"),
    ("2 teaspoons", "2 tsp of gypsum is 8.0-9.2 g"),
    ("2 tbsp", "how much a spoon or a cup holds varies"),
    ("1 cup", "how much a spoon or a cup holds varies"),
    ("a pinch", "how much a spoon or a cup holds varies"),
]


@pytest.mark.parametrize(("typed", "spread"), SPOONS)
def test_a_spoon_of_powder_is_refused_with_its_spread(typed: str, spread: str) -> None:
    assert spread in refusal(typed, Field.MASS)


@pytest.mark.parametrize(("typed", "_spread"), SPOONS)
def test_a_spoon_of_powder_is_asked_for_in_grams(typed: str, _spread: str) -> None:
    assert "wanted grams on a scale" in refusal(typed, Field.MASS)


@pytest.mark.parametrize("typed", ["1 cup", "2 tsp", "1 tbsp", "3 tablespoons"])
def test_a_spoon_of_liquid_is_asked_for_in_millilitres(typed: str) -> None:
    assert "wanted mL" in refusal(typed, Field.VOLUME)


BEYOND_LIMITS = [
    (Field.TEMPERATURE, "500 C", "a temperature between -30 and 150 C"),
    (Field.TEMPERATURE, "500 F", "which is 260 C; wanted a temperature between -30 and 150 C"),
    (Field.TEMPERATURE, "-40 C", "a temperature between -30 and 150 C"),
    (Field.TEMPERATURE, "18-500 C", "a temperature between -30 and 150 C"),
    (Field.GRAVITY, "1.300", "1.3"),
    (Field.GRAVITY, "0.900 SG", "0.9"),
    (Field.GRAVITY, "60 P", "a gravity between 0.98 and 1.2 SG"),
    (Field.GRAVITY, "0", "a gravity between 0.98 and 1.2 SG"),
    (Field.PH, "15", "a pH between 0 and 14"),
    (Field.PH, "-1", "a pH that is not below zero"),
    (Field.PERCENT, "105 %", "a percentage between 0 and 100 %"),
    (Field.MASS, "-3 g", "a mass that is not below zero"),
    (Field.VOLUME, "-3 L", "a volume that is not below zero"),
    (Field.DURATION, "-1 h", "a duration that is not below zero"),
    (Field.PRESSURE, "-3 bar", "a gauge pressure between -1.013 and 300 bar"),
    (Field.CARBONATION, "40 volumes", "a carbonation between 0 and 15 volumes"),
    (Field.CELLS, "2e11 billion", "a cell count between 0 and 100000 billion cells"),
]


@pytest.mark.parametrize(("field", "typed", "said"), BEYOND_LIMITS)
def test_what_nature_does_not_allow_is_refused_with_the_limit(
    field: Field, typed: str, said: str
) -> None:
    assert said in refusal(typed, field)


NO_QUANTITY = [
    (Field.TEMPERATURE, "", "no quantity was recognised"),
    (Field.TEMPERATURE, "lauwarm", "no quantity was recognised"),
    (Field.TEMPERATURE, "room temperature", "no quantity was recognised"),
    (Field.TEMPERATURE, "ungefähr 20 C", "no quantity was recognised"),
    (Field.TEMPERATURE, "18 Grad", "'grad' is not a unit of temperature"),
    (Field.TEMPERATURE, "NaN", "no quantity was recognised"),
    (Field.TEMPERATURE, "nan C", "no quantity was recognised"),
    (Field.TEMPERATURE, "inf", "no quantity was recognised"),
    (Field.TEMPERATURE, "-inf C", "no quantity was recognised"),
    (Field.TEMPERATURE, "1e999 C", "'1e999' is not a number"),
    (Field.TEMPERATURE, "18.5.3 C", "'18.5.3' is not a number"),
    (Field.TEMPERATURE, "66/67 F", "'66/67' is not a number"),
    (Field.TEMPERATURE, "20 L", "'l' is not a unit of temperature"),
    (Field.TEMPERATURE, "20 C 18 C", "two figures"),
    (Field.TEMPERATURE, "20-18 C", "wanted the lower figure first"),
    (Field.TEMPERATURE, "18-20-22 C", "more than one range"),
    (Field.TEMPERATURE, "18-20 C ± 1", "both a range and a +/-"),
    (Field.TEMPERATURE, "20 C ± 5 %", "a share of a temperature means nothing"),
    (Field.TEMPERATURE, "18 C (70 F)", "two figures differ (18 C and 70 F (21.1 C))"),
    (Field.TEMPERATURE, "max 20 C", "only one end"),
    (Field.TEMPERATURE, "< 20 C", "only one end"),
    (Field.TEMPERATURE, "x" * 500, "too long"),
    (Field.VOLUME, "5 US gal or 4 imp gal", "both US and imperial"),
    (Field.VOLUME, "5 kg", "'kg' is not a unit of volume"),
    (Field.MASS, "2 lb 8", "one figure has no unit"),
    (Field.MASS, "8 oz 2 lb", "do not go from large to small"),
    (Field.MASS, "2 lb - 8 oz", "wanted the lower figure first"),
    (Field.MASS, "2 x 500 g", "'x' is not a unit of mass"),
    (Field.GRAVITY, "12.9 brix", "refractometer"),
    (Field.GRAVITY, "15 Bx", "before the yeast goes in, write Brix as P"),
    (Field.GRAVITY, "1.052/1.010", "'/' is not a unit of gravity"),
    (Field.DURATION, "a few days", "which gives no number"),
    (Field.DURATION, "overnight", "no quantity was recognised"),
    (Field.PRESSURE, "27 psia", "an absolute pressure"),
    (Field.CELLS, "200 Milliarden", "'milliarden' is not a unit of cell count"),
]


@pytest.mark.parametrize(("field", "typed", "said"), NO_QUANTITY)
def test_what_is_no_quantity_is_refused_with_the_reason(
    field: Field, typed: str, said: str
) -> None:
    assert said in refusal(typed, field)


@pytest.mark.parametrize("field", list(Field))
def test_nonsense_is_answered_with_an_example_of_the_field(field: Field) -> None:
    assert " such as " in refusal("xyzzy", field)


@pytest.mark.parametrize("field", list(Field))
def test_a_refusal_is_one_line(field: Field) -> None:
    assert "\n" not in refusal("one\ntwo\nplover", field)


# Source: the brewer's own word, given once.
HABITS = [
    (Field.TEMPERATURE, "68", Habits(temperature="F"), 20.0),
    (Field.TEMPERATURE, "20", Habits(temperature="C"), 20.0),
    (Field.TEMPERATURE, "20 C", Habits(temperature="F"), 20.0),
    (Field.VOLUME, "5 gal", Habits(measures="US"), 18.92705892),
    (Field.VOLUME, "5 gal", Habits(measures="imperial"), 22.73045),
    (Field.VOLUME, "5 imp gal", Habits(measures="US"), 22.73045),
    (Field.VOLUME, "5 gal (23 L)", Habits(measures="US"), 22.73045),
    (Field.VOLUME, "5 gal (20 L)", Habits(measures="US"), 18.92705892),
]


@pytest.mark.parametrize(("field", "typed", "habits", "expected"), HABITS)
def test_a_habit_settles_what_the_text_leaves_open(
    field: Field, typed: str, habits: Habits, expected: float
) -> None:
    assert read_quantity(typed, field, habits).value == pytest.approx(expected, rel=1e-9)


def test_a_habit_about_temperatures_says_nothing_about_gallons() -> None:
    with pytest.raises(UnreadableQuantity, match="US or imperial"):
        read_quantity("5 gal", Field.VOLUME, Habits(temperature="F"))
