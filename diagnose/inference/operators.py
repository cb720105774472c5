"""The positive linear steps of the sweep and their transposes.

A state is an array of shape (columns, …): one column per scenario, then one axis per open
variable. A word's axis is (off, on). A compound's axis is (off, on), or (off, silent, speaking)
where it may give a reported word: speaking when it gives at least one of them. Every step only
adds and multiplies non-negative numbers, so nothing cancels, however extreme the ratios.
"""

from collections.abc import Sequence

import numpy as np

from diagnose.inference.network import Floats

OFF, SILENT, SPEAKING = 0, 1, 2
Link = tuple[int, float]


def per_column(values: Floats, state: Floats) -> Floats:
    """`values` (columns,) shaped to multiply a state."""
    return values.reshape((-1,) + (1,) * (state.ndim - 1))


def side(axis: int, place: int | slice) -> tuple[slice | int, ...]:
    """The index of one place of a state along `axis`."""
    return (*(slice(None),) * axis, place)


def turn_on(state: Floats, axis: int, strength: float) -> Floats:
    """Turn the variable on with probability `strength`, whatever it was."""
    moved = state.copy()
    moved[side(axis, slice(1, None))] += strength * state[side(axis, slice(0, 1))]
    moved[side(axis, OFF)] *= 1.0 - strength
    return moved


def turn_on_transposed(state: Floats, axis: int, strength: float) -> Floats:
    """The transpose of `turn_on`."""
    moved = state.copy()
    on = state[side(axis, slice(1, None))].sum(axis=axis)
    moved[side(axis, OFF)] = (1.0 - strength) * state[side(axis, OFF)] + strength * on
    return moved


def turn_on_silently(state: Floats, axis: int, strength: float) -> Floats:
    """The part of `turn_on` in which the link did not fire into a compound that speaks."""
    moved = state.copy()
    moved[side(axis, SILENT)] += strength * state[side(axis, OFF)]
    moved[side(axis, OFF)] *= 1.0 - strength
    moved[side(axis, SPEAKING)] *= 1.0 - strength
    return moved


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


def speak(state: Floats, links: Sequence[Link]) -> Floats:
    """The part of `turn_all_on` in which at least one of the links fired; axes are (off, on)."""
    quiet, spoken = state, np.zeros_like(state)
    for axis, strength in links:
        forced = np.zeros_like(state)
        forced[side(axis, 1)] = quiet.sum(axis=axis)
        spoken = turn_on(spoken, axis, strength) + strength * forced
        quiet = (1.0 - strength) * quiet
    return spoken


def speak_transposed(state: Floats, links: Sequence[Link]) -> Floats:
    """The transpose of `speak`."""
    quiet, spoken = np.zeros_like(state), state
    for axis, strength in reversed(links):
        forced = np.repeat(np.expand_dims(spoken[side(axis, 1)], axis), 2, axis=axis)
        quiet = (1.0 - strength) * quiet + strength * forced
        spoken = turn_on_transposed(spoken, axis, strength)
    return quiet


def silence(links: Sequence[Link]) -> float:
    """The chance that none of the links fired."""
    return float(np.prod([1.0 - strength for _, strength in links]))
