"""A record looked at through glass: what a measure asked for, and what if it were written down."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, cast, get_args

from diagnose.batch import NOT_LOGGED, Batch, BatchRecord, NotLogged, Section, Timeline, timeline_of
from diagnose.documents import Path
from diagnose.evidence.beer import Beer, beer_of
from diagnose.evidence.facts import Facts
from diagnose.knowledge import RuleBase

Supposed = Mapping[Path, Any]

# Lists that get longer as a batch goes on; a recipe is complete when it is written.
_GROWING: Final[frozenset[Path]] = frozenset({("gravity", "readings"), ("tastings",)})
# The entry that places each moment, where nothing does.
_BREWED: Final[Path] = ("brewed",)
_PLACED_BY: Final[Mapping[str, Path]] = {
    "brewed": _BREWED,
    "pitched": _BREWED,
    "finished": ("fermentation", "finished"),
    "crashed": ("fermentation", "crashed"),
    "off_yeast": ("fermentation", "off_yeast"),
    "packaged": ("packaging", "when"),
    "last_tasted": ("tastings", 0, "when"),
}
# Without a zone the clock is UTC, so a zone is never what is wanted.
_ZONE: Final[Path] = ("zone",)
_STYLE: Final[Path] = ("style",)
_FAMILY: Final[Path] = ("pitch", "yeast", "family")


class Asked:
    """What was asked in vain, in order: entries, and lists that could have another item."""

    def __init__(self) -> None:
        """Nothing asked yet."""
        self.entries: dict[Path, None] = {}
        self.items: dict[Path, None] = {}


@dataclass(frozen=True)
class Glass:
    """A batch's facts and the rules, to be looked at with some entries supposed."""

    rules: RuleBase
    facts: Facts

    def through(self, supposed: Supposed) -> tuple[Facts, Asked]:
        """The facts as they would be, and a list that fills with what is asked in vain."""
        batch, asked = self.facts.batch, Asked()
        seen = replace(batch, record=_record(batch, supposed, asked))
        unseen = replace(batch, record=_record(batch, supposed, Asked()))
        return replace(
            self.facts,
            batch=seen,
            timeline=cast(Timeline, _SupposedTimeline(unseen.record, asked)),
            beer=cast(Beer, _SupposedBeer(self.rules, unseen, asked)),
        ), asked


def _record(batch: Batch, supposed: Supposed, asked: Asked) -> BatchRecord:
    return cast(BatchRecord, _SupposedSection(batch.record, (), (supposed, asked)))


class _SupposedSection:
    """A section that answers like the real one, but for what is supposed, and notes the asking."""

    def __init__(self, section: Section, path: Path, glass: tuple[Supposed, Asked]) -> None:
        self._section, self._path, self._glass = section, path, glass

    def __getattr__(self, name: str) -> Any:
        (supposed, asked), path = self._glass, (*self._path, name)
        value = getattr(self._section, name)
        if isinstance(value, Section):
            return _SupposedSection(value, path, self._glass)
        if isinstance(value, tuple):
            return self._items(value, path)
        if not isinstance(value, NotLogged):
            return value
        if path in supposed:
            return supposed[path]
        if path != _ZONE:
            asked.entries[path] = None
        return NOT_LOGGED

    def _items(self, logged: tuple[Section, ...], path: Path) -> tuple[Any, ...]:
        (supposed, asked), items = self._glass, list(logged)
        while (*path, len(items)) in supposed:
            field = type(self._section).model_fields[str(path[-1])]
            items.append(get_args(field.annotation)[0]())
        if not items or path in _GROWING:
            asked.items[*path, len(items)] = None
        return tuple(
            _SupposedSection(item, (*path, index), self._glass) for index, item in enumerate(items)
        )


class _SupposedTimeline:
    """The timeline of a supposed record; a moment that is missing was asked in vain."""

    def __init__(self, record: BatchRecord, asked: Asked) -> None:
        self._record, self._asked = record, asked

    def __getattr__(self, name: str) -> Any:
        moment = getattr(timeline_of(self._record), name)
        if moment is None:
            self._asked.entries[_PLACED_BY[name]] = None
            # A day of the batch says nothing without the day it counts from.
            if isinstance(self._record.brewed, NotLogged):
                self._asked.entries[_BREWED] = None
        return moment


class _SupposedBeer:
    """The beer of a supposed record; a style or yeast that is missing was asked in vain."""

    def __init__(self, rules: RuleBase, batch: Batch, asked: Asked) -> None:
        self._rules, self._batch, self._asked = rules, batch, asked

    def __getattr__(self, name: str) -> Any:
        beer = beer_of(self._rules, self._batch)
        if name in ("style", "style_id") and beer.style is None:
            self._asked.entries[_STYLE] = None
        elif name not in ("style", "style_id") and (beer.yeast is None or beer.yeast_assumed):
            self._asked.entries[_FAMILY] = None
        return getattr(beer, name)
