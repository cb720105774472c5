"""Causes that make one touched compound only: they act on its bit, all at once.

Each turns the bit on with its own chance, so together they are one turn of the bit; what one of
them did follows from what the others did, by running products from both ends. All sums are of
non-negative terms.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from diagnose.inference.network import Floats


@dataclass(frozen=True)
class Lone:
    """The lone causes of one compound: chances of being off and on, and their links.

    Shapes, with c columns and k causes: `off`, `on` (c, k), summing to 1; `strength` (k,).
    """

    off: Floats
    on: Floats
    strength: Floats

    @property
    def chances(self) -> tuple[Floats, Floats]:
        """The chances that no cause fires and that one does, (c,) each; the second as a sum, so
        that a small one is exact.
        """
        idle: Floats = self._stays_idle.prod(axis=1)
        fired: Floats = _first_fires(self._stays_idle, self._fires).sum(axis=1)
        return idle, fired

    @cached_property
    def others(self) -> tuple[Floats, Floats]:
        """For every cause, the chances that none and that some of the others fire; (c, k) each."""
        stays, fires = self._stays_idle, self._fires
        before, fired_before = _running(stays), _exclusive_sum(_first_fires(stays, fires))
        back, fires_back = stays[:, ::-1], fires[:, ::-1]
        behind = _running(back)[:, ::-1]
        fired_behind = _exclusive_sum(_first_fires(back, fires_back))[:, ::-1]
        return before * behind, fired_before + before * fired_behind

    @cached_property
    def _fires(self) -> Floats:
        return self.on * self.strength

    @cached_property
    def _stays_idle(self) -> Floats:
        return self.off + self.on * (1.0 - self.strength)


@dataclass(frozen=True)
class Sides:
    """Weights (c,) of what surrounds the lone causes, by what the bit was before and is after.

    `idle_idle`, `idle_fired`, `fired_fired`; `hushed` if one of them must stay silent.
    """

    idle_idle: Floats
    idle_fired: Floats
    fired_fired: Floats
    hushed: Floats

    def happened_and_spoke(self, lone: Lone) -> tuple[Floats, Floats]:
        """Chance that each cause acted, and that it acted and spoke; shape (c, k) each.

        The second holds only if the compound may be hushed.
        """
        strength, if_on, if_off = lone.strength, self._if_on(lone), self._if_off(lone)
        on = lone.on * if_on
        happened = on / (on + lone.off * if_off)
        quiet = (1.0 - strength) * if_off + strength * self.hushed[:, None]
        return happened, np.maximum(happened * (1.0 - quiet / if_on), 0.0)

    def _if_on(self, lone: Lone) -> Floats:
        none, some = lone.others
        strength = lone.strength
        idle = none * (1.0 - strength) * self.idle_idle[:, None]
        fired = (some * (1.0 - strength) + strength) * self.idle_fired[:, None]
        return idle + fired + self.fired_fired[:, None]

    def _if_off(self, lone: Lone) -> Floats:
        none, some = lone.others
        idle, fired = none * self.idle_idle[:, None], some * self.idle_fired[:, None]
        return idle + fired + self.fired_fired[:, None]


def _running(stays: Floats) -> Floats:
    """The product of all that come before each."""
    running = np.ones_like(stays)
    np.cumprod(stays[:, :-1], axis=1, out=running[:, 1:])
    return running


def _first_fires(stays: Floats, fires: Floats) -> Floats:
    """Chance that each is the first to fire."""
    return _running(stays) * fires


def _exclusive_sum(values: Floats) -> Floats:
    """The sum of all that come before each."""
    summed = np.zeros_like(values)
    np.cumsum(values[:, :-1], axis=1, out=summed[:, 1:])
    return summed
