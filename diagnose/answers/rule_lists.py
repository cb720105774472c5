"""What `rules list --coverage` and `--basis` answer."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.others import SourceLine
from diagnose.answers.part import Said


def _schema(view: str) -> Any:
    return Key(default=f"faultwort/rules-list-{view}/1", serialization_alias="schema")


class TermLine(Said):
    """A term of the published terminology and how it is reached.

    `descriptors` are those that stand for it, `compounds` and `causes` what may lie behind them.
    `code_status` and `name_status` say whether its number and its word were read in the source
    or are recalled.
    """

    code: str
    name: str
    tier: Literal[1, 2]
    code_status: Literal["verified", "recalled"]
    name_status: Literal["verified", "recalled"]
    source: str
    fit: Literal["direct", "nearest", "none"]
    covered: bool
    descriptors: tuple[str, ...]
    compounds: tuple[str, ...]
    causes: tuple[str, ...]
    reason: str


class CoverageAnswer(Said):
    """Every term of the published terminology, and counts over them."""

    schema_: str = _schema("coverage")
    version: str
    terms: tuple[TermLine, ...]
    counts: dict[str, int]
    sources: tuple[SourceLine, ...]
    note: str


class BasisRow(Said):
    """The numbers of one kind of card, by what they rest on."""

    kind: str
    numbers: dict[str, int]
    total: int


class BasisAnswer(Said):
    """Every number of the rule base, by what it rests on.

    `none stated` are numbers of cards that name no basis: efforts, amounts of a trial, limits
    of cautions, results of checks when nothing is wrong.
    """

    schema_: str = _schema("basis")
    version: str
    kinds: tuple[BasisRow, ...]
    totals: dict[str, int]
    total: int
