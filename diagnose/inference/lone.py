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
        idle, fired = (runs[0, :, -1] for runs in self._runs)
        return idle * self._stays_idle[:, -1], fired + idle * self._fires[:, -1]

    @cached_property
    def others(self) -> tuple[Floats, Floats]:
        """For every cause, the chances that none and that some of the others fire; (c, k) each."""
        (before, behind), (fired_before, fired_behind) = self._runs
        return before * behind[:, ::-1], fired_before + before * fired_behind[:, ::-1]

    @cached_property
    def _runs(self) -> tuple[Floats, Floats]:
        """The chances that none and that some of the causes that come before each fire, counted
        from the first cause, and from the last, (2, c, k) each.
        """
        stays, fires = (np.stack([one, one[:, ::-1]]) for one in (self._stays_idle, self._fires))
        idle, fired = np.ones_like(stays), np.zeros_like(fires)
        np.cumprod(stays[..., :-1], axis=-1, out=idle[..., 1:])
        np.cumsum((idle * fires)[..., :-1], axis=-1, out=fired[..., 1:])
        return idle, fired

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
        strength, if_off = lone.strength, self._if_off(lone)
        unfired = (1.0 - strength) * if_off
        if_on = unfired + strength * (self.idle_fired + self.fired_fired)[:, None]
        on = lone.on * if_on
        happened = on / (on + lone.off * if_off)
        quiet = unfired + strength * self.hushed[:, None]
        return happened, np.maximum(happened * (1.0 - quiet / if_on), 0.0)

    def _if_off(self, lone: Lone) -> Floats:
        none, some = lone.others
        idle, fired = none * self.idle_idle[:, None], some * self.idle_fired[:, None]
        return idle + fired + self.fired_fired[:, None]
