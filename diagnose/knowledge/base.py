"""The rule base: every card by kind and id, and where each one stands."""

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TypeVar

from diagnose.documents import Document, Path
from diagnose.errors import Fault
from diagnose.flavour import DescriptorCard, Lexicon
from diagnose.knowledge.causes import Cause, Indicator, circumstance_decibans
from diagnose.knowledge.compounds import Compound
from diagnose.knowledge.findings import Check, Circumstance, Measure
from diagnose.knowledge.lists import Caution, Constant, Retired, Source, Style, Term, YeastFamily

Named = TypeVar("Named", YeastFamily, Style)


@dataclass(frozen=True)
class Place:
    """Where a card stands: its document and the path to it inside."""

    document: Document
    path: Path = ()

    def fault(self, path: Path, found: str, wanted: str) -> Fault:
        """A fault at `path` within the card."""
        return self.document.fault((*self.path, *path), found, wanted)


@dataclass(frozen=True)
class RuleBase:
    """What the trade knows, as data.

    `terms` are those of the published flavour terminology. `retired` are ids that no card has
    any more, and `retired_places` where each stands. `notices` is how many ordinary tasters one
    is worth, by (taster, compound); what ships knows no tasters.
    """

    causes: Mapping[str, Cause]
    compounds: Mapping[str, Compound]
    lexicon: Lexicon
    measures: Mapping[str, Measure]
    circumstances: Mapping[str, Circumstance]
    checks: Mapping[str, Check]
    yeasts: Mapping[str, YeastFamily]
    styles: Mapping[str, Style]
    cautions: Mapping[str, Caution]
    sources: Mapping[str, Source]
    constants: Mapping[str, Constant]
    terms: Mapping[str, Term]
    places: Mapping[tuple[str, str], Place]
    retired: Mapping[str, Retired]
    retired_places: Mapping[str, Place]
    notices: Mapping[tuple[str, str], float] = field(default_factory=dict)

    @property
    def descriptors(self) -> Mapping[str, DescriptorCard]:
        """Descriptor cards by id."""
        return self.lexicon.cards

    @cached_property
    def listeners(self) -> Mapping[str, Mapping[str, Indicator]]:
        """For every measure the indicators that listen to it, by cause."""
        found: dict[str, dict[str, Indicator]] = {}
        for card_id, cause in self.causes.items():
            for indicator in cause.indicators:
                found.setdefault(indicator.measure, {})[card_id] = indicator
        return found

    @cached_property
    def told_by(self) -> Mapping[tuple[str, str], Mapping[str, float]]:
        """What every value of a circumstance weighs [decibans], by cause."""
        told: dict[tuple[str, str], dict[str, float]] = {}
        for card_id, cause in self.causes.items():
            for circumstance, table in cause.circumstances.items():
                card = self.circumstances[circumstance]
                for value in card.values:
                    decibans = circumstance_decibans(table, card, value)
                    told.setdefault((circumstance, value), {})[card_id] = decibans
        return told

    @cached_property
    def version(self) -> str:
        """A short fingerprint of everything in the rule base."""
        digest = hashlib.sha256()
        for name in sorted({place.document.name for place in self.places.values()}):
            digest.update(name.encode())
        for key in sorted(self.places):
            digest.update(repr(self._card(*key)).encode())
        digest.update(repr(self.lexicon.words).encode())
        return digest.hexdigest()[:12]

    def _card(self, kind: str, card_id: str) -> object:
        cards: Mapping[str, object] = getattr(self, kind)
        return cards[card_id]

    def find(self, card_id: str) -> list[tuple[str, object]]:
        """Every card called `card_id`, with its kind."""
        kinds = dict.fromkeys(kind for kind, _ in self.places)
        return [
            (kind, self._card(kind, card_id)) for kind in kinds if (kind, card_id) in self.places
        ]

    def yeast_called(self, words: str) -> YeastFamily | None:
        """The yeast family with this id, name or alias."""
        return _called(self.yeasts, words)

    def style_called(self, words: str) -> Style | None:
        """The style with this id, name or alias."""
        return _called(self.styles, words)


def _called(cards: Mapping[str, Named], words: str) -> Named | None:
    wanted = fold(words)
    return next((card for card in cards.values() if wanted in _names_of(card)), None)


def _names_of(card: YeastFamily | Style) -> set[str]:
    return {fold(name) for name in (card.id, card.name, *card.aliases)}


def fold(words: str) -> str:
    """Words as compared: lower case, hyphens and underscores as spaces."""
    return " ".join(words.casefold().replace("-", " ").replace("_", " ").split())
