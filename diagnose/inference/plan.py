"""In which order compounds and words enter and leave the sweep, so that few are open at once."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import accumulate
from typing import Literal

import numpy as np

from diagnose.errors import FaultwortError
from diagnose.inference.network import Network

WIDEST = 22
CHEAP_CELLS = 2**15
Kind = Literal["open", "cause", "lone", "close", "open_word", "close_word"]


class QueryTooWide(FaultwortError):
    """So many flavours hang together that an exact answer would not fit in memory."""


@dataclass(frozen=True)
class Step:
    """One step of the sweep: open or close a compound or a word, or let causes act.

    `causes` are the lone causes of the compound `index`: those that make no other touched one.
    """

    kind: Kind
    index: int
    causes: tuple[int, ...] = ()


@dataclass(frozen=True)
class Plan:
    """The steps, and what one scenario costs.

    `width` is the greatest number of variables that are open at once; `cells` the sizes of the
    states after every step, summed: what a sweep over one scenario has to hold.
    """

    steps: tuple[Step, ...]
    width: int
    cells: int

    def peak(self, hushed: frozenset[int]) -> int:
        """Cells of the largest state on the way back, if `hushed` compounds have a third place."""
        log_cells = [_OPENS.get(step.kind, -1) * _places(step, hushed) for step in self.steps]
        return int(2.0 ** float(np.cumsum(log_cells).max(initial=0.0)) + 0.5)


def plan_sweep(network: Network, compounds: Sequence[int], words: Sequence[int]) -> Plan:
    """The cheapest sweep found over `compounds` and the reported `words`.

    Compounds that hang together through causes or words are swept together, one such set after
    the other. Each set is swept by closing next whichever compound opens the fewest others;
    where that is dear, every compound of the set is tried as the first.

    Args:
        network: the network.
        compounds: indices of the compounds that any evidence touches.
        words: indices of the reported descriptors (absent ones need no variable of their own).

    Raises:
        QueryTooWide: more than `WIDEST` variables would be open at once.
    """
    links = _links(network, compounds, words)
    steps: list[Step] = []
    for word in sorted(links.givers):
        if not links.givers[word]:
            steps += [Step("open_word", word), Step("close_word", word)]
    for together in _sets_that_hang_together(links):
        steps += _cheapest(links, together)
    plan = _measured(steps)
    if plan.width > WIDEST:
        raise QueryTooWide(
            f"{plan.width} flavour compounds hang together in this question, {WIDEST} can be "
            "held at once; give fewer words, the clearest ones first"
        )
    return plan


def first_cells(network: Network, compounds: Sequence[int], words: Sequence[int]) -> int:
    """The cells of the first plan found, however wide; `plan_sweep` never finds a dearer one."""
    links = _links(network, compounds, words)
    together = _sets_that_hang_together(links)
    return _measured(step for some in together for step in _swept(links, some)).cells


def fits(network: Network, compounds: Sequence[int], words: Sequence[int], most_cells: int) -> bool:
    """Whether a plan of at most so many cells is found; arguments as for `plan_sweep`."""
    first = first_cells(network, compounds, words)
    if first <= most_cells or first > FARTHEST_OFF * most_cells:
        return first <= most_cells
    links = _links(network, compounds, words)
    together = _sets_that_hang_together(links)
    return (
        _measured(step for some in together for step in _cheapest(links, some)).cells <= most_cells
    )


# A search for a cheaper plan is not worth its while where it would have to find one so much so.
FARTHEST_OFF = 2**6


@dataclass(frozen=True)
class _Links:
    """The links among causes, touched compounds and reported words, both ways, as bits."""

    causes: Mapping[int, int]
    children: Mapping[int, int]
    words: Mapping[int, int]
    givers: Mapping[int, int]


def _links(network: Network, compounds: Sequence[int], words: Sequence[int]) -> _Links:
    touched, reported = sorted(set(compounds)), sorted(set(words))
    made = network.strength[:, touched] > 0.0
    gives = network.gives[np.ix_(touched, reported)] > 0.0
    makers = np.flatnonzero(made.any(axis=1)).tolist()
    return _Links(
        causes=_joined(touched, makers, made[makers].T),
        children=_joined(makers, touched, made[makers]),
        words=_joined(touched, reported, gives),
        givers=_joined(reported, touched, gives.T),
    )


def _joined(
    rows: Sequence[int],
    columns: Sequence[int],
    linked: np.ndarray[tuple[int, int], np.dtype[np.bool_]],
) -> dict[int, int]:
    bits = dict.fromkeys(rows, 0)
    for row, column in np.argwhere(linked).tolist():
        bits[rows[row]] |= 1 << columns[column]
    return bits


def _members(bits: int) -> Iterator[int]:
    """The numbers of the bits that are set, lowest first."""
    while bits:
        lowest = bits & -bits
        yield lowest.bit_length() - 1
        bits ^= lowest


def _sets_that_hang_together(links: _Links) -> Iterator[int]:
    """Split the compounds into sets that share no cause and no word."""
    left = _union(1 << compound for compound in links.causes)
    while left:
        together, fresh = 0, left & -left
        while fresh:
            together |= fresh
            fresh = _union(_neighbours(links, compound) for compound in _members(fresh))
            fresh &= ~together
        left &= ~together
        yield together


def _union(sets: Iterable[int]) -> int:
    return reduce(int.__or__, sets, 0)


def _neighbours(links: _Links, compound: int) -> int:
    siblings = _union(links.children[cause] for cause in _members(links.causes[compound]))
    return siblings | _union(links.givers[word] for word in _members(links.words[compound]))


def _cheapest(links: _Links, together: int) -> tuple[Step, ...]:
    plan = _measured(_swept(links, together))
    if plan.cells <= CHEAP_CELLS:
        return plan.steps
    others = (_measured(_swept(links, together, first)) for first in _members(together))
    return min([plan, *others], key=lambda other: other.cells).steps


# By how many variables a step widens the state; the others close one.
_OPENS = {"open": 1, "open_word": 1, "cause": 0, "lone": 0}


def _places(step: Step, hushed: frozenset[int]) -> float:
    """The log, to base 2, of how many places the axis of the step's variable has."""
    three = step.kind in ("open", "close") and step.index in hushed
    return float(np.log2(3.0)) if three else 1.0


