"""What can be said about batches beside their records: one frozen model for each kind."""

from collections.abc import Mapping
from typing import Any, ClassVar, Final, Literal

from pydantic import BaseModel, ConfigDict, Field


class Note(BaseModel):
    """The base of every kind: when it was, who says so, and the words as typed.

    `at` is a date or a time in ISO 8601, None where nobody said when. `who` is a pseudonym.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")
    table: ClassVar[str]

    at: str | None = None
    who: str | None = None
    typed: str = ""


class TastingNote(Note):
    """One taster's impression of one batch, or one score sheet.

    `reported` gives each descriptor its intensity, None where the taster named none. `sheet` is
    what a score sheet says, box by box; `position` its place in the flight; `points` of 50.
    """

    table: ClassVar[str] = "tastings"

    reported: Mapping[str, str | None] = Field(default_factory=dict)
    absent: tuple[str, ...] = ()
    not_understood: tuple[str, ...] = ()
    at_c: float | None = None
    poured_from: str | None = None
    sheet: Mapping[str, str] = Field(default_factory=dict)
    position: int | None = None
    points: float | None = None


class Verdict(Note):
    """What a fault turned out to be, and how far that is believed.

    `confidence` is 0 to 1, as the one who says it feels; `basis` is what it rests on.
    """

    table: ClassVar[str] = "verdicts"

    cause: str
    state: Literal["confirmed", "ruled out", "suspected"] = "confirmed"
    confidence: float = Field(default=0.8, ge=0.0, le=1.0)
    basis: Literal["brewer", "split", "panel", "repeat", "bench check"] = "brewer"
    flaw: tuple[str, ...] = ()


class Arm(BaseModel):
    """One half of a split: its batch, and how the factor was set in it."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    batch: str
    setting: str


class SplitNote(Note):
    """A split batch: what was varied, its arms, and the plan and reading as they were printed."""

    table: ClassVar[str] = "splits"

    name: str
    cause: str | None = None
    factor: str = ""
    arms: tuple[Arm, ...] = ()
    plan: Mapping[str, Any] = Field(default_factory=dict)
    reading: Mapping[str, Any] = Field(default_factory=dict)


class TasterResult(BaseModel):
    """How often one taster was right; `spiked` and `dose` for a session with a known addition."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    taster: str
    trials: int = Field(ge=1)
    correct: int = Field(ge=0)
    compound: str | None = None
    dose: float | None = None
    dose_unit: str | None = None


class PanelNote(Note):
    """A panel: its method, who was right how often, and the reading as it was printed."""

    table: ClassVar[str] = "panels"

    method: str
    batches: tuple[str, ...] = ()
    split: str | None = None
    results: tuple[TasterResult, ...] = ()
    reading: Mapping[str, Any] = Field(default_factory=dict)


class EventNote(Note):
    """Something changed, cleaned, bought or repaired, which any later batch may feel."""

    table: ClassVar[str] = "events"

    kind: Literal["equipment", "cleaning", "water", "ingredient", "people", "place", "other"]


class InstrumentCheck(Note):
    """An instrument held against something known; the offset is what it reads too much."""

    table: ClassVar[str] = "instrument_checks"

    instrument: str
    reads: float
    true: float
    unit: str

    @property
    def offset(self) -> float:
        """How much too high it reads, in `unit`."""
        return self.reads - self.true


class DiagnosisNote(Note):
    """A diagnosis as it was printed, with the version of the rule base that made it."""

    table: ClassVar[str] = "diagnoses"

    rules_version: str
    answer: Mapping[str, Any]


class LearningSwitch(Note):
    """Whether a diagnosis uses what the batches taught."""

    table: ClassVar[str] = "learning_switches"

    on: bool


KINDS: Final[Mapping[str, type[Note]]] = {
    kind.table: kind
    for kind in (
        TastingNote,
        Verdict,
        SplitNote,
        PanelNote,
        EventNote,
        InstrumentCheck,
        DiagnosisNote,
        LearningSwitch,
    )
}
