"""Which sets of answers promise to put another cause first.

A single answer is read off its own exact solve. For several at once the rises of a rival's odds
are added up, which is exact where the answers do not interact and a guide where they do: what
is promised here is to be confirmed by a solve with all of the set.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.inference.network import Floats

Flags = NDArray[np.bool_]
# So many causes are followed, those that one answer would bring nearest. Judgement.
RIVALS = 8
# So many sets of each size are widened by one more answer.
WIDENED = 64
_FLOOR = 1e-12


@dataclass(frozen=True)
class Standing:
    """How rivals stand against the first cause, in natural logs of the ratio of their chances.

    `first` is the index of the cause; `now` (r,) negative numbers, one for each rival; `rises`
    (k, r) by how much each of k answers moves them; `falling` are the answers that overturn
    the first cause by themselves.
    """

    first: int
    now: Floats
    rises: Floats
    falling: Sequence[int]


def standing_of(known: Floats, answered: Floats) -> Standing:
    """How the rivals of the first cause stand, before and after each answer.

    Args:
        known: chances of n causes as things are known, shape (n,).
        answered: the same after each of k answers, shape (k, n).
    """
    first = int(known.argmax())
    now, after = _against(known[None], first)[0], _against(answered, first)
    nearest = after.max(axis=0)
    nearest[first] = -np.inf
    rivals = np.sort(np.argsort(-nearest, kind="stable")[:RIVALS])
    falling = np.flatnonzero(answered.max(axis=1) > answered[:, first])
    return Standing(
        first=first,
        now=now[rivals],
        rises=after[:, rivals] - now[rivals],
        falling=[int(place) for place in falling],
    )


def _against(chances: Floats, first: int) -> Floats:
    logs = np.log(np.maximum(chances, _FLOOR))
    against: Floats = logs - logs[:, [first]]
    return against


def promising_sets(standing: Standing, apart: Flags, size: int, most: int) -> list[tuple[int, ...]]:
    """Sets of answers that may be given together and promise to overturn the first cause.

    Args:
        standing: how the rivals stand.
        apart: whether two answers cannot both count, shape (k, k); none counts twice.
        size: how many answers a set has.
        most: how many sets are wanted at most.

    Returns:
        Places of the answers, ascending; the most promising set first.
    """
    sets: list[tuple[int, ...]] = [(place,) for place in range(len(apart))]
    for wanted in range(1, size + 1):
        room = most if wanted == size else WIDENED
        sets = _best(standing, sets, room) if wanted == 1 else _widened(standing, apart, sets, room)
    return [some for some in sets if _promise(standing, [some])[0] > 0.0]


def _promise(standing: Standing, sets: Sequence[tuple[int, ...]]) -> Floats:
    """By how much the best rival leads after all answers of a set, shape (sets,)."""
    rises = standing.rises[np.array(sets, dtype=int)].sum(axis=1)
    promise: Floats = (standing.now + rises).max(axis=1, initial=-np.inf)
    return promise


def _best(standing: Standing, sets: Sequence[tuple[int, ...]], most: int) -> list[tuple[int, ...]]:
    if not sets:
        return []
    order = np.argsort(-_promise(standing, sets), kind="stable")
    return [sets[int(place)] for place in order[:most]]


def _widened(
    standing: Standing, apart: Flags, sets: Sequence[tuple[int, ...]], most: int
) -> list[tuple[int, ...]]:
    """The best sets with one more answer that goes with them, each set once."""
    if not sets:
        return []
    rises = standing.rises[np.array(sets, dtype=int)].sum(axis=1)
    promise = (standing.now + rises[:, None, :] + standing.rises[None]).max(axis=2)
    promise = np.where(apart[np.array(sets)].any(axis=1), -np.inf, promise)
    # A set turns up once for every one of its members.
    room = min(most * (len(sets[0]) + 1), promise.size) - 1
    best = np.argpartition(-promise, room, axis=None)[: room + 1]
    tried = sorted(best, key=lambda place: (-promise.flat[place], place))
    wider: dict[tuple[int, ...], None] = {}
    for place in tried:
        row, answer = divmod(int(place), len(apart))
        if np.isfinite(promise[row, answer]):
            wider.setdefault(tuple(sorted((*sets[row], answer))))
    return list(wider)[:most]
