"""The exact solve: one sweep forward, one back, over all scenarios at once.

Forward, the state holds the weight of every setting of the open variables given what has been
swept over; backward, the weight of what is still to come. Their product at a step gives the
posterior of whatever the step is about.

Source: the noisy-OR of Pearl J. (1988) Probabilistic Reasoning in Intelligent Systems, sections
4.3.2 and 4.3.3 (from memory); the sweep is variable elimination along a path, written here.
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from diagnose.errors import FaultwortError
from diagnose.inference import operators as op
from diagnose.inference.lone import Sides
from diagnose.inference.network import Floats
from diagnose.inference.route import Stop, route
from diagnose.inference.scenarios import Structure
from diagnose.inference.steps import standing, step_back, step_forward
from diagnose.inference.weights import Weights

NONE: frozenset[int] = frozenset()


class ImpossibleEvidence(FaultwortError):
    """The evidence contradicts itself: no state of the beer explains all of it."""


class Visit(NamedTuple):
    """A stop on the way back, the state before it, and the weight of what comes after it.

    `acted` is the same weight if the stop's cause acts; None where the stop is not a cause's.
    """

    stop: Stop
    before: Floats
    after: Floats
    acted: Floats | None


class Sweep:
    """Passes over one structure."""

    def __init__(self, structure: Structure) -> None:
        self._network = structure.network
        self._stops = route(structure.network, structure.plan.steps, structure.reported)

    def forward(self, weights: Weights, kept: int) -> tuple[Floats, list[tuple[Stop, Floats]]]:
        """Run forward.

        Returns:
            The log of the evidence's probability for every column, and the stops with the
            state before each in the first columns `kept`.

        Raises:
            ImpossibleEvidence: some column has probability 0.
        """
        log_scale = weights.log_constant
        state = np.ones(weights.columns)
        visits = []
        for stop in self._stops:
            visits.append((stop, np.ascontiguousarray(state[..., :kept])))
            state = step_forward(self._network, weights, stop, state)
            if stop.step.kind in ("close", "close_word"):
                peak = _peak(state)
                log_scale = log_scale + np.log(peak)
                state /= peak
        return np.log(state) + log_scale, visits

    def backward(
        self,
        weights: Weights,
        visits: Sequence[tuple[Stop, Floats]],
        hushed: frozenset[int] = NONE,
    ) -> Iterator[Visit]:
        """Run back over the visits; yields each with the weight of what comes after it.

        The axes of the compounds `hushed` have the third place.
        """
        after = np.ones(weights.columns)
        for stop, before in reversed(visits):
            if stop.step.kind == "cause":
                acted = op.turn_on_transposed(after.copy(), stop.links)
                yield Visit(stop, before, after, acted)
                off, on = weights.causes[stop.step.index]
                after = after * off
                after += acted * on
                continue
            yield Visit(stop, before, after, None)
            after = step_back(self._network, weights, stop, after, hushed)
            if stop.step.kind in ("close", "close_word"):
                after /= _peak(after)


def cause_sides(weights: Weights, visit: Visit) -> tuple[Floats, Floats]:
    """Weight of the visit's cause being off and on; nothing hushed."""
    stop, before, after, acted = visit
    assert acted is not None  # a cause's visit
    off, on = weights.causes[stop.step.index]
    idle, acting = (op.dot(before, op.without_hushed(one)) for one in (after, acted))
    return off * idle, on * acting


def kept_quiet(visit: Visit, quiet: frozenset[int]) -> Floats:
    """Weight of the rest if the cause is on and speaks through none of the compounds `quiet`.

    It must make at least one of them; the weight of what comes after must have the third place
    for every one that it makes.
    """
    stop, before, after, _ = visit
    hushed = [link for link in stop.links if link[2] in quiet]
    speaking = [link for link in stop.links if link[2] not in quiet]
    whole = op.without_hushed(after, [axis for axis, _, _ in hushed])
    for axis, strength, _ in hushed:
        whole = op.hush_transposed(whole, axis, strength)
    return op.dot(before, op.turn_on_transposed(whole, speaking))


def lone_sides(visit: Visit) -> Sides:
    """What surrounds the lone causes of the visit.

    What comes after may have the third place; without one on their compound they stay unhushed.
    """
    stop, before, after, _ = visit
    places = op.along(before, stop.axis)
    idle, fired = places[:, op.IDLE], places[:, op.FIRED]
    following = op.along(op.without_hushed(after, [stop.axis]), stop.axis)
    to_idle, to_fired = following[:, op.IDLE], following[:, op.FIRED]
    hushed = np.zeros(before.shape[-1])
    if following.shape[1] > op.HUSHED:
        hushed = op.dot(idle + fired, following[:, op.HUSHED])
    return Sides(op.dot(idle, to_idle), op.dot(idle, to_fired), op.dot(fired, to_fired), hushed)


def compound_sides(weights: Weights, visit: Visit) -> tuple[Floats, Floats]:
    """Weight of the compound being off and on at the visit that closes it; nothing hushed."""
    stop, before, after = visit.stop, visit.before, op.without_hushed(visit.after)
    places = op.along(before, stop.axis)
    idle, fired = places[:, op.IDLE], places[:, op.FIRED]
    off, on, _ = weights.stands[stop.step.index].idle
    following = after.reshape(idle.shape)
    stands = standing(weights, stop, after).reshape(idle.shape)
    return off * op.dot(idle, following), on * op.dot(idle, stands) + op.dot(fired, stands)


def _peak(state: Floats) -> Floats:
    peak: Floats = state.reshape(-1, state.shape[-1]).max(axis=0)
    if not (peak.min() > 0.0 and peak.max() < np.inf):
        raise ImpossibleEvidence("the notes contradict each other; check what was ruled out")
    return peak
