"""Every number of the rule base, counted by what it rests on."""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any, get_args

from pydantic import BaseModel

from diagnose.answers import BasisAnswer, BasisRow
from diagnose.documents import Basis
from diagnose.knowledge import RuleBase

NONE_STATED = "none stated"
BASES: tuple[str, ...] = (*get_args(Basis), NONE_STATED)
COUNTED = (
    "causes",
    "compounds",
    "descriptors",
    "measures",
    "circumstances",
    "checks",
    "yeasts",
    "styles",
    "cautions",
    "constants",
)
# The range of a number or of a curve is no number of its own.
_RANGES = ("low", "high", "give_or_take")
# A week has seven days, and "two" is 2: definitions rest on nothing.
_DEFINITIONS = ("spans", "numbers")
# Points (value, weight): the value says where, the weight is the number.
_POINTS = ("curve", "typical")


def basis_of(rules: RuleBase) -> BasisAnswer:
    """How many numbers of each kind of card rest on each basis.

    A number, a share and a weight in decibans count once each, without their range. What states
    no basis itself rests on that of the nearest card or table round it.
    """
    cards: dict[str, Any] = {kind: dict(getattr(rules, kind)) for kind in COUNTED}
    cards["words"] = rules.lexicon.words
    rows = []
    for kind, value in cards.items():
        counted = Counter(_bases(value, NONE_STATED))
        numbers = {basis: counted[basis] for basis in BASES}
        rows.append(BasisRow(kind=kind, numbers=numbers, total=counted.total()))
    return BasisAnswer(
        version=rules.version,
        kinds=tuple(rows),
        totals={basis: sum(row.numbers[basis] for row in rows) for basis in BASES},
        total=sum(row.total for row in rows),
    )


def _bases(value: Any, basis: str) -> Iterator[str]:
    """The basis of every number inside `value`, which rests on `basis` where it states none."""
    if isinstance(value, BaseModel):
        yield from _bases_of_card(value, str(getattr(value, "basis", basis)))
    elif isinstance(value, Mapping):
        for item in value.values():
            yield from _bases(item, basis)
    elif isinstance(value, tuple):
        for item in value:
            yield from _bases(item, basis)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield basis


def _bases_of_card(card: BaseModel, basis: str) -> Iterator[str]:
    for key in type(card).model_fields:
        if key in _POINTS:
            yield from (basis for _ in getattr(card, key))
        elif key not in (*_RANGES, *_DEFINITIONS):
            yield from _bases(getattr(card, key), basis)
