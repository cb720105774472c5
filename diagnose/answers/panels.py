"""What the panel commands answer; their JSON carries `faultwort/panel-<command>/1`."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/panel-{command}/1", serialization_alias="schema")


class SizeLine(Said):
    """One number of answers that is worth planning."""

    answers: int
    least_correct: int
    exact_alpha: float
    power: float
    reaches: bool


class PoorSize(Said):
    """A number of answers that a smaller one beats or equals."""

    answers: int
    better: int


class PanelSizes(Said):
    """How many answers to plan.

    `first` is the fewest that reach the power and `safe` the number from which every larger one
    does; None where the search found none.
    """

    schema_: str = _schema("size")
    test: str
    name: str
    alpha: float
    power: float
    difference: str
    share_correct: float | None
    first: int | None
    safe: int | None
    most: int
    counted: str
    good: tuple[SizeLine, ...]
    poor: tuple[PoorSize, ...]
    says: str
    else_: tuple[str, ...] = Key(default=(), serialization_alias="what_else_helps")
    cautions: tuple[str, ...]
    type_next: str = ""


class CriticalLine(Said):
    """The fewest right answers at one number of answers; None where none would do."""

    answers: int
    least_correct: int | None
    exact_alpha: float
    note: str = ""


class PanelCriticals(Said):
    """The limits of a test."""

    schema_: str = _schema("critical")
    test: str
    name: str
    alpha: float
    exact_alpha: float
    lines: tuple[CriticalLine, ...]
    says: str
    remarks: tuple[str, ...] = ()
    type_next: str = ""


class Span(Said):
    """A value with its 95 % interval; None where it has no end."""

    low: float | None
    value: float | None
    high: float | None
    says: str


class BayesLine(Said):
    """How many times better a difference explains the answers, for one prior on d'."""

    prior_spread: float
    factor: float
    says: str


class TastersLine(Said):
    """What several rounds by the same tasters are worth."""

    tasters: int
    answers: int
    worth_answers: float
    gamma: float
    p_tasters_alike: float
    p_elsewhere: float
    says: str


class EveningLine(Said):
    """One evening of a plan; the counts are None before it is tasted."""

    answers_so_far: int
    least_correct: int | None
    correct_so_far: int | None


class PanelRead(Said):
    """A tasting read, and what it could have missed."""

    schema_: str = _schema("read")
    test: str
    name: str
    given: str
    correct: int | None = None
    of: int | None = None
    alpha: float
    p: float | None
    least_correct: int | None = None
    exact_alpha: float | None = None
    verdict: Literal["shown", "shown_but_small", "ruled_out", "not_shown", "going_on"]
    says: str
    able_that_matters: float | None = None
    missed: float | None = None
    p_similar: float | None = None
    dprime: Span | None = None
    able: Span | None = None
    bayes: tuple[BayesLine, ...] = ()
    tasters: TastersLine | None = None
    evenings: tuple[EveningLine, ...] = ()
    remarks: tuple[str, ...] = ()
    too_few: bool = False
    type_next: str = ""
