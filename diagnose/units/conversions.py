"""Conversion factors and curves.

Factors are exact by definition: the International Yard and Pound Agreement of 1959 (pound,
inch), 231 cubic inches to the US gallon, 4.54609 L to the imperial gallon (UK Weights and
Measures Act), standard gravity 9.80665 m/s2, the Julian year of 365.25 days and a month of a
twelfth of it. Two things here are not definitions and say so: extract against gravity, and the
mass of carbon dioxide in one volume.
"""

from typing import TYPE_CHECKING, Final, TypeVar

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

# One value, or many at once.
Amount = TypeVar("Amount", float, "NDArray[np.float64]")

# By definition.
GRAMS_PER_POUND: Final = 453.59237
GRAMS_PER_OUNCE: Final = GRAMS_PER_POUND / 16
GRAMS_PER_GRAIN: Final = GRAMS_PER_POUND / 7000
GRAMS_PER_KILOGRAM: Final = 1000.0
METRES_PER_INCH: Final = 0.0254
LITRES_PER_US_GALLON: Final = 3.785411784
LITRES_PER_IMPERIAL_GALLON: Final = 4.54609
LITRES_PER_US_FLUID_OUNCE: Final = LITRES_PER_US_GALLON / 128
US_GALLONS_PER_BEER_BARREL: Final = 31
IMPERIAL_GALLONS_PER_BARREL: Final = 36
BAR_PER_KPA: Final = 0.01
BAR_PER_PSI: Final = GRAMS_PER_POUND * 9.80665 / METRES_PER_INCH**2 / 1e8
SECONDS_PER_HOUR: Final = 3600.0
MINUTES_PER_HOUR: Final = 60.0
HOURS_PER_DAY: Final = 24.0
HOURS_PER_WEEK: Final = 7 * HOURS_PER_DAY
HOURS_PER_YEAR: Final = 365.25 * HOURS_PER_DAY
HOURS_PER_MONTH: Final = HOURS_PER_YEAR / 12

# 1 volume of CO2, 1.96-1.98 g/L. published-recalled: derived from the molar mass and the molar
# volume at 0 C and 1 atm.
CO2_GRAMS_PER_L_PER_VOLUME: Final = 1.963


def celsius_from_fahrenheit(temperature_f: float) -> float:
    """A reading in F [F] as C [C]. Source: definition."""
    return (temperature_f - 32) * 5 / 9


def fahrenheit_from_celsius(temperature_c: float) -> float:
    """A reading in C [C] as F [F]. Source: definition."""
    return temperature_c * 9 / 5 + 32


def celsius_from_kelvin(temperature_k: Amount) -> Amount:
    """A reading in K [K] as C [C]. Source: definition."""
    return temperature_k - 273.15


def kelvin_from_celsius(temperature_c: float) -> float:
    """A reading in C [C] as K [K]. Source: definition."""
    return temperature_c + 273.15


def fahrenheit_difference_from_celsius(difference_c: float) -> float:
    """A rise or a spread in C degrees [C] as F degrees [F]."""
    return difference_c * 9 / 5


def bar_from_psi(pressure_psi: float) -> float:
    """A pressure in psi [psi] as bar [bar]; both gauge or both absolute. Source: definition."""
    return pressure_psi * BAR_PER_PSI


def psi_from_bar(pressure_bar: float) -> float:
    """A pressure in bar [bar] as psi [psi]; both gauge or both absolute. Source: definition."""
    return pressure_bar / BAR_PER_PSI


def plato_from_gravity(gravity_sg: float) -> float:
    """Extract of a wort from its gravity.

    Args:
        gravity_sg: relative density at 20/20 C [SG], good from 1.000 to 1.130.

    Returns:
        Extract [degrees Plato, g per 100 g]; below zero under 1.000, as in dry beers.

    Source: cubic fit to the sucrose tables, coefficients published-recalled; it meets the rows
        of the USDA table 135-A-50 (3.8-7.8 degrees, seen) within 0.02.
    """
    return -616.868 + gravity_sg * (1111.14 + gravity_sg * (-630.272 + gravity_sg * 135.997))


def gravity_from_plato(extract_p: Amount) -> Amount:
    """Gravity of a wort from its extract.

    Args:
        extract_p: extract [degrees Plato, g per 100 g], good from 0 to 30.

    Returns:
        Relative density at 20/20 C [SG].

    Source: practitioner formula, constants published-seen; it meets a row of the USDA table
        135-A-50 (7.9 degrees, seen) within 0.0001. Not the exact inverse of
        `plato_from_gravity`: a round trip comes back within 0.01 degrees up to 1.120.
    """
    return 1 + extract_p / (258.6 - extract_p / 258.2 * 227.1)
