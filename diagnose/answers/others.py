"""What the other commands answer; their JSON carries `faultwort/<command>/1`."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.caution import CautionLine
from diagnose.answers.diagnosis import NearWords, Understood
from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/{command}/1", serialization_alias="schema")


class DoubtLine(Said):
    """A phrase that could mean several descriptors, and the question that parts them."""

    said: str
    candidates: tuple[str, ...]
    ask: str


class WordsAnswer(Said):
    """How words were understood."""

    schema_: str = _schema("taste")
    understood: tuple[Understood, ...]
    doubts: tuple[DoubtLine, ...]
    circumstances: dict[str, str]
    not_understood: tuple[str, ...]
    near_words: tuple[NearWords, ...] = ()
    noted: tuple[str, ...]
    praise: tuple[str, ...] = ()
    tell_apart: tuple[str, ...]


class SourceLine(Said):
    """A source, and what kind it is."""

    id: str
    kind: str
    citation: str


class Passage(Said):
    """A heading with its lines, as a card is explained."""

    heading: str
    lines: tuple[str, ...]


class CardAnswer(Said):
    """One card of the rule base in words."""

    schema_: str = _schema("explain")
    id: str
    kind: str
    name: str
    cautions: tuple[CautionLine, ...] = ()
    says: str
    passages: tuple[Passage, ...]
    paths: tuple[tuple[str, str, str], ...]
    sources: tuple[SourceLine, ...]


class UnderstoodFact(Said):
    """One thing that was understood about a file, and why."""

    what: str
    taken_as: str
    why: str


class SeriesSummary(Said):
    """One column of a probe log in short."""

    role: str
    header: str
    unit: str
    why: str
    readings: int
    usable: int
    lowest: float | None
    mean: float | None
    highest: float | None
    flags: dict[str, int]


class ProbeAnswer(Said):
    """What a logger's export contains."""

    schema_: str = _schema("probe")
    file: str
    sha256: str
    first: str
    last: str
    days: float
    every_minutes: float
    longest_gap_hours: float
    facts: tuple[UnderstoodFact, ...]
    series: tuple[SeriesSummary, ...]
    notes: tuple[str, ...]
    profile: str | None = None
    saved_as: str | None = None


class ProfileLine(Said):
    """What was once said of a layout of columns, and is used for the next file that has it."""

    name: str
    columns: tuple[str, ...]
    delimiter: str
    unit: str | None
    dates: str | None
    zone: str | None
    parts: dict[str, str]
    says: str


class ProfilesAnswer(Said):
    """The saved profiles, and which one was just forgotten."""

    schema_: str = _schema("probe-profiles")
    file: str | None
    profiles: tuple[ProfileLine, ...]
    forgotten: str | None = None


class FaultLine(Said):
    """One fault of a file."""

    file: str
    line: int
    key: str
    found: str
    wanted: str


class RuleCheck(Said):
    """The check of a rule base."""

    schema_: str = _schema("rules-check")
    cards: dict[str, int]
    faults: tuple[FaultLine, ...]


class CardLine(Said):
    """One card in a list."""

    id: str
    name: str


class CardList(Said):
    """How many cards of each kind there are, or the cards of one kind."""

    schema_: str = _schema("rules-list")
    version: str
    counts: dict[str, int]
    cards: tuple[CardLine, ...] = ()


class CaseScore(Said):
    """One worked case replayed."""

    case: str
    first: str
    wanted: tuple[str, ...]
    place: int | None
    probability: float
    verdict: Literal["separated", "close", "open", "two_faults", "expected"]
    holds: bool
    why: str


class ExamLine(Said):
    """One real account put to the tool."""

    case: str
    verdict: str
    accepted: tuple[str, ...]
    first: tuple[str, ...]
    probability: float
    right_first: bool
    right_in_three: bool
    lookup_first: bool
    lookup_in_three: bool
    why: str


class CalibrationBin(Said):
    """Claims between two probabilities, and how many were right."""

    low: float
    high: float
    claims: int
    mean_claim: float
    right: float


class ExamAnswer(Said):
    """The exam: shares of right answers, with the plain lookup beside them."""

    scored: int
    top_1: float
    top_3: float
    mean_log_loss: float
    brier: float
    lookup_top_1: float
    lookup_top_3: float
    calibration: tuple[CalibrationBin, ...]
    lines: tuple[ExamLine, ...]


class PerturbedCase(Said):
    """How often a case kept its first cause when every judgement was redrawn."""

    case: str
    first: str
    kept: float
    rival: str


class ScoreAnswer(Said):
    """All cases replayed."""

    schema_: str = _schema("rules-score")
    cases: tuple[CaseScore, ...]
    top_1: float
    top_3: float
    mean_log_loss: float
    all_hold: bool
    exam: ExamAnswer | None = None
    draws: int = 0
    perturbed: tuple[PerturbedCase, ...] = ()
