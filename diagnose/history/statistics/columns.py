"""One column for each thing that may tell flawed batches from clean ones."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from diagnose.history.brews import Brew

Flags = NDArray[np.bool_]
_QUARTERS = ("December to February", "March to May", "June to August", "September to November")


@dataclass(frozen=True)
class Column:
    """What is known of every batch about one factor.

    Shapes (batches,): `values` are a measure's numbers, or True where the batch has the `word`;
    `logged` says where they count. `word` is None for a number.
    """

    factor: str
    word: str | None
    values: NDArray[np.float64] | Flags
    logged: Flags

    @property
    def name(self) -> str:
        """The factor, with its word."""
        return self.factor if self.word is None else f"{self.factor}: {self.word}"


def columns_of(brews: "Sequence[Brew]", events: Iterable[tuple[str, str]] = ()) -> list[Column]:
    """Every column that differs among the batches.

    A batch for which a factor was not logged does not count in its columns.

    Args:
        brews: the batches.
        events: (day as YYYY-MM-DD, words) of what any later batch may feel; such a column says
            whether a batch was brewed on that day or later.
    """
    told: dict[str, dict[int, tuple[str, ...]]] = {}
    for place, brew in enumerate(brews):
        for factor, words in _words(brew):
            told.setdefault(factor, {})[place] = words
    found = [column for factor in sorted(told) for column in _split(factor, told[factor], brews)]
    found += _measures(brews)
    found += _since(brews, events)
    return found


def _words(brew: "Brew") -> Iterator[tuple[str, tuple[str, ...]]]:
    for factor, words in brew.factors.items():
        if factor == "month":
            yield "season", (_QUARTERS[int(words[0]) % 12 // 3],)
        else:
            yield factor, words
    for key, value in brew.measures.items():
        if isinstance(value, str):
            yield key, (value,)
    tasters = {one.who for one in brew.tastings if one.who}
    if tasters:
        yield "tasted by", tuple(sorted(tasters))


def _split(
    factor: str, told: Mapping[int, tuple[str, ...]], brews: "Sequence[Brew]"
) -> Iterator[Column]:
    places: dict[str, list[int]] = {}
    for place, words in told.items():
        for word in words:
            places.setdefault(word, []).append(place)
    logged = _flags(told, len(brews))
    for word in sorted(places):
        # What one batch alone has, or all of them, separates nothing.
        if 2 <= len(places[word]) < len(told):
            yield Column(factor, word, _flags(places[word], len(brews)), logged)


def _flags(places: Iterable[int], size: int) -> Flags:
    flags = np.zeros(size, dtype=np.bool_)
    flags[list(places)] = True
    return flags


def _measures(brews: "Sequence[Brew]") -> Iterator[Column]:
    numbers: dict[str, dict[int, float]] = {}
    for place, brew in enumerate(brews):
        for key, value in brew.measures.items():
            if not isinstance(value, str):
                numbers.setdefault(key, {})[place] = value[1]
        if brew.brewed_on:
            day = date.fromisoformat(brew.brewed_on).toordinal()
            numbers.setdefault("brew day", {})[place] = float(day)
    for key in sorted(numbers):
        known = numbers[key]
        if len(set(known.values())) > 1:
            values = np.zeros(len(brews))
            values[list(known)] = list(known.values())
            yield Column(key, None, values, _flags(known, len(brews)))


def _since(brews: "Sequence[Brew]", events: Iterable[tuple[str, str]]) -> Iterator[Column]:
    dated = {place: brew.brewed_on for place, brew in enumerate(brews) if brew.brewed_on}
    logged = _flags(dated, len(brews))
    for day, words in sorted(set(events)):
        after = [place for place, brewed in dated.items() if brewed >= day]
        if 2 <= len(after) < len(dated):
            yield Column("brewed since", f"{words} ({day})", _flags(after, len(brews)), logged)