def _measured(steps: Iterable[Step]) -> Plan:
    steps = tuple(steps)
    open_after = list(accumulate(_OPENS.get(step.kind, -1) for step in steps))
    return Plan(steps, max(open_after, default=0), sum(2**count for count in open_after))


def _swept(links: _Links, together: int, first: int | None = None) -> list[Step]:
    builder = _Builder(links, together)
    if first is not None:
        builder.close(first)
    while builder.waiting:
        builder.close(min(_members(builder.waiting), key=builder.cost))
    return builder.steps


class _Builder:
    """Builds the steps; `waiting` are the compounds still to be closed, as bits."""

    def __init__(self, links: _Links, together: int) -> None:
        self._links = links
        self.waiting = together
        self._open = self._open_words = self._acted = 0
        self.steps: list[Step] = []

    def cost(self, compound: int) -> tuple[int, int]:
        """How many variables closing `compound` next would open; ties by index."""
        needed, children = 1 << compound, self._links.children
        for cause in _members(self._links.causes[compound] & ~self._acted):
            needed |= children[cause]
        words = self._links.words[compound] & ~self._open_words
        return (needed & ~self._open).bit_count() + words.bit_count(), compound

    def close(self, compound: int) -> None:
        """Let every cause of `compound` act, pass it on to its words, and sum it out."""
        causes, children = list(_members(self._links.causes[compound])), self._links.children
        lone = tuple(cause for cause in causes if children[cause].bit_count() == 1)
        acting = [c for c in causes if c not in lone and not self._acted >> c & 1]
        for cause in sorted(acting, key=self._opens):
            for child in _members(children[cause]):
                self._open_compound(child)
            self.steps.append(Step("cause", cause))
            self._acted |= 1 << cause
        self._open_compound(compound)
        if lone:
            self.steps.append(Step("lone", compound, lone))
            self._acted |= _union(1 << cause for cause in lone)
        words = self._links.words[compound]
        for word in _members(words & ~self._open_words):
            self.steps.append(Step("open_word", word))
        self._open_words |= words
        self.steps.append(Step("close", compound))
        self._open &= ~(1 << compound)
        self.waiting &= ~(1 << compound)
        for word in _members(words):
            if not self._links.givers[word] & self.waiting:
                self.steps.append(Step("close_word", word))
                self._open_words &= ~(1 << word)

    def _opens(self, cause: int) -> tuple[int, int]:
        """How many compounds the cause would open; the modest ones act first."""
        return (self._links.children[cause] & ~self._open).bit_count(), cause

    def _open_compound(self, compound: int) -> None:
        if not self._open >> compound & 1:
            self.steps.append(Step("open", compound))
            self._open |= 1 << compound
