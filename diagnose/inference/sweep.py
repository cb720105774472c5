"""The exact solve: one sweep forward, one back, over all scenarios at once.

Forward, the state holds the weight of every setting of the open variables given what has been
swept over; backward, the weight of what is still to come. Their product at a step gives the
posterior of whatever the step is about.

Source: the noisy-OR of Pearl J. (1988) Probabilistic Reasoning in Intelligent Systems, sections
4.3.2 and 4.3.3 (from memory); the sweep is variable elimination along a path, written here.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from diagnose.errors import FaultwortError
from diagnose.inference import operators as op
from diagnose.inference.network import Floats
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure

Node = tuple[str, int]
NONE: frozenset[int] = frozenset()


class ImpossibleEvidence(FaultwortError):
    """The evidence contradicts itself: no state of the beer explains all of it."""


@dataclass(frozen=True)
class Visit:
    """One step on the way: which variables were open before it and the state there."""

    step: Step
    open_before: tuple[Node, ...]
    state_before: Floats


class Sweep:
    """A solve of one structure for a block of scenarios."""

    def __init__(self, structure: Structure, scenarios: Scenarios) -> None:
        self._structure = structure
        self._scenarios = scenarios
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
        off = self._scenarios.off[:, cause] * dot(before, after)
        on = self._scenarios.on[:, cause] * dot(before, op.turn_all_on_transposed(after, links))
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
        return self._scenarios.on[:, visit.step.index] * dot(visit.state_before, after)

    def compound_sides(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of the compound being off and on at the visit that closes it."""
        axis = _axis(visit.open_before, ("compound", visit.step.index))
        idle, fired = (visit.state_before[op.side(axis, place)] for place in (op.IDLE, op.FIRED))
        standing, _ = self._standing(visit, after)
        off_idle, on_idle, _ = self._scenarios.stands[:, visit.step.index, op.IDLE].T
        on = on_idle * dot(idle, standing) + dot(fired, standing)
        return off_idle * dot(idle, after), on

    def _log_constant(self) -> Floats:
        """The log weight of what no step touches: causes with no touched compound, absent words."""
        acting = {step.index for step in self._structure.plan.steps if step.kind == "cause"}
        idle = [i for i in range(self._scenarios.off.shape[1]) if i not in acting]
        idle_weight = self._scenarios.off[:, idle] + self._scenarios.on[:, idle]
        # in logs from the start: many causes at long odds overflow a product
        log_weight: Floats = np.log(idle_weight).sum(axis=1)
        for word in self._structure.absent:
            clear = np.log1p(-self._structure.network.wrong_word[word])
            log_weight += np.where(self._scenarios.said[:, word, 1] == 0.0, clear, 0.0)
        return log_weight

    def _links(self, cause: int, open_nodes: tuple[Node, ...]) -> Iterator[tuple[int, float, int]]:
        """(axis, strength, compound) of the cause's links into open compounds."""
        strength = self._structure.network.strength[cause]
        for axis, (kind, index) in enumerate(open_nodes, start=1):
            if kind == "compound" and strength[index] > 0.0:
                yield axis, float(strength[index]), index

    def _step(
        self, step: Step, state: Floats, open_nodes: tuple[Node, ...]
    ) -> tuple[Floats, tuple[Node, ...]]:
        if step.kind == "open":
            opened = np.stack([state, np.zeros_like(state)], axis=-1)
            return opened, (*open_nodes, ("compound", step.index))
        if step.kind == "open_word":
            opened = state[..., None] * self._word_start(step.index)
            return opened, (*open_nodes, ("word", step.index))
        if step.kind == "cause":
            links = [link[:2] for link in self._links(step.index, open_nodes)]
            off = op.per_column(self._scenarios.off[:, step.index], state) * state
            acted = op.turn_all_on(state, links)
            return off + op.per_column(self._scenarios.on[:, step.index], state) * acted, open_nodes
        if step.kind == "close":
            return self._close(step.index, state, open_nodes)
        axis = _axis(open_nodes, ("word", step.index))
        return (state * self._said(step.index, axis, state.ndim)).sum(axis=axis), _less(
            open_nodes, axis
        )

    def _step_back(self, visit: Visit, after: Floats, hushed: frozenset[int]) -> Floats:
        step, open_nodes = visit.step, visit.open_before
        if step.kind == "open":
            return after[..., op.IDLE]
        if step.kind == "open_word":
            return _summed(after * self._word_start(step.index))
        if step.kind == "cause":
            links = [link[:2] for link in self._links(step.index, open_nodes)]
            off = op.per_column(self._scenarios.off[:, step.index], after) * after
            acted = op.turn_all_on_transposed(after, links)
            return off + op.per_column(self._scenarios.on[:, step.index], after) * acted
        if step.kind == "close":
            return self._close_back(visit, after, hushed)
        axis = _axis(open_nodes, ("word", step.index))
        return np.expand_dims(after, axis) * self._said(step.index, axis, len(open_nodes) + 1)

    def _close(
        self, compound: int, state: Floats, open_nodes: tuple[Node, ...]
    ) -> tuple[Floats, tuple[Node, ...]]:
        axis = _axis(open_nodes, ("compound", compound))
        rest = _less(open_nodes, axis)
        reported, asked = self._words_given(compound, rest)
        idle, fired = state[op.side(axis, op.IDLE)], state[op.side(axis, op.FIRED)]
        off, on, hushed = (
            op.per_column(if_idle, idle) * idle + op.per_column(if_fired, fired) * fired
            for if_idle, if_fired in self._scenarios.stands[:, compound].T
        )
        on = op.turn_all_on(on, reported) + op.silence(reported) * hushed
        return off + op.per_column(self._on_weight(compound), on) * op.turn_all_on(on, asked), rest

    def _close_back(self, visit: Visit, after: Floats, hushed: frozenset[int]) -> Floats:
        compound = visit.step.index
        standing, silent = self._standing(visit, after)
        sides = [
            op.per_column(if_off, after) * after
            + op.per_column(if_on, after) * standing
            + op.per_column(if_hushed, after) * silent
            for if_off, if_on, if_hushed in self._scenarios.stands[:, compound].transpose(1, 2, 0)
        ]
        axis = _axis(visit.open_before, ("compound", compound))
        return np.stack([*sides, silent] if compound in hushed else sides, axis=axis)

    def _standing(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of what follows if the compound stands, and if it stands and must be silent."""
        compound = visit.step.index
        axis = _axis(visit.open_before, ("compound", compound))
        reported, asked = self._words_given(compound, _less(visit.open_before, axis))
        on = op.per_column(self._on_weight(compound), after) * after
        on = op.turn_all_on_transposed(on, asked)
        return op.turn_all_on_transposed(on, reported), op.silence(reported) * on

    def _words_given(
        self, compound: int, open_nodes: tuple[Node, ...]
    ) -> tuple[list[op.Link], list[op.Link]]:
        """The compound's links into open words: into the reported ones, and into the others."""
        gives = self._structure.network.gives[compound]
        reported: list[op.Link] = []
        asked: list[op.Link] = []
        for axis, (kind, index) in enumerate(open_nodes, start=1):
            if kind == "word" and gives[index] > 0.0:
                links = reported if index in self._structure.reported else asked
                links.append((axis, float(gives[index])))
        return reported, asked

    def _on_weight(self, compound: int) -> Floats:
        """Weight of the compound being on: its own evidence, and the words that are absent."""
        weight = self._scenarios.present[:, compound]
        for word in self._structure.absent:
            silent = 1.0 - self._structure.network.gives[compound, word]
            weight = weight * np.where(self._scenarios.said[:, word, 1] == 0.0, silent, 1.0)
        return weight

    def _word_start(self, word: int) -> Floats:
        wrong = float(self._structure.network.wrong_word[word])
        return np.array([1.0 - wrong, wrong])

    def _said(self, word: int, axis: int, ndim: int) -> Floats:
        said = self._scenarios.said[:, word]
        shape = [said.shape[0]] + [1] * (ndim - 1)
        shape[axis] = 2
        return said.reshape(shape)

    def _rescaled(self, state: Floats) -> Floats:
        peak = _peak(state)
        self._log_scale = self._log_scale + np.log(peak.reshape(-1))
        return state / peak


def dot(left: Floats, right: Floats) -> Floats:
    """The sum over everything but the columns."""
    rows = left.shape[0]
    total: Floats = np.einsum("ck,ck->c", left.reshape(rows, -1), right.reshape(rows, -1))
    return total


def _summed(state: Floats) -> Floats:
    return np.add(state[..., 0], state[..., 1])  # quicker than a sum along an axis of two


def _peak(state: Floats) -> Floats:
    peak = state.reshape(state.shape[0], -1).max(axis=1)
    if not np.all(peak > 0.0) or not np.all(np.isfinite(peak)):
        raise ImpossibleEvidence("the notes contradict each other; check what was ruled out")
    return op.per_column(peak, state)


def _axis(open_nodes: tuple[Node, ...], node: Node) -> int:
    return open_nodes.index(node) + 1


def _less(open_nodes: tuple[Node, ...], axis: int) -> tuple[Node, ...]:
    return open_nodes[: axis - 1] + open_nodes[axis:]
