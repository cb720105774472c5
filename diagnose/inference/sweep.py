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
from diagnose.inference.network import Floats
from diagnose.inference.operators import Act, per_column, side, turn_on, turn_on_transposed
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure

Node = tuple[str, int]
NO_CUT: frozenset[int] = frozenset()


class ImpossibleEvidence(FaultwortError):
    """The evidence contradicts itself: no state of the beer explains all of it."""


@dataclass(frozen=True)
class Visit:
    """One step on the way: which variables were open before it and the state there."""

    step: Step
    open_before: tuple[Node, ...]
    state_before: Floats


class Sweep:
    """A solve of one structure for a block of scenarios.

    `cut` are compounds into which no link of a cause may fire: the solve then gives the
    branch in which none did, provided the scenarios carry the matching weights.
    """

    def __init__(
        self, structure: Structure, scenarios: Scenarios, cut: frozenset[int] = NO_CUT
    ) -> None:
        self._structure = structure
        self._scenarios = scenarios
        self._cut = cut
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
        if not np.all(state > 0.0):
            raise ImpossibleEvidence("the notes contradict each other; check what was ruled out")
        return np.log(state) + self._log_scale, visits

    def backward(self, visits: list[Visit]) -> Iterator[tuple[Visit, Floats]]:
        """Run back over the visits; yields each with the weight of what comes after it."""
        after = np.ones(self._scenarios.columns)
        for visit in reversed(visits):
            yield visit, after
            after = self._step_back(visit, after)
            after = after / _peak(after)

    def act(self, cause: int, open_nodes: tuple[Node, ...], cut: frozenset[int]) -> Act:
        """What `cause` does to a state with these open variables, its links into `cut` cut."""
        strength = self._structure.network.strength[cause]
        plain: list[tuple[int, float]] = []
        behind: list[tuple[int, float]] = []
        for axis, (kind, j) in enumerate(open_nodes, start=1):
            if kind != "compound" or strength[j] == 0.0 or j in cut:
                continue
            side_of = behind if j in self._structure.behind else plain
            side_of.append((axis, float(strength[j])))
        return Act(plain, behind, self._scenarios.fault[:, cause])

    def cause_branches(self, visit: Visit, after: Floats) -> tuple[Floats, Floats, Act]:
        """Weight of the cause being off and on at its visit, and what it does there."""
        cause = visit.step.index
        act = self.act(cause, visit.open_before, self._cut)
        off = self._scenarios.off[:, cause] * _dot(visit.state_before, after)
        on = self._scenarios.on[:, cause] * _dot(act.forward(visit.state_before), after)
        return off, on, act

    def compound_sides(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of the compound being off and on at the visit that closes it."""
        axis = _axis(visit.open_before, ("compound", visit.step.index))
        weighed = visit.state_before * self._close_back(visit, after)
        halves = weighed.sum(axis=tuple(a for a in range(1, weighed.ndim) if a != axis))
        return halves[:, 0], halves[:, 1]

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

    def _step(
        self, step: Step, state: Floats, open_nodes: tuple[Node, ...]
    ) -> tuple[Floats, tuple[Node, ...]]:
        if step.kind == "open":
            opened = state[..., None] * _spread(self._scenarios.leak[:, step.index], state)
            return opened, (*open_nodes, ("compound", step.index))
        if step.kind == "open_word":
            opened = state[..., None] * self._word_start(step.index)
            return opened, (*open_nodes, ("word", step.index))
        if step.kind == "cause":
            act = self.act(step.index, open_nodes, self._cut)
            off = per_column(self._scenarios.off[:, step.index], state) * state
            on = per_column(self._scenarios.on[:, step.index], state) * act.forward(state)
            return off + on, open_nodes
        if step.kind == "close":
            return self._close(step.index, state, open_nodes)
        axis = _axis(open_nodes, ("word", step.index))
        said = self._along(self._scenarios.said[:, step.index], axis, state.ndim)
        return (state * said).sum(axis=axis), _less(open_nodes, axis)

    def _step_back(self, visit: Visit, after: Floats) -> Floats:
        step, open_nodes = visit.step, visit.open_before
        if step.kind == "open":
            return _summed(after * _spread(self._scenarios.leak[:, step.index], after[..., 0]))
        if step.kind == "open_word":
            return _summed(after * self._word_start(step.index))
        if step.kind == "cause":
            act = self.act(step.index, open_nodes, self._cut)
            off = per_column(self._scenarios.off[:, step.index], after) * after
            return off + per_column(self._scenarios.on[:, step.index], after) * act.transposed(
                after
            )
        if step.kind == "close":
            return self._close_back(visit, after)
        axis = _axis(open_nodes, ("word", step.index))
        said = self._along(self._scenarios.said[:, step.index], axis, len(open_nodes) + 1)
        return np.expand_dims(after, axis) * said

    def _close(
        self, compound: int, state: Floats, open_nodes: tuple[Node, ...]
    ) -> tuple[Floats, tuple[Node, ...]]:
        axis = _axis(open_nodes, ("compound", compound))
        rest = _less(open_nodes, axis)
        on = state[side(axis, 1)]
        for word_axis, strength in self._words_given(compound, rest):
            on = turn_on(on, word_axis, strength)
        on = per_column(self._on_weight(compound), on) * on
        return state[side(axis, 0)] + on, rest

    def _close_back(self, visit: Visit, after: Floats) -> Floats:
        axis = _axis(visit.open_before, ("compound", visit.step.index))
        on = per_column(self._on_weight(visit.step.index), after) * after
        for word_axis, strength in self._words_given(
            visit.step.index, _less(visit.open_before, axis)
        ):
            on = turn_on_transposed(on, word_axis, strength)
        return np.stack([after, on], axis=axis)

    def _words_given(self, compound: int, open_nodes: tuple[Node, ...]) -> list[tuple[int, float]]:
        gives = self._structure.network.gives[compound]
        return [
            (axis, float(gives[index]))
            for axis, (kind, index) in enumerate(open_nodes, start=1)
            if kind == "word" and gives[index] > 0.0
        ]

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

    @staticmethod
    def _along(pairs: Floats, axis: int, ndim: int) -> Floats:
        shape = [pairs.shape[0]] + [1] * (ndim - 1)
        shape[axis] = 2
        return pairs.reshape(shape)

    def _rescaled(self, state: Floats) -> Floats:
        peak = _peak(state)
        self._log_scale = self._log_scale + np.log(peak.reshape(-1))
        return state / peak


def _summed(state: Floats) -> Floats:
    total: Floats = state.sum(axis=-1)
    return total


def _peak(state: Floats) -> Floats:
    peak = state.reshape(state.shape[0], -1).max(axis=1)
    if not np.all(peak > 0.0) or not np.all(np.isfinite(peak)):
        raise ImpossibleEvidence("the notes contradict each other; check what was ruled out")
    return per_column(peak, state)


def _spread(pairs: Floats, state: Floats) -> Floats:
    return pairs.reshape((pairs.shape[0],) + (1,) * (state.ndim - 1) + (2,))


def _axis(open_nodes: tuple[Node, ...], node: Node) -> int:
    return open_nodes.index(node) + 1


def _less(open_nodes: tuple[Node, ...], axis: int) -> tuple[Node, ...]:
    return open_nodes[: axis - 1] + open_nodes[axis:]


def _dot(left: Floats, right: Floats) -> Floats:
    rows = left.shape[0]
    total: Floats = np.einsum("ck,ck->c", left.reshape(rows, -1), right.reshape(rows, -1))
    return total
