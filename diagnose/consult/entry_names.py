"""The entries of a record by name: as a path, or as a brewer would say them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Any, get_args

from pydantic import ValidationError

from diagnose.batch import BatchRecord, NotLogged, Section

# What is said in place of a key of the record.
_SAID = {
    **dict.fromkeys(("stored", "store", "kept", "cellared"), "storage"),
    **dict.fromkeys(("fermented", "fermenting", "ferment"), "fermentation"),
    **dict.fromkeys(("boiled", "boiling"), "boil"),
    **dict.fromkeys(("mashed", "mashing"), "mash"),
    **dict.fromkeys(("sparged", "sparging"), "sparge"),
    **dict.fromkeys(("pitched", "pitching"), "pitch"),
    **dict.fromkeys(("chilled", "chilling", "cooled"), "chill"),
    **dict.fromkeys(("packaged", "bottled", "kegged", "canned"), "packaging"),
    **dict.fromkeys(("served", "poured"), "serving"),
    **dict.fromkeys(("cleaned",), "cleaning"),
    **dict.fromkeys(("og",), "original"),
    **dict.fromkeys(("fg",), "final"),
    **dict.fromkeys(("hop", "hopped"), "hops"),
    **dict.fromkeys(("temp",), "temperature"),
    **dict.fromkeys(("sulphate",), "sulfate"),
}
_FILLERS = frozenset(
    ("at", "to", "for", "in", "the", "a", "an", "was", "were", "is", "are", "of", "with", "from")
) | {"by", "it", "beer", "set"}
_TEMPERATURES = frozenset(("at", "to"))
_TOLD_FIRST = _TEMPERATURES | {"temperature", "time", "when", "amount"}


@dataclass(frozen=True)
class EntryName:
    """One entry that a record can have: its path, the lists on the way, and what reads it."""

    path: tuple[str, ...]
    lists: frozenset[str]
    section: type[Section]
    is_text: bool

    @property
    def dotted(self) -> str:
        """The path as it is written."""
        return ".".join(self.path)

    @property
    def words(self) -> frozenset[str]:
        """What may be said of it."""
        also = ("temperature",) if self.path[-1] in _TEMPERATURES else ()
        words = (word for step in self.path for word in step.split("_"))
        return frozenset((*words, *also)) - _FILLERS

    @property
    def is_told_first(self) -> bool:
        """Whether it is what is first told of its section: how warm, how long, when, how much."""
        return self.path[-1] in _TOLD_FIRST

    def is_meant_by(self, said: frozenset[str], value: str) -> bool:
        """Whether these words and this value can mean no other entry of the section.

        A figure beside the section's name is what is first told of it; any other entry has to
        be named.
        """
        named = said & self.words & {*self.path[-1].split("_")}
        is_figure = any(sign.isdigit() for sign in value)
        return bool(named) or not is_figure or self.is_told_first

    def refuses(self, value: str) -> str:
        """Why the entry cannot be read from this text; empty where it can."""
        key = self.path[-1]
        try:
            read = self.section.model_validate({key: value})
        except ValidationError as error:
            return str(error.errors(include_url=False)[0]["msg"]).removeprefix("Value error, ")
        return "found nothing" if isinstance(getattr(read, key), NotLogged) else ""


@cache
def entry_names() -> tuple[EntryName, ...]:
    """Every entry of the record, in its order."""
    return tuple(_entries(BatchRecord, (), frozenset()))


def _entries(
    section: type[Section], path: tuple[str, ...], lists: frozenset[str]
) -> Iterator[EntryName]:
    for key, field in section.model_fields.items():
        inner = [one for one in (field.annotation, *get_args(field.annotation)) if _is_section(one)]
        if inner:
            is_list = not _is_section(field.annotation)
            yield from _entries(inner[0], (*path, key), lists | ({key} if is_list else set()))
        elif "dict" not in str(field.annotation):
            is_text = str(field.annotation).startswith("str") and not _has_words(field)
            yield EntryName((*path, key), lists, section, is_text)


def _is_section(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, Section)


def _has_words(field: Any) -> bool:
    """Whether the entry takes one of a list of words."""
    return any("enum" in (getattr(one, "json_schema", None) or {}) for one in field.metadata)


@dataclass(frozen=True)
class SaidEntry:
    """Entries that a phrase may be about, the best first, and the value it gives each.

    `open` could be read from it though it does not name them, `refused` could not, with why.
    """

    found: tuple[tuple[EntryName, str], ...]
    open: tuple[tuple[EntryName, str], ...]
    refused: tuple[tuple[EntryName, str], ...]


def entries_said(phrase: str) -> SaidEntry:
    """The entries of which a phrase such as "storage at 4 C" or "boiled 90 min" may speak."""
    typed = phrase.split()
    spoken = spoken_words(phrase)
    read: list[tuple[int, EntryName, str]] = []
    refused: list[tuple[int, EntryName, str]] = []
    for name in entry_names():
        said = name.words & set(spoken)
        value = _value(typed, spoken, said)
        if not said or not value or not name.lists <= set(spoken):
            continue
        # Any text will do for a text: its key has to be named.
        if name.is_text and not set(name.path[-1].split("_")) <= said:
            continue
        why = name.refuses(value)
        kept = refused if why else read
        score = 2 * len(said) + (name.path[-1] in spoken) + 2 * (name.words <= said)
        kept.append((score, name, why or value))
    best = _best(read)
    sure = {name for name, value in best if name.is_meant_by(name.words & set(spoken), value)}
    return SaidEntry(
        found=tuple(one for one in best if one[0] in sure),
        open=tuple(one for one in best if one[0] not in sure),
        refused=_best(refused),
    )


def spoken_words(phrase: str) -> list[str]:
    """The words of a phrase, each as the record would call it."""
    return [_SAID.get(word, word) for word in phrase.casefold().split()]


def _best(some: list[tuple[int, EntryName, str]]) -> tuple[tuple[EntryName, str], ...]:
    most = max((score for score, *_ in some), default=0)
    return tuple((name, text) for score, name, text in some if score == most)


def _value(typed: list[str], spoken: list[str], said: frozenset[str]) -> str:
    left = [word for word, meant in zip(typed, spoken, strict=True) if meant not in said]
    while left and left[0].casefold() in _FILLERS:
        left = left[1:]
    return " ".join(left)


_STEP = re.compile(r"([a-z_]+)(?:\[(\d+)\])?")


def path_of(dotted: str) -> tuple[str | int, ...] | None:
    """The path written as `recipe.hops[2].amount` (counted from 1); None where it is none."""
    path: list[str | int] = []
    for part in dotted.strip().split("."):
        match = _STEP.fullmatch(part)
        if match is None or match[2] == "0":
            return None
        path.append(match[1])
        if match[2]:
            path.append(int(match[2]) - 1)
    return tuple(path)


def keys_in(path: tuple[str | int, ...]) -> tuple[str, ...]:
    """The path without its places in lists."""
    return tuple(step for step in path if isinstance(step, str))
