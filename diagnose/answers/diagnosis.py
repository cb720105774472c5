"""What a diagnosis says, as records; their JSON is the contract that scripts rely on."""

from typing import Literal

from pydantic import Field as Key

from diagnose.answers.caution import CautionLine
from diagnose.answers.changed import ChanceRange, Overturned, PairLine, Separating, WhatIf
from diagnose.answers.part import Said

Verdict = Literal["separated", "close", "open", "two_faults", "expected"]


class RulesUsed(Said):
    """Which rule base answered."""

    version: str
    causes: int
    compounds: int
    descriptors: int


class Understood(Said):
    """One phrase and the descriptor it was taken for."""

    said: str
    descriptor: str
    name: str
    state: Literal["reported", "absent"]
    intensity: str | None
    also_possible: tuple[str, ...] = ()


class NearWords(Said):
    """Words that were not understood, and known ones that are spelt much like them."""

    said: str
    near: tuple[str, ...]


class EvidenceLine(Said):
    """One piece of evidence and what it does to one cause's odds, in decibans.

    `own` is false when it speaks only through a rival that it raises or lowers.
    """

    kind: str
    key: str
    text: str
    decibans: float
    source: str
    own: bool


class Bounds(Said):
    """Between which a chance surely lies, by the rule base; the same twice where exact."""

    low: float
    high: float


class RankedCause(Said):
    """One suspect; `responsible_range` only where the guesses were redrawn.

    `responsible_with_all` only where words were left out: the chance with all of them.
    """

    id: str
    name: str
    stage: str
    responsible: float
    happened: float
    base_rate: float
    evidence: tuple[EvidenceLine, ...]
    together_decibans: float
    paths: tuple[tuple[str, str, str], ...]
    now: tuple[str, ...]
    next_time: tuple[str, ...]
    overturned_by: tuple[str, ...]
    wrong_to_blame: str
    responsible_range: ChanceRange | None = None
    responsible_with_all: Bounds | None = None


class FamilyShare(Said):
    """A family of causes and the chance that one of them is the main explanation."""

    id: str
    name: str
    responsible: float


class FaultGroup(Said):
    """Descriptors that share a possible compound, and what may be behind them.

    `overturned` is what would put another cause first, `told_apart_by` what would best tell the
    first two apart.
    """

    descriptors: tuple[str, ...]
    names: tuple[str, ...]
    causes: tuple[RankedCause, ...]
    families: tuple[FamilyShare, ...]
    expected_here: float
    not_in_rule_base: float
    overturned: Overturned | None = None
    told_apart_by: Separating | None = None


class OneForAll(Said):
    """A cause that may be behind every group of words at once."""

    id: str
    name: str
    probability: float


class Bystander(Said):
    """A cause that probably acted on this batch and yet does not make these flavours."""

    id: str
    name: str
    happened: float


class Predicted(Said):
    """An amount a process model predicts."""

    low: float
    mid: float
    high: float
    unit: str


class NoticedFrom(Said):
    """From what amount a compound is noticed."""

    low: float
    value: float
    high: float
    unit: str


class CompoundLine(Said):
    """How likely a compound stands above the noticed level."""

    id: str
    name: str
    probability: float
    predicted: Predicted | None
    noticed_from: NoticedFrom | None


class NextStep(Said):
    """The best thing to find out next."""

    id: str
    kind: Literal["question", "entry", "check"]
    text: str
    gain_bits: float
    minutes: float
    answers: tuple[str, ...]


class OddEntry(Said):
    """An entry of the record or the probe log that looks odd; used all the same."""

    place: str
    text: str


class LearnedUse(Said):
    """Whether a diagnosis used what the batches taught, and what of it moved by a tenth or more.

    `tasters` are those of whom it knows how much they notice of some compound.
    """

    used: bool
    batches: int
    base_rates: tuple[str, ...]
    strengths: tuple[tuple[str, str], ...]
    tasters: tuple[str, ...] = ()
    says: str


class Partly(Said):
    """The words that the ranking leaves out, as there are too many to weigh all at once.

    `exact` says whether the chances with all words are exact or lie between bounds.
    """

    left_out: tuple[str, ...]
    exact: bool
    says: str


class Diagnosis(Said):
    """The whole answer about one batch.

    `learned` is None where no history was asked, `partly` where all words were weighed at once.
    `to_type` are commands that lead on, and what each does, where there is nothing to explain.
    """

    schema_: str = Key(default="faultwort/diagnose/1", serialization_alias="schema")
    batch: str
    rules: RulesUsed
    beer: str
    understood: tuple[Understood, ...]
    doubts: tuple[str, ...]
    not_understood: tuple[str, ...]
    near_words: tuple[NearWords, ...] = ()
    faults: tuple[FaultGroup, ...]
    one_cause_for_all: tuple[OneForAll, ...]
    pairs: tuple[PairLine, ...] = ()
    bystanders: tuple[Bystander, ...]
    compounds: tuple[CompoundLine, ...]
    next_: tuple[NextStep, ...] = Key(serialization_alias="next")
    cautions: tuple[CautionLine, ...]
    odd_entries: tuple[OddEntry, ...]
    missing: tuple[str, ...]
    verdict: Verdict
    verdict_text: str
    what_if: WhatIf | None = None
    learned: LearnedUse | None = None
    partly: Partly | None = None
    to_type: tuple[tuple[str, str], ...] = ()
