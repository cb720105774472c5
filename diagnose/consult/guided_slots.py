"""An entry of the record as it is asked for: where it stands, its question, its answers."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, Literal

from diagnose.batch.entries import UNKNOWN
from diagnose.documents import Path
from diagnose.units import Field

Kind = Literal[
    "text", "style", "yeast", "word", "date", "quantity", "grist", "hops", "count", "reading"
]


@dataclass(frozen=True)
class Item:
    """The first item of a list in which `key` holds one of `words`; `name` stands for it."""

    name: str
    key: str
    words: tuple[str, ...]


@dataclass(frozen=True)
class Slot:
    """One entry that can be asked for.

    `choices` are (what is written, how it is said). `bare` is the unit that a bare number has
    here, where no other makes sense. `only_if` names an entry (dotted) and the words with which
    this one makes sense. `needed` says that a diagnosis cannot do without it.
    """

    path: tuple[str | int | Item, ...]
    asks: str
    kind: Kind
    field: Field | None = None
    why: str = ""
    choices: tuple[tuple[str, str], ...] = ()
    hint: str = ""
    bare: str = ""
    only_if: tuple[str, tuple[str, ...]] | None = None
    needed: bool = False

    @property
    def key(self) -> str:
        """The slot's name: its path with dots, list positions left out."""
        steps = (step.name if isinstance(step, Item) else step for step in self.path)
        return ".".join(str(step) for step in steps if not isinstance(step, int))

    def place(self, data: Any) -> Path | None:
        """Where the entry stands in this record; None where it has no place there."""
        found: Path = ()
        for step in self.path:
            here = _position(data, step) if isinstance(step, Item) else step
            if here is None:
                return None
            found = (*found, here)
            data = inside(data, (here,))
        return found


YES_NO = (("yes", "yes"), ("no", "no"))


def same(*words: str) -> tuple[tuple[str, str], ...]:
    """Choices that are said as they are written."""
    return tuple((word, word) for word in words)


def at(path: str) -> Path:
    """A dotted path as steps: "water.0.source"."""
    return tuple(int(step) if step.isdigit() else step for step in path.split("."))


def _position(data: Any, item: Item) -> int | None:
    if not isinstance(data, list):
        return None
    return next(
        (here for here, one in enumerate(data) if inside(one, (item.key,)) in item.words), None
    )


def inside(data: Any, path: Path) -> Any:
    """What stands at a path of plain data; None where nothing does."""
    for step in path:
        if isinstance(data, dict):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data


def is_known(slot: Slot, data: Any) -> bool | None:
    """Whether the entry is answered: True, False where it was asked and nobody knew, None if open.

    A whole section noted as not known is not known in any of its entries.
    """
    place = slot.place(data) or ()
    for end in range(1, len(place) + 1):
        found = inside(data, place[:end])
        if isinstance(found, str):
            return found.strip().casefold() not in UNKNOWN and end == len(place)
    return None if inside(data, place) is None else True


def makes_sense(slot: Slot, data: Any) -> bool:
    """Whether what is answered so far lets the entry be asked for at all."""
    if slot.only_if is None:
        return True
    entry, words = slot.only_if
    said = inside(data, at(entry))
    return not isinstance(said, str) or said.casefold() in (*words, *UNKNOWN)


def first_open(slots: Iterable[Slot], data: Any) -> Slot | None:
    """The first entry still to be asked for; None where all are there or one is not to be had."""
    wanted = [slot for slot in slots if makes_sense(slot, data)]
    known = {slot.key: is_known(slot, data) for slot in wanted}
    if False in known.values():
        return None
    for slot in wanted:
        if known[slot.key] is None:
            return slot if slot.place(data) is not None else None
    return None
