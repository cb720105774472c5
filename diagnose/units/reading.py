"""What one entry was read as, beside what was typed."""

from dataclasses import dataclass
from typing import Literal

System = Literal["US", "imperial"]


@dataclass(frozen=True)
class Reading:
    """One quantity as typed and as understood.

    `value`, `low` and `high` are in `unit`, the base unit of the field. `low` and `high` differ
    from `value` only where the text says so: "about 20 C", "18-20 C", "20 C +/- 1".
    """

    typed: str
    value: float
    low: float
    high: float
    unit: str

    def __post_init__(self) -> None:
        """Refuse ends that do not enclose the value, or a value that is no number."""
        if not self.low <= self.value <= self.high:
            raise ValueError(f"{self.low} <= {self.value} <= {self.high} does not hold")

    @property
    def exact(self) -> bool:
        """Whether the text gave one figure, with no range and no "about"."""
        return self.low == self.value == self.high


@dataclass(frozen=True)
class Habits:
    """What this brewer has said once about how he or she writes.

    `temperature` is the scale of a bare number; `measures` says whose gallon, pint and ounce.
    Empty means: never said, so ask.
    """

    temperature: Literal["C", "F"] | None = None
    measures: System | None = None


NO_HABITS = Habits()
