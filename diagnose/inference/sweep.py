"""The exact solve: one sweep forward, one back, over all scenarios at once.

Forward, the state holds the weight of every setting of the open variables given what has been
swept over; backward, the weight of what is still to come. Their product at a step gives the
posterior of whatever the step is about.

Source: the noisy-OR of Pearl J. (1988) Probabilistic Reasoning in Intelligent Systems, sections
4.3.2 and 4.3.3 (from memory); the sweep is variable elimination along a path, written here.
"""

from collections.abc import Iterator

import numpy as np

from diagnose.errors import FaultwortError
from diagnose.inference import operators as op
from diagnose.inference.lone import Lone, Sides
from diagnose.inference.network import Floats
from diagnose.inference.scenarios import Scenarios, Structure
from diagnose.inference.steps import Node, Steps, Visit, axis_of

NONE: frozenset[int] = frozenset()


class ImpossibleEvidence(FaultwortError):
    """The evidence contradicts itself: no state of the beer explains all of it."""


class Sweep(Steps):
    """A solve of one structure for a block of scenarios."""

    def __init__(self, structure: Structure, scenarios: Scenarios) -> None:
        super().__init__(structure, scenarios)
        self._log_scale = np.zeros(scenarios.columns)

    def forward(self) -> tuple[Floats, list[Visit]]:
        """Run forward.

        Returns:
            The log of the evidence's probability for every column, and the visits.

        Raises:
            ImpossibleEvidence: some column has probability 0.
        """
        self._log_scale = self._log_constant()
        state = np.ones(self._scenarios.columns)
        open_nodes: tuple[Node, ...] = ()
        visits = []
        for step in self._structure.plan.steps:
            visits.append(Visit(step, open_nodes, state))
            state, open_nodes = self._step(step, state, open_nodes)
            state = self._rescaled(state)
        return np.log(state) + self._log_scale, visits

    def backward(
        self, visits: list[Visit], hushed: frozenset[int] = NONE
    ) -> Iterator[tuple[Visit, Floats]]:
        """Run back over the visits; yields each with the weight of what comes after it.

        The axes of the compounds `hushed` have the third place.
        """
        after = np.ones(self._scenarios.columns)
        for visit in reversed(visits):
            yield visit, after
            after = self._step_back(visit, after, hushed)
            after = after / _peak(after)

    def cause_sides(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of the visit's cause being off and on; `after` with nothing hushed."""
        cause, before = visit.step.index, visit.state_before
        links = [link[:2] for link in self._links(cause, visit.open_before)]
        off = self._scenarios.off[:, cause] * op.dot(before, after)
        on = self._scenarios.on[:, cause] * op.dot(before, op.turn_all_on_transposed(after, links))
        return off, on

    def kept_quiet(self, visit: Visit, after: Floats, quiet: frozenset[int]) -> Floats:
        """Weight of the cause being on and speaking through none of the compounds `quiet`.

        `after` must have the third place for every one of them that the cause makes.
        """
        links = {axis: (s, j) for axis, s, j in self._links(visit.step.index, visit.open_before)}
        for axis in range(1, after.ndim):
            strength, compound = links.get(axis, (0.0, -1))
            if compound in quiet:
                after = op.hush_transposed(after, axis, strength)
            else:
                after = after[op.side(axis, slice(op.HUSHED))]
                after = op.turn_on_transposed(after, axis, strength) if strength else after
        return self._scenarios.on[:, visit.step.index] * op.dot(visit.state_before, after)

    def lone_sides(self, visit: Visit, after: Floats) -> tuple[Lone, Sides]:
        """The lone causes of the visit and what surrounds them.

        `after` may have the third place; without one on their compound they stay unhushed.
        """
        axis = axis_of(visit.open_before, ("compound", visit.step.index))
        idle, fired = (visit.state_before[op.side(axis, place)] for place in (op.IDLE, op.FIRED))
        to_idle, to_fired, *to_hushed = np.moveaxis(op.unhushed_but(after, axis), axis, 0)
        hushed = op.dot(idle + fired, to_hushed[0]) if to_hushed else np.zeros(idle.shape[0])
        sides = Sides(
            op.dot(idle, to_idle), op.dot(idle, to_fired), op.dot(fired, to_fired), hushed
        )
        return self._lone(visit.step), sides

    def compound_sides(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of the compound being off and on at the visit that closes it."""
        axis = axis_of(visit.open_before, ("compound", visit.step.index))
        idle, fired = (visit.state_before[op.side(axis, place)] for place in (op.IDLE, op.FIRED))
        standing, _ = self._standing(visit, after)
        off_idle, on_idle, _ = self._scenarios.stands[:, visit.step.index, op.IDLE].T
        on = on_idle * op.dot(idle, standing) + op.dot(fired, standing)
        return off_idle * op.dot(idle, after), on

    def _log_constant(self) -> Floats:
        """The log weight of what no step holds: absent words, and of every cause that is no step of
        its own the sum of its weights, 1 where the chances of a lone cause are scaled by it.
        """
        acting = {step.index for step in self._structure.plan.steps if step.kind == "cause"}
        idle = [i for i in range(self._scenarios.off.shape[1]) if i not in acting]
        idle_weight = self._scenarios.off[:, idle] + self._scenarios.on[:, idle]
        # in logs from the start: many causes at long odds overflow a product
        log_weight: Floats = np.log(idle_weight).sum(axis=1)
        for word in self._structure.absent:
            clear = np.log1p(-self._structure.network.wrong_word[word])
            log_weight += np.where(self._scenarios.said[:, word, 1] == 0.0, clear, 0.0)
        return log_weight

    def _rescaled(self, state: Floats) -> Floats:
        peak = _peak(state)
        self._log_scale = self._log_scale + np.log(peak.reshape(-1))
        return state / peak


def _peak(state: Floats) -> Floats:
    peak = state.reshape(state.shape[0], -1).max(axis=1)
    if not np.all(peak > 0.0) or not np.all(np.isfinite(peak)):
        raise ImpossibleEvidence("the notes contradict each other; check what was ruled out")
    return op.per_column(peak, state)
