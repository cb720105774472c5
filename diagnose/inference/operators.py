"""The positive linear steps of the sweep and their transposes.

A state is an array of shape (columns, …): one column per scenario, then one axis per open
variable. A word's axis is (not there, there). A compound's axis is (idle, fired): whether any
cause has fired into it so far; weights of what is still to come may have a third place, hushed:
the cause that is being looked at fired into it, so it stands and must give no reported word.
Every step only adds and multiplies non-negative numbers, so nothing cancels, however extreme
the ratios.
"""

from collections.abc import Sequence

import numpy as np

from diagnose.inference.network import Floats

IDLE, FIRED, HUSHED = 0, 1, 2
Link = tuple[int, float]


def per_column(values: Floats, state: Floats) -> Floats:
    """`values` (columns,) shaped to multiply a state."""
    return values.reshape((-1,) + (1,) * (state.ndim - 1))


def side(axis: int, place: int | slice) -> tuple[slice | int, ...]:
    """The index of one place of a state along `axis`."""
    return (*(slice(None),) * axis, place)


def without_hushed(after: Floats) -> Floats:
    """A weight of what is to come without the third places of its axes."""
    return after[(slice(None), *(slice(HUSHED),) * (after.ndim - 1))]


def unhushed_but(after: Floats, axis: int) -> Floats:
    """A weight of what is to come without the third places of all axes but `axis`."""
    places = [slice(HUSHED)] * after.ndim
    places[0] = places[axis] = slice(None)
    return after[tuple(places)]


def turn_on(state: Floats, axis: int, strength: float) -> Floats:
    """Turn the variable on with probability `strength`, whatever it was."""
    moved = state.copy()
    moved[side(axis, FIRED)] += strength * state[side(axis, IDLE)]
    moved[side(axis, IDLE)] *= 1.0 - strength
    return moved


def turn_on_transposed(state: Floats, axis: int, strength: float) -> Floats:
    """The transpose of `turn_on`; what is hushed stays so."""
    moved = state.copy()
    moved[side(axis, IDLE)] *= 1.0 - strength
    moved[side(axis, IDLE)] += strength * state[side(axis, FIRED)]
    return moved


def turn_lone(state: Floats, axis: int, idle: Floats, fired: Floats) -> Floats:
    """`turn_on` by chances (columns,) of their own: `idle` that it is left, `fired` that not."""
    moved = state.copy()
    at_rest = state[side(axis, IDLE)]
    moved[side(axis, FIRED)] += per_column(fired, at_rest) * at_rest
    moved[side(axis, IDLE)] *= per_column(idle, at_rest)
    return moved


def turn_lone_transposed(after: Floats, axis: int, idle: Floats, fired: Floats) -> Floats:
    """The transpose of `turn_lone`; what is hushed stays so."""
    moved = after.copy()
    from_fired = after[side(axis, FIRED)]
    moved[side(axis, IDLE)] *= per_column(idle, from_fired)
    moved[side(axis, IDLE)] += per_column(fired, from_fired) * from_fired
    return moved


def hush_transposed(state: Floats, axis: int, strength: float) -> Floats:
    """The transpose of hushing the variable with probability `strength`, else leaving it."""
    kept = (1.0 - strength) * state[side(axis, slice(IDLE, HUSHED))]
    return kept + strength * state[side(axis, slice(HUSHED, None))]


def turn_all_on(state: Floats, links: Sequence[Link]) -> Floats:
    """`turn_on` for several links."""
    for axis, strength in links:
        state = turn_on(state, axis, strength)
    return state


def turn_all_on_transposed(state: Floats, links: Sequence[Link]) -> Floats:
    """The transpose of `turn_all_on`."""
    for axis, strength in reversed(links):
        state = turn_on_transposed(state, axis, strength)
    return state


def silence(links: Sequence[Link]) -> float:
    """The chance that none of the links fired."""
    return float(np.prod([1.0 - strength for _, strength in links]))


def dot(left: Floats, right: Floats) -> Floats:
    """The sum over everything but the columns."""
    rows = left.shape[0]
    total: Floats = np.einsum("ck,ck->c", left.reshape(rows, -1), right.reshape(rows, -1))
    return total


def summed(state: Floats) -> Floats:
    """The sum over the last axis, of two places."""
    return np.add(state[..., 0], state[..., 1])  # quicker than a sum along an axis of two
