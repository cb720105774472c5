"""How a hot wort cools, and how long it stays hot on the way."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp, log

from diagnose.process.validity import require_within


@dataclass(frozen=True)
class Cooling:
    """A wort on its way down: fast while hot, slower as it nears the coolant."""

    from_c: float
    to_c: float
    coolant_c: float
    minutes: float

    def __post_init__(self) -> None:
        """Refuse a wort that cannot cool this way.

        Raises:
            OutsideValidity: it does not end between the coolant and the start.
        """
        require_within(self.to_c, (self.coolant_c + 1e-6, self.from_c), "wort cooled to C")

    @property
    def time_constant_minutes(self) -> float:
        """Time in which the gap to the coolant falls to 37 % [min]."""
        falls = log((self.from_c - self.coolant_c) / (self.to_c - self.coolant_c))
        return self.minutes / falls if falls > 0 else 0.0

    def wort_c(self, minutes: float) -> float:
        """Temperature some minutes after the start [C]."""
        if self.time_constant_minutes == 0:
            return self.from_c
        gap_c = (self.from_c - self.coolant_c) * exp(-minutes / self.time_constant_minutes)
        return self.coolant_c + gap_c

    def minutes_above(self, limit_c: float) -> float:
        """Time spent hotter than a limit [min]."""
        if limit_c >= self.from_c:
            return 0.0
        if limit_c <= self.to_c:
            return self.minutes
        gap = (self.from_c - self.coolant_c) / (limit_c - self.coolant_c)
        return self.time_constant_minutes * log(gap)


def coolant_below(chilled_to_c: float, constants: Mapping[str, float]) -> float:
    """A temperature for the coolant when it was not logged.

    Args:
        chilled_to_c: what the wort was cooled to [C].
        constants: reads `coolant_c`, `coolant_lead_c`.

    Returns:
        Tap water, or something colder where tap water could not have done it [C].

    Source: common practice, no source.
    """
    return min(constants["coolant_c"], chilled_to_c - constants["coolant_lead_c"])
