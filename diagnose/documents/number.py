"""A number of the trade as it stands on a card: with its range, its basis and its source."""

from typing import Literal, Self

from pydantic import BaseModel, ConfigDict, Field, FiniteFloat, model_validator

Basis = Literal["published-seen", "published-recalled", "derived", "practice", "judgement"]


class Number(BaseModel):
    """One number, its honest range, what it rests on and where that stands.

    `unit` is absent for shares and ratios; `place` is a page or table of the source.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)

    value: FiniteFloat
    low: FiniteFloat
    high: FiniteFloat
    unit: str | None = None
    basis: Basis
    source: str = Field(min_length=1)
    place: str | None = None
    note: str | None = None

    @model_validator(mode="after")
    def _range_holds_value(self) -> Self:
        if not self.low <= self.value <= self.high:
            found = f"low {self.low:g}, value {self.value:g}, high {self.high:g}"
            raise ValueError(f"found {found}; wanted low <= value <= high")
        return self
