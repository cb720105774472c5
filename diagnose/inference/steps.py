"""What each step of the sweep does to a state, and its transpose on the way back."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from diagnose.inference import operators as op
from diagnose.inference.lone import Lone
from diagnose.inference.network import Floats
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure

Node = tuple[str, int]


@dataclass(frozen=True)
class Visit:
    """One step on the way: which variables were open before it and the state there."""

    step: Step
    open_before: tuple[Node, ...]
    state_before: Floats


class Steps:
    """The steps of one structure for a block of scenarios."""

    def __init__(self, structure: Structure, scenarios: Scenarios) -> None:
        self._structure = structure
        self._scenarios = scenarios

    def _lone(self, step: Step) -> Lone:
        causes = list(step.causes)
        off, on = self._scenarios.off[:, causes], self._scenarios.on[:, causes]
        strength = self._structure.network.strength[causes, step.index]
        return Lone(off / (off + on), on / (off + on), strength)

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
        if step.kind == "lone":
            lone, axis = self._lone(step), axis_of(open_nodes, ("compound", step.index))
            return op.turn_lone(state, axis, lone.idle, lone.fired), open_nodes
        if step.kind == "close":
            return self._close(step.index, state, open_nodes)
        axis = axis_of(open_nodes, ("word", step.index))
        return (state * self._said(step.index, axis, state.ndim)).sum(axis=axis), _less(
            open_nodes, axis
        )

    def _step_back(self, visit: Visit, after: Floats, hushed: frozenset[int]) -> Floats:
        step, open_nodes = visit.step, visit.open_before
        if step.kind == "open":
            return after[..., op.IDLE]
        if step.kind == "open_word":
            return op.summed(after * self._word_start(step.index))
        if step.kind == "cause":
            links = [link[:2] for link in self._links(step.index, open_nodes)]
            off = op.per_column(self._scenarios.off[:, step.index], after) * after
            acted = op.turn_all_on_transposed(after, links)
            return off + op.per_column(self._scenarios.on[:, step.index], after) * acted
        if step.kind == "lone":
            lone, axis = self._lone(step), axis_of(open_nodes, ("compound", step.index))
            return op.turn_lone_transposed(after, axis, lone.idle, lone.fired)
        if step.kind == "close":
            return self._close_back(visit, after, hushed)
        axis = axis_of(open_nodes, ("word", step.index))
        return np.expand_dims(after, axis) * self._said(step.index, axis, len(open_nodes) + 1)

    def _close(
        self, compound: int, state: Floats, open_nodes: tuple[Node, ...]
    ) -> tuple[Floats, tuple[Node, ...]]:
        axis = axis_of(open_nodes, ("compound", compound))
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
        axis = axis_of(visit.open_before, ("compound", compound))
        return np.stack([*sides, silent] if compound in hushed else sides, axis=axis)

    def _standing(self, visit: Visit, after: Floats) -> tuple[Floats, Floats]:
        """Weight of what follows if the compound stands, and if it stands and must be silent."""
        compound = visit.step.index
        axis = axis_of(visit.open_before, ("compound", compound))
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


def axis_of(open_nodes: tuple[Node, ...], node: Node) -> int:
    """The axis of an open variable; axis 0 are the columns."""
    return open_nodes.index(node) + 1


def _less(open_nodes: tuple[Node, ...], axis: int) -> tuple[Node, ...]:
    return open_nodes[: axis - 1] + open_nodes[axis:]
