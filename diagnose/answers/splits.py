"""What the split commands answer; their JSON carries `faultwort/split-<command>/1`."""

from datetime import date
from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.caution import CautionLine
from diagnose.answers.panels import PanelRead
from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/split-{command}/1", serialization_alias="schema")


class WorthLine(Said):
    """One way to strengthen a split, and its bits."""

    what: str
    bits: float


class CandidateLine(Said):
    """One suspect that could be put to a split."""

    cause: str
    name: str
    responsible: float
    fault: tuple[str, ...]
    stage: str
    factor: str
    suspect_setting: str
    other_setting: str
    test: str
    why_test: str
    fires: float
    harmless: float
    answers: int
    least_correct: int | None
    right_if_so: float
    right_if_not: float
    shown_if_so: float
    shown_if_not: float
    gain_bits: float
    extra_brew_days: float
    litres: float
    money: float | None = None
    weeks: float
    hours: float
    cost_units: float
    bits_per_unit: float
    power: float
    readable: bool
    decides: bool
    not_served: bool
    kit: str
    would_help: tuple[str, ...]
    worth: tuple[WorthLine, ...]
    says: str


class FirstCheck(Said):
    """Something cheaper than a split that teaches more for its effort."""

    id: str
    kind: str
    text: str
    minutes: float
    gain_bits: float


class BundleLine(Said):
    """Suspects to change together in one arm."""

    causes: tuple[str, ...]
    names: tuple[str, ...]
    share: float
    gain_bits: float
    says: str


class SplitChoice(Said):
    """Which suspect to put to a split."""

    schema_: str = _schema("choose")
    batch: str
    tasters: int
    rounds: int
    says: str
    check_first: FirstCheck | None
    candidates: tuple[CandidateLine, ...]
    bundle: BundleLine | None
    without_split: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    type_next: str = ""


class DayLine(Said):
    """A date to keep."""

    day: date
    what: str


class SplitPlanned(Said):
    """A plan that was written down, and where; `tasting_on` is None where nothing is served."""

    schema_: str = _schema("plan")
    batch: str
    causes: tuple[str, ...]
    names: tuple[str, ...]
    design: Literal["isolating", "2x2", "search"]
    files: tuple[str, ...]
    arms: dict[str, str]
    vessels: dict[int, str]
    seed: int
    litres_per_vessel: float
    test: str
    tasters: int
    dates: tuple[DayLine, ...] = ()
    tasting_on: date | None
    not_served_because: tuple[str, ...]
    remarks: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    next_: str = Key(serialization_alias="next")


class DifferenceLine(Said):
    """One difference between the arms."""

    measure: str
    name: str
    kind: Literal["factor", "confound", "harmless", "one_arm_only", "parity"]
    first: str
    second: str
    spoils: float
    says: str


class SplitChecked(Said):
    """Two arms compared."""

    schema_: str = _schema("check")
    first: str
    second: str
    about: str
    advice: Literal["go", "care", "stop"]
    says: str
    differences: tuple[DifferenceLine, ...]
    also: tuple[str, ...]
    spoils: float
    harmless: float
    written: str | None
    remarks: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    type_next: str = ""


class BallotsMade(Said):
    """Ballots, sheets and a sealed key; `arms` says what stands against serving them."""

    schema_: str = _schema("ballots")
    batch: str
    test: str
    tasters: tuple[str, ...]
    spares: tuple[str, ...]
    answers: int
    glasses: int
    commitment: str
    files: tuple[str, ...]
    alcohol: str
    few: tuple[str, ...] = ()
    arms: str = ""
    remarks: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    type_next: str = ""


class BallotEntered(Said):
    """A ballot that is in the box."""

    schema_: str = _schema("enter")
    taster: str
    round: int
    in_: int = Key(serialization_alias="in")
    missing: tuple[str, ...]
    says: str
    type_next: str = ""


class MovedLine(Said):
    """One explanation before and after the tasting."""

    id: str
    name: str
    before: float
    after: float


class RatioLine(Said):
    """What a tasting does to the odds of one suspect."""

    cause: str
    name: str
    ratio: float
    lowest: float
    highest: float


class SplitRead(Said):
    """A blind panel read back into the ranking; `keep` puts it into the history."""

    schema_: str = _schema("read")
    batch: str
    panel: PanelRead
    fires: float
    harmless: float
    bayes_factor: float
    ratios: tuple[RatioLine, ...]
    ranking: tuple[MovedLine, ...]
    known: tuple[str, ...]
    not_known: tuple[str, ...]
    next_: tuple[str, ...] = Key(serialization_alias="next")
    closed: str
    comments: tuple[str, ...]
    remarks: tuple[str, ...]
    cautions: tuple[CautionLine, ...]
    keep: str = ""
    type_next: str = ""
