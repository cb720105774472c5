"""What the page of the whole history and the page of one batch show."""

from typing import Literal

from pydantic import Field as Key

from diagnose.answers.background import Trace
from diagnose.answers.caution import CautionLine
from diagnose.answers.history_looking import Contrast, Trend
from diagnose.answers.part import Said

Told = Literal["flawed", "clean", "not tasted"]


class BatchRow(Said):
    """One batch in short: its flavour words, the verdict on it, and how its case stands."""

    key: str
    brewed_on: str | None
    style: str
    told: Told
    words: tuple[str, ...]
    verdict: str
    status: str


class HappenedLine(Said):
    """Something that later batches may feel: an event, or an instrument that was checked."""

    on: str
    kind: Literal["event", "instrument"]
    words: str


class VerdictLine(Said):
    """What a fault turned out to be, by whom and on what grounds it is said."""

    batch: str
    on: str
    who: str
    cause: str
    state: str
    basis: str
    confidence: float
    words: str


class SplitLine(Said):
    """A split batch that was read: its arms, and what it taught, did not teach, and asks for."""

    name: str
    on: str
    cause: str
    factor: str
    arms: tuple[str, ...]
    known: tuple[str, ...]
    not_known: tuple[str, ...]
    next_: tuple[str, ...] = Key(serialization_alias="next")


class Charted(Said):
    """A trend to draw; `difference` says that its unit counts degrees between two temperatures."""

    trend: Trend
    difference: bool


class HistoryPage(Said):
    """The whole history: `left_out` counts earlier batches that the table has no room for."""

    schema_: str = Key(default="faultwort/history-page/1", serialization_alias="schema")
    first: str | None
    last: str | None
    flawed: int
    clean: int
    not_tasted: int
    left_out: int
    batches: tuple[BatchRow, ...]
    charts: tuple[Charted, ...]
    contrasts: tuple[Contrast, ...]
    happened: tuple[HappenedLine, ...]
    verdicts: tuple[VerdictLine, ...]
    splits: tuple[SplitLine, ...]
    remarks: tuple[str, ...]


class EntryLine(Said):
    """One entry of a record as typed, and in both systems of units where it is a quantity."""

    key: str
    typed: str
    both: str


class TastedLine(Said):
    """What one taster said, and what it was taken for."""

    who: str
    when: str
    words: str
    taken_for: str


class ShareLine(Said):
    """One suspect of a diagnosis, and how likely it was to be behind the fault."""

    name: str
    share: float


class DiagnosedLine(Said):
    """One diagnosis as it was kept: its day, rule base, verdict and first suspects."""

    on: str
    rules: str
    verdict: str
    suspects: tuple[ShareLine, ...]


class VersionLine(Said):
    """One version of a record, and what it changed."""

    what: str
    changes: tuple[str, ...]


class BatchPage(Said):
    """One batch with everything that was said of it."""

    name: str
    key: str
    brewed_on: str | None
    withdrawn: bool
    cautions: tuple[CautionLine, ...]
    remarks: tuple[str, ...]
    entries: tuple[EntryLine, ...]
    tastings: tuple[TastedLine, ...]
    diagnoses: tuple[DiagnosedLine, ...]
    verdicts: tuple[VerdictLine, ...]
    splits: tuple[SplitLine, ...]
    panels: tuple[str, ...]
    versions: tuple[VersionLine, ...]
    trace: Trace | None
