"""What each step of the sweep does to a state, and its transpose on the way back."""

import numpy as np

from diagnose.inference import operators as op
from diagnose.inference.network import Floats, Network
from diagnose.inference.route import Stop
from diagnose.inference.weights import Weights


def step_forward(network: Network, weights: Weights, stop: Stop, state: Floats) -> Floats:
    """The state after the step; the one before it is left as it was."""
    step, columns = stop.step, state.shape[-1]
    if step.kind == "cause":
        off, on = weights.causes[step.index]
        moved = state * off
        moved += op.turn_on(state * on, stop.links)
        return moved
    if step.kind == "lone":
        return op.turn_lone(state.copy(), stop.axis, weights.turned[step])
    if step.kind in ("open", "open_word"):
        opened = np.zeros((*state.shape[:-1], 2, columns))
        wrong = float(network.wrong_word[step.index]) if step.kind == "open_word" else 0.0
        opened[..., 0, :] = (1.0 - wrong) * state
        if wrong:
            opened[..., 1, :] = wrong * state
        return opened
    places = op.along(state, stop.axis)
    rest = (*state.shape[: stop.axis], *state.shape[stop.axis + 1 :])
    if step.kind == "close":
        return _close(weights, stop, places, rest)
    absent, there = weights.said[step.index]
    return (places[:, 0] * absent + places[:, 1] * there).reshape(rest)


def _close(weights: Weights, stop: Stop, places: Floats, rest: tuple[int, ...]) -> Floats:
    idle, fired = places[:, op.IDLE], places[:, op.FIRED]
    stands = weights.stands[stop.step.index]
    off, on, hushed = stands.idle
    fired_on, fired_hushed = stands.fired
    standing = op.turn_on((on * idle + fired_on * fired).reshape(rest), stop.links)
    if hushed is not None and fired_hushed is not None:
        standing += op.silence(stop.links) * (hushed * idle + fired_hushed * fired).reshape(rest)
    standing *= weights.spoken[stop.step.index]
    closed = op.turn_on(standing, stop.asked)
    closed += (off * idle).reshape(rest)
    return closed


def step_back(
    network: Network, weights: Weights, stop: Stop, after: Floats, hushed: frozenset[int]
) -> Floats:
    """The weight of what comes after the state before the stop, which is not a cause's.

    The axes of `hushed` have a third place.
    """
    step, columns = stop.step, after.shape[-1]
    if step.kind == "lone":
        return op.turn_lone_transposed(after.copy(), stop.axis, weights.turned[step])
    if step.kind == "open":
        return np.ascontiguousarray(after[..., op.IDLE, :])
    if step.kind == "open_word":
        wrong = float(network.wrong_word[step.index])
        opened: Floats = (1.0 - wrong) * after[..., 0, :] + wrong * after[..., 1, :]
        return opened
    if step.kind == "close":
        return _close_back(weights, stop, after, step.index in hushed)
    rest = after.reshape(*after.shape[: stop.axis], 1, *after.shape[stop.axis :])
    absent, there = weights.said[step.index]
    said = np.stack([absent, there]).reshape(2, *(1,) * (after.ndim - 1 - stop.axis), columns)
    spread: Floats = np.multiply(rest, said, order="C")
    return spread


def _close_back(weights: Weights, stop: Stop, after: Floats, three: bool) -> Floats:
    off, on, _ = weights.stands[stop.step.index].idle
    shape = (*after.shape[: stop.axis], 3 if three else 2, *after.shape[stop.axis :])
    closed = np.empty(shape)
    places = op.along(closed, stop.axis)
    asked = _asked(weights, stop, after)
    if three:
        places[:, op.HUSHED] = op.silence(stop.links) * asked.reshape(places[:, 0].shape)
    standing = op.turn_on_transposed(asked, stop.links).reshape(places[:, 0].shape)
    places[:, op.FIRED] = standing
    np.multiply(standing, on, out=places[:, op.IDLE])
    places[:, op.IDLE] += off * after.reshape(standing.shape)
    return closed


def standing(weights: Weights, stop: Stop, after: Floats) -> Floats:
    """Weight of what follows if the compound stands; nothing hushed."""
    return op.turn_on_transposed(_asked(weights, stop, after), stop.links)


def _asked(weights: Weights, stop: Stop, after: Floats) -> Floats:
    """The same, before it has given any of the reported words."""
    return op.turn_on_transposed(after * weights.spoken[stop.step.index], stop.asked)
