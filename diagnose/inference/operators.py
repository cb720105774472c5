"""The positive linear steps of the sweep and their transposes.

A state is an array of shape (columns, 2, 2, …): one column per scenario, one axis of length 2
(off, on) per open variable. Every step only adds and multiplies non-negative numbers, so
nothing cancels, however extreme the likelihood ratios.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats


def per_column(values: Floats, state: Floats) -> Floats:
    """`values` (columns,) shaped to multiply a state."""
    return values.reshape((-1,) + (1,) * (state.ndim - 1))


def side(axis: int, on: int) -> tuple[slice | int, ...]:
    """The index of the off (0) or on (1) half of a state along `axis`."""
    return (*(slice(None),) * axis, on)


def turn_on(state: Floats, axis: int, strength: float) -> Floats:
    """Turn the variable on with probability `strength`, whatever it was."""
    moved = state.copy()
    moved[side(axis, 1)] += strength * state[side(axis, 0)]
    moved[side(axis, 0)] *= 1.0 - strength
    return moved


def turn_on_transposed(state: Floats, axis: int, strength: float) -> Floats:
    """The transpose of `turn_on`."""
    moved = state.copy()
    off = side(axis, 0)
    moved[off] = (1.0 - strength) * state[off] + strength * state[side(axis, 1)]
    return moved


def force_on(state: Floats, axis: int) -> Floats:
    """Put everything on the on side."""
    moved = np.zeros_like(state)
    moved[side(axis, 1)] = state.sum(axis=axis)
    return moved


def force_on_transposed(state: Floats, axis: int) -> Floats:
    """The transpose of `force_on`."""
    return np.repeat(np.expand_dims(state[side(axis, 1)], axis), 2, axis=axis)


@dataclass(frozen=True)
class Act:
    """What one cause does when it acts: `plain` links and links `behind` the fault.

    Each link is (axis, strength). `fault` (columns,) weighs the branch in which at least one
    link behind the fault fired.
    """

    plain: Sequence[tuple[int, float]]
    behind: Sequence[tuple[int, float]]
    fault: Floats

    def forward(self, state: Floats) -> Floats:
        """The state after the cause has acted."""
        quiet, fired = self.branches(state)
        return quiet + fired

    def branches(self, state: Floats) -> tuple[Floats, Floats]:
        """The state split by whether a link behind the fault fired (weighted by `fault`)."""
        quiet = state
        for axis, strength in self.plain:
            quiet = turn_on(quiet, axis, strength)
        fired = np.zeros_like(state)
        for axis, strength in self.behind:
            fired = turn_on(fired, axis, strength) + strength * force_on(quiet, axis)
            quiet = (1.0 - strength) * quiet
        return quiet, per_column(self.fault, state) * fired

    def transposed(self, state: Floats) -> Floats:
        """The transpose of `forward`."""
        quiet, fired = state, per_column(self.fault, state) * state
        for axis, strength in reversed(self.behind):
            quiet = (1.0 - strength) * quiet + strength * force_on_transposed(fired, axis)
            fired = turn_on_transposed(fired, axis, strength)
        for axis, strength in reversed(self.plain):
            quiet = turn_on_transposed(quiet, axis, strength)
        return quiet
