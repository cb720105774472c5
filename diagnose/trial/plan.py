"""The plan of a split as it is written down before brewing; the file that all later steps read."""

from datetime import date
from typing import Literal

from pydantic import BaseModel, ConfigDict, Field

Design = Literal["isolating", "2x2", "search"]
Setting = Literal["suspect", "other"]
Level = Literal["stop", "warn", "note"]


class Part(BaseModel):
    """A frozen part of a plan that refuses keys it does not know."""

    model_config = ConfigDict(frozen=True, extra="forbid")


class Factor(Part):
    """What differs between the arms: the suspect setting and the other one.

    `fires` is the chance that the fault shows at the suspect setting if the cause is responsible.
    """

    cause: str
    name: str
    stage: str
    what: str
    suspect: str
    other: str
    fires: float = Field(gt=0, lt=1)


class Arm(Part):
    """One arm and the setting of every factor in it, in the order of the factors."""

    label: str
    settings: tuple[Setting, ...]


class Vessel(Part):
    """Which arm goes into which numbered vessel, drawn before the wort is there."""

    number: int = Field(ge=1)
    arm: str
    pair: int = Field(ge=1)


class Explanation(Part):
    """One explanation of the fault and its chance when the plan was made."""

    id: str
    name: str
    share: float = Field(ge=0, le=1)


class Equal(Part):
    """Something that has to be the same in all arms; `shared` where the division sees to it."""

    what: str
    why: str
    shared: bool = False


class Step(Part):
    """One step of the brew sheet; the division itself is marked."""

    do: str
    division: bool = False


class Day(Part):
    """A date to keep."""

    day: date
    what: str


class Warned(Part):
    """A caution and how grave it is."""

    level: Level
    text: str


class Plan(Part):
    """Everything that was decided before brewing.

    `equal` must not differ; `tied` is what the factor takes along, in part at least. `harmless` is
    the chance that the arms differ noticeably though the suspect is innocent,
    `explanations` the ranking at the time, which the reading starts from; `record` and `tastes`
    what was typed for the batch, so that later pages can name it. `taught` are the ratios on
    suspects from the splits before, which that ranking holds already.
    """

    plan: Literal[1] = 1
    batch: str
    record: str = ""
    tastes: tuple[str, ...] = ()
    made: date
    seed: int
    design: Design
    fault: tuple[str, ...] = Field(min_length=1)
    ask: str | None
    factors: tuple[Factor, ...] = Field(min_length=1)
    arms: tuple[Arm, ...] = Field(min_length=2)
    vessels: tuple[Vessel, ...] = Field(min_length=2)
    litres: float = Field(gt=0)
    litres_per_arm: float = Field(gt=0)
    test: str
    why_test: str
    tasters: int = Field(ge=1)
    harmless: float = Field(gt=0, lt=1)
    alcohol_percent: float = Field(ge=0, lt=30)
    alcohol_known: bool
    contains: tuple[str, ...]
    compounds: tuple[str, ...]
    explanations: tuple[Explanation, ...] = Field(min_length=2)
    equal: tuple[Equal, ...]
    tied: tuple[Equal, ...] = ()
    taught: dict[str, float] = {}
    controls: tuple[str, ...]
    keep: tuple[str, ...]
    steps: tuple[Step, ...]
    dates: tuple[Day, ...]
    stop_rules: tuple[str, ...]
    cautions: tuple[Warned, ...]
    not_served_because: tuple[str, ...]
    remarks: tuple[str, ...]

    def arm(self, label: str) -> Arm | None:
        """The arm called `label`."""
        return next((arm for arm in self.arms if arm.label == label), None)

    def differ(self, one: Arm, other: Arm) -> tuple[Factor, ...]:
        """The factors that differ between two arms."""
        settings = zip(self.factors, one.settings, other.settings, strict=True)
        return tuple(factor for factor, first, second in settings if first != second)
