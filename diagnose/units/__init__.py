"""Quantities as brewers write them: text to a number in a known unit, and back."""

from diagnose.units.conversions import (
    BAR_PER_KPA,
    BAR_PER_PSI,
    CO2_GRAMS_PER_L_PER_VOLUME,
    GRAMS_PER_OUNCE,
    GRAMS_PER_POUND,
    HOURS_PER_DAY,
    HOURS_PER_MONTH,
    HOURS_PER_WEEK,
    HOURS_PER_YEAR,
    LITRES_PER_IMPERIAL_GALLON,
    LITRES_PER_US_GALLON,
    bar_from_psi,
    celsius_difference_from_fahrenheit,
    celsius_from_fahrenheit,
    celsius_from_kelvin,
    fahrenheit_difference_from_celsius,
    fahrenheit_from_celsius,
    gravity_from_plato,
    kelvin_from_celsius,
    plato_from_gravity,
    psi_from_bar,
)
from diagnose.units.field import Field
from diagnose.units.read import read_quantity
from diagnose.units.reading import NO_HABITS, Habits, Reading
from diagnose.units.show import show
from diagnose.units.suggestion import suggest_other_scale

__all__ = [
    "BAR_PER_KPA",
    "BAR_PER_PSI",
    "CO2_GRAMS_PER_L_PER_VOLUME",
    "GRAMS_PER_OUNCE",
    "GRAMS_PER_POUND",
    "HOURS_PER_DAY",
    "HOURS_PER_MONTH",
    "HOURS_PER_WEEK",
    "HOURS_PER_YEAR",
    "LITRES_PER_IMPERIAL_GALLON",
    "LITRES_PER_US_GALLON",
    "NO_HABITS",
    "Field",
    "Habits",
    "Reading",
    "bar_from_psi",
    "celsius_difference_from_fahrenheit",
    "celsius_from_fahrenheit",
    "celsius_from_kelvin",
    "fahrenheit_difference_from_celsius",
    "fahrenheit_from_celsius",
    "gravity_from_plato",
    "kelvin_from_celsius",
    "plato_from_gravity",
    "psi_from_bar",
    "read_quantity",
    "show",
    "suggest_other_scale",
]
