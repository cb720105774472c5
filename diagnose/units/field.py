"""What kind of quantity an entry holds: its base unit, its limits, and how to write it."""

from dataclasses import dataclass
from enum import Enum
from typing import Final

from diagnose.units.conversions import HOURS_PER_YEAR


class Field(Enum):
    """A kind of quantity; its value is the unit in which a reading of it is kept.

    GRAVITY is relative density at 20/20 C, PRESSURE is gauge pressure, CONCENTRATION is in a
    liquid so thin that mg/L and ppm are the same number, CARBONATION is volumes of CO2.
    """

    TEMPERATURE = "C"
    VOLUME = "L"
    MASS = "g"
    GRAVITY = "SG"
    DURATION = "h"
    PRESSURE = "bar"
    CONCENTRATION = "mg/L"
    PH = "pH"
    PERCENT = "%"
    CELLS = "billion cells"
    CARBONATION = "volumes"
    POWER = "W"
    BITTERNESS = "IBU"

    @property
    def unit(self) -> str:
        """The unit in which a reading of this field is kept."""
        return self.value


@dataclass(frozen=True)
class FieldCard:
    """What is true of every quantity of one field.

    `low` and `high` are limits of nature and of what a home brewery can hold, not of good beer;
    judgement where nature sets none. `about` is how far "about" reaches to either side, as a
    share of the value unless `about_fixed`, then in the base unit: judgement, all of them.
    """

    name: str
    examples: str
    low: float
    high: float
    about: float
    about_fixed: bool = False
    needs_unit: bool = True

    def about_width(self, value: float) -> float:
        """How far "about" reaches to either side of `value` [base unit]."""
        return self.about if self.about_fixed else abs(value) * self.about


CARDS: Final[dict[Field, FieldCard]] = {
    Field.TEMPERATURE: FieldCard("temperature", "20 C, 68 F or 18-20 C", -30, 150, 1.0, True),
    Field.VOLUME: FieldCard("volume", "19 L, 500 mL or 5 US gal", 0, 100_000, 0.05),
    Field.MASS: FieldCard("mass", "28 g, 4.5 kg or 2 lb 8 oz", 0, 10_000_000, 0.05),
    Field.GRAVITY: FieldCard("gravity", "1.052, 1052 or 12.9 P", 0.98, 1.2, 0.002, True, False),
    Field.DURATION: FieldCard(
        "duration", "60 min, 1 h 30 min, 10 days or 14 months", 0, 100 * HOURS_PER_YEAR, 0.1
    ),
    Field.PRESSURE: FieldCard("gauge pressure", "0.8 bar, 12 psi or 80 kPa", -1.013, 300, 0.1),
    Field.CONCENTRATION: FieldCard("concentration", "50 mg/L, 50 ppm or 30 ppb", 0, 1e6, 0.1),
    Field.PH: FieldCard("pH", "5.4", 0, 14, 0.1, True, False),
    Field.PERCENT: FieldCard("percentage", "75 %", 0, 100, 0.05, False, False),
    Field.CELLS: FieldCard("cell count", "200 billion or 2e11", 0, 100_000, 0.2, False, False),
    Field.CARBONATION: FieldCard("carbonation", "2.4 volumes or 4.7 g/L", 0, 15, 0.1),
    Field.POWER: FieldCard("heating power", "2400 W or 2.4 kW", 0, 100_000, 0.1),
    Field.BITTERNESS: FieldCard("bitterness", "35 IBU", 0, 1000, 0.1, False, False),
}
