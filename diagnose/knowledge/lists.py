"""The short lists of the rule base: yeasts, styles, cautions, sources, constants, terms."""

from typing import Literal, Self

from pydantic import Field, model_validator

from diagnose.documents import Number
from diagnose.knowledge.card import Card, Judged

Status = Literal["verified", "recalled"]


class YeastFamily(Card):
    """A family of yeast by trade name."""

    id: str
    name: str
    says: str
    aliases: tuple[str, ...] = ()
    attenuation: Number
    ferments_c: Number


class Style(Card):
    """A style of beer by trade name."""

    id: str
    name: str
    says: str
    aliases: tuple[str, ...] = ()
    yeast: str
    note: str = ""


class Trigger(Card):
    """What brings a caution up.

    A measure at or beyond a level or with a value, a descriptor, a suspect, a salt of the record,
    or words said of the beer: all those of one entry of `said`, in any order.
    """

    measure: str | None = None
    at_least: float | None = None
    at_most: float | None = None
    any_of: tuple[str, ...] = Field(default=(), alias="is")
    descriptor: str | None = None
    cause: str | None = None
    salt: str | None = None
    said: tuple[str, ...] = ()


class Caution(Judged):
    """A caution, shown before any diagnosis when something triggers it.

    The basis is that of the limits at which it is triggered.
    `unless` lists what makes it pointless (bottles do not burst in a keg), `only` what must
    be so as well, one of it at least.
    """

    id: str
    level: Literal["stop", "warn", "note"]
    text: str
    when: tuple[Trigger, ...] = ()
    unless: tuple[Trigger, ...] = ()
    only: tuple[Trigger, ...] = ()


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


class Term(Card):
    """A term of the published flavour terminology, and the descriptors that stand for it.

    `id` is its number there, `tier` 1 for a heading and 2 for a term below one. `fit` is `none`
    for a character that beer is meant to have: no descriptor stands for it, for the `reason`
    given.
    """

    id: str = Field(pattern=r"^\d{4}$")
    name: str
    tier: Literal[1, 2]
    code_status: Status
    name_status: Status = "verified"
    source: str
    descriptor: str | None
    also: tuple[str, ...] = ()
    fit: Literal["direct", "nearest", "none"]
    reason: str = ""

    @property
    def descriptors(self) -> tuple[str, ...]:
        """Every descriptor that stands for it, the first one first."""
        return () if self.descriptor is None else (self.descriptor, *self.also)

    @model_validator(mode="after")
    def _stands_for_something(self) -> Self:
        if (self.descriptor is None) != (self.fit == "none"):
            found = f"descriptor {self.descriptor or 'null'} with fit {self.fit}"
            raise ValueError(f"found {found}; wanted fit none where no descriptor stands, else not")
        if self.descriptor is None and self.also:
            raise ValueError("found also without a descriptor; wanted the first as descriptor")
        if self.fit != "direct" and not self.reason:
            raise ValueError(f"found fit {self.fit} without a reason; wanted the reason")
        return self


class Retired(Card):
    """An id that is no longer used, and what stands in its place."""

    id: str
    kind: Literal[
        "causes",
        "compounds",
        "descriptors",
        "measures",
        "circumstances",
        "checks",
        "yeasts",
        "styles",
        "cautions",
        "sources",
        "constants",
    ]
    replaced_by: tuple[str, ...]
    since: str
    why: str
