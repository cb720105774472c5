"""The positive linear moves of the sweep and their transposes, each done in place.

A state is a contiguous array of shape (…, columns): one axis per open variable, and last one
column per scenario. A word's axis is (not there, there). A compound's axis is (idle, fired):
whether any cause has fired into it so far; weights of what is still to come may have a third
place, hushed: the cause that is being looked at fired into it, so it stands and must give no
reported word. Every move only adds and multiplies non-negative numbers, so nothing cancels,
however extreme the ratios.
"""

import math
from collections.abc import Sequence

import numpy as np

from diagnose.inference.network import Floats

IDLE, FIRED, HUSHED = 0, 1, 2
Link = tuple[int, float, int]
"""An axis, a strength and the index of the compound or word that the axis is of."""


def along(state: Floats, axis: int) -> Floats:
    """A view of shape (before, places, after, columns) with the axis second."""
    shape = state.shape
    return state.reshape(math.prod(shape[:axis]), shape[axis], -1, shape[-1])


def turn_on(state: Floats, links: Sequence[Link]) -> Floats:
    """Turn each variable on with its strength, whatever it was."""
    for axis, strength, _ in links:
        places = along(state, axis)
        idle = places[:, IDLE]
        places[:, FIRED] += strength * idle
        idle *= 1.0 - strength
    return state


def turn_on_transposed(after: Floats, links: Sequence[Link]) -> Floats:
    """The transpose of `turn_on`; what is hushed stays so."""
    for axis, strength, _ in links:
        places = along(after, axis)
        idle = places[:, IDLE]
        idle *= 1.0 - strength
        idle += strength * places[:, FIRED]
    return after


def turn_lone(state: Floats, axis: int, chances: tuple[Floats, Floats]) -> Floats:
    """`turn_on` by chances (columns,) that the variable is left idle and that it is not."""
    left, turned = chances
    places = along(state, axis)
    idle = places[:, IDLE]
    places[:, FIRED] += turned * idle
    idle *= left
    return state


def turn_lone_transposed(after: Floats, axis: int, chances: tuple[Floats, Floats]) -> Floats:
    """The transpose of `turn_lone`; what is hushed stays so."""
    left, turned = chances
    places = along(after, axis)
    idle = places[:, IDLE]
    idle *= left
    idle += turned * places[:, FIRED]
    return after


def hush_transposed(after: Floats, axis: int, strength: float) -> Floats:
    """The transpose of hushing the variable with probability `strength`, else leaving it."""
    places = along(after, axis)
    kept = places[:, :HUSHED] * (1.0 - strength)
    kept += strength * places[:, HUSHED:]
    return kept.reshape(*after.shape[:axis], 2, *after.shape[axis + 1 :])


def without_hushed(after: Floats, but: Sequence[int] = ()) -> Floats:
    """A weight of what is to come without the third places of all axes, or of all `but` some."""
    if HUSHED + 1 not in after.shape[:-1]:
        return after
    kept = [slice(None) if axis in but else slice(HUSHED) for axis in range(after.ndim - 1)]
    return np.ascontiguousarray(after[tuple(kept)])


def silence(links: Sequence[Link]) -> float:
    """The chance that none of the links fired."""
    return math.prod(1.0 - strength for _, strength, _ in links)


def dot(left: Floats, right: Floats) -> Floats:
    """The sum over everything but the columns, of states or of views along one axis."""
    columns = left.shape[-1]
    if columns == 1:
        return np.array([np.vdot(left, right)])
    if left.ndim == 3 and not (left.flags.c_contiguous and right.flags.c_contiguous):
        total: Floats = np.einsum("abc,abc->c", left, right)
        return total
    flat: Floats = np.einsum("kc,kc->c", left.reshape(-1, columns), right.reshape(-1, columns))
    return flat
