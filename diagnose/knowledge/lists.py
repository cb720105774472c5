"""The short lists of the rule base: yeast families, styles, cautions, sources, constants."""

from typing import Literal

from pydantic import Field

from diagnose.documents import Number
from diagnose.knowledge.card import Card


class YeastFamily(Card):
    """A family of yeast by trade name."""

    id: str
    name: str
    says: str
    aliases: tuple[str, ...] = ()
    attenuation: Number
    ferments_c: Number
    makes_clove: bool


class Style(Card):
    """A style of beer by trade name."""

    id: str
    name: str
    says: str
    aliases: tuple[str, ...] = ()
    yeast: str
    original_gravity: Number
    note: str = ""


class Trigger(Card):
    """What brings a caution up: a measure at or above a level or with a value, or a descriptor."""

    measure: str | None = None
    at_least: float | None = None
    at_most: float | None = None
    any_of: tuple[str, ...] = Field(default=(), alias="is")
    descriptor: str | None = None
    cause: str | None = None


class Caution(Card):
    """A caution, shown before any diagnosis when something triggers it.

    `unless` lists what makes it pointless (bottles do not burst in a keg).
    """

    id: str
    level: Literal["stop", "warn", "note"]
    text: str
    when: tuple[Trigger, ...] = ()
    unless: tuple[Trigger, ...] = ()


class Source(Card):
    """Where a number or a statement comes from."""

    id: str
    kind: Literal["published", "practice", "judgement", "memory"]
    citation: str
    seen: str = ""
    note: str = ""
    weak: bool = False


class Constant(Number):
    """A physical or chemical constant of a process model, with its id."""

    id: str
