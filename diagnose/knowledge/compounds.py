"""Compound cards: what carries a flavour, what makes it and what it tastes of."""

from typing import Literal

from pydantic import Field

from diagnose.documents import Number
from diagnose.knowledge.card import Card, Probability


class Brings(Card):
    """How often the compound stands above the noticed level with no fault at all."""

    unexplained: Probability
    yeast: dict[str, Probability] = Field(default_factory=dict)
    style: dict[str, Probability] = Field(default_factory=dict)


class Compound(Card):
    """One compound, class of compounds or sensory state.

    `predicted_by` names the measure in which a process model predicts its amount in the beer.
    """

    id: str
    name: str
    kind: Literal["compound", "class", "state"]
    says: str
    noticed_from: Number | None = None
    predicted_by: str | None = None
    trend: Literal["fades", "steady", "grows"]
    brings: Brings
    gives: dict[str, Probability]
    made_by: dict[str, Probability]
