"""What `history learn` and `history correct` answer, and what a diagnosis says of learning."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/history-{command}/1", serialization_alias="schema")


class SpreadLine(Said):
    """A share with the ends that hold nine in ten, and how many batches it counts for."""

    value: float
    low: float
    high: float
    weight: float


class JudgedLine(Said):
    """One judgement behind a number: the batch, the day, the basis, how far it is believed."""

    batch: str
    on: str
    basis: str
    state: str
    believed: float


class RateLine(Said):
    """One base rate before and after, and the batches that moved it."""

    cause: str
    name: str
    before: SpreadLine
    after: SpreadLine
    at_risk: int
    judged: tuple[JudgedLine, ...]
    told: tuple[str, ...]
    quiet: int
    says: str


class StrengthLine(Said):
    """One link from a cause to a compound before and after."""

    cause: str
    cause_name: str
    compound: str
    compound_name: str
    before: SpreadLine
    after: SpreadLine
    told: tuple[str, ...]
    judged: tuple[JudgedLine, ...]
    says: str


class TasterLine(Said):
    """How often a taster notices a compound that is there, before and after."""

    taster: str
    compound: str
    name: str
    before: SpreadLine
    after: SpreadLine
    right: int
    trials: int
    named: int
    shared: int
    says: str


class CaseLine(Said):
    """One confirmed cause: whether its case is closed, and how far it is believed then and now."""

    batch: str
    cause: str
    name: str
    state: Literal["closed", "not closed", "open again"]
    said: float
    now: float
    since: str | None
    flawed_since: int
    tasted_since: int
    says: str


class HistoryLearned(Said):
    """What the batches teach; `rates` are all that moved, those moved most first."""

    schema_: str = _schema("learn")
    rules: str
    on: bool
    tasted: int
    not_tasted: int
    rates: tuple[RateLine, ...]
    strengths: tuple[StrengthLine, ...]
    tasters: tuple[TasterLine, ...]
    cases: tuple[CaseLine, ...]
    offers: tuple[str, ...]
    says: tuple[str, ...]


class CorrectedEntry(Said):
    """An entry as it stands and as it would be without the instrument's error."""

    entry: str
    typed: str
    corrected: str


class CorrectedBatch(Said):
    """One batch and its entries; `version` is the new version, None where nothing was changed."""

    batch: str
    brewed_on: str | None
    entries: tuple[CorrectedEntry, ...]
    version: int | None
    note: str


class HistoryCorrected(Said):
    """What an instrument's error means for the batches since its last good check."""

    schema_: str = _schema("correct")
    instrument: str
    check: str
    off_by: str
    since: str | None
    until: str
    applied: bool
    batches: tuple[CorrectedBatch, ...]
    says: tuple[str, ...]
