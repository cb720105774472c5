"""Cause cards: one thing a brewer did, used or suffered, that can be changed next time."""

import math
from collections.abc import Collection
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import AfterValidator, Field, model_validator

from diagnose.knowledge.card import Card, Family, Judged, Probability, Shares, Stage
from diagnose.knowledge.findings import Circumstance

STRONGEST_DECIBANS = 25.0


class Condition(Card):
    """A cause is possible only when the measure has one of these values (or is not logged)."""

    measure: str
    any_of: tuple[str, ...] = Field(alias="is", min_length=1)


def _within_reach(decibans: float) -> float:
    if abs(decibans) > STRONGEST_DECIBANS:
        limit = f"at most {STRONGEST_DECIBANS:.0f} decibans either way"
        raise ValueError(f"found {decibans}; wanted {limit}")
    return decibans


Decibans = Annotated[float, AfterValidator(_within_reach)]


def _rising(curve: tuple[tuple[float, float], ...]) -> tuple[tuple[float, float], ...]:
    if any(right[0] <= left[0] for left, right in pairwise(curve)):
        raise ValueError("found values out of order; wanted values that rise from point to point")
    return curve


Curve = Annotated[tuple[tuple[float, Decibans], ...], AfterValidator(_rising)]


class Indicator(Judged):
    """How one measure speaks for or against one cause, in decibans (10 log10 of the ratio).

    A number measure has a `curve` (straight between its points, flat outside); a class
    measure has `values`. `give_or_take` is the honest range of every point, in decibans.
    """

    measure: str
    curve: Curve = ()
    values: dict[str, Decibans] = Field(default_factory=dict)
    give_or_take: float = Field(ge=0.0, le=10.0)
    because: str

    @model_validator(mode="after")
    def _speaks_one_way(self) -> "Indicator":
        if bool(self.curve) == bool(self.values):
            raise ValueError("found both or neither; wanted either 'curve' or 'values'")
        return self


class CircumstanceShares(Judged):
    """Among faults due to this cause, the share with each value of a circumstance."""

    shares: Shares


def circumstance_decibans(
    table: CircumstanceShares, circumstance: Circumstance, value: str
) -> float:
    """What a value of a circumstance weighs [decibans]: its share under the cause over its base."""
    return 10.0 * math.log10(table.shares[value] / circumstance.values[value].share)


class SplitHint(Judged):
    """How an A/B split would isolate the cause; the basis is that of its litres and weeks.

    The arms stand in the order a brewer would do them; `suspect` says which of them brings the
    fault if the cause is responsible.
    """

    stage: Stage
    factor: str
    arms: tuple[str, str]
    suspect: Literal["first", "second"] = "first"
    litres: float = Field(gt=0)
    weeks: float = Field(gt=0)


Package = Literal["bottle", "can", "cask", "keg"]


class Advice(Card):
    """Advice for beer in some kinds of package and no others.

    It is left out under the cautions `not_under`, which it would speak against.
    """

    packages: tuple[Package, ...] = Field(min_length=1)
    not_under: tuple[str, ...] = ()
    says: str

    def suits(self, package: str | None, cautioned: Collection[str]) -> bool:
        """Whether it is for such a package, and spoken against by none of the cautions given."""
        return package in (None, *self.packages) and not set(self.not_under) & set(cautioned)


class Cause(Card):
    """One cause, on one screen.

    `family` gathers causes that are often told apart late (contamination, staling);
    `often_blamed` marks a belief that the evidence does not bear out.
    """

    id: str
    name: str = Field(max_length=60)
    stage: Stage
    family: Family
    often_blamed: bool = False
    says: str
    base_rate: Probability
    possible_when: tuple[Condition, ...] = ()
    indicators: tuple[Indicator, ...] = ()
    circumstances: dict[str, CircumstanceShares] = Field(default_factory=dict)
    now: tuple[str | Advice, ...] = Field(min_length=1)
    next_time: tuple[str, ...] = Field(min_length=1)
    split: SplitHint | None = None
    confused_with: tuple[str, ...] = ()
    wrong_to_blame: str
    cautions: tuple[str, ...] = ()
    loud_case: str
    quiet_case: str
    sources: tuple[str, ...] = ()

    @property
    def waits_for(self) -> tuple[str, ...]:
        """Ids of the cautions under which some advice is left out."""
        lines = (line for line in self.now if not isinstance(line, str))
        return tuple(dict.fromkeys(caution for line in lines for caution in line.not_under))

    def advice(
        self, package: str | None = None, cautioned: Collection[str] = frozenset()
    ) -> tuple[str, ...]:
        """What to do with this beer now.

        Args:
            package: what it is packaged in; None where that is not known, and then all is said.
            cautioned: ids of the cautions that the record sets off.
        """
        return tuple(
            line if isinstance(line, str) else line.says
            for line in self.now
            if isinstance(line, str) or line.suits(package, cautioned)
        )
