"""What multiplies a state at every step of the sweep, for a block of scenarios, columns last."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.inference.lone import Lone
from diagnose.inference.network import Floats, Network
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure

Pair = tuple[Floats, Floats]


@dataclass(frozen=True)
class Stands:
    """The chances that a compound is off, stands, or stands and must give no reported word.

    `idle` if no cause fired into it, `fired` if one did: three arrays (columns,) each, or three
    numbers; None for the last where nothing is hushed.
    """

    idle: tuple[Floats, Floats, Floats | None]
    fired: tuple[Floats, Floats, Floats | None]


@dataclass(frozen=True)
class Weights:
    """The weights of a block of scenarios, by index of cause, compound or word.

    Chances of a cause being off and on sum to 1; what they were scaled by is in `log_constant`.
    `spoken` is the weight of a compound standing: its own evidence and the words it failed to
    give. `said` are the likelihoods of a word not being there and being there.
    """

    log_constant: Floats
    causes: Mapping[int, Pair]
    lone: Mapping[Step, Lone]
    stands: Mapping[int, Stands]
    spoken: Mapping[int, Floats]
    said: Mapping[int, Pair]

    @property
    def columns(self) -> int:
        """How many scenarios there are."""
        return len(self.log_constant)


def weights_of(structure: Structure, scenarios: Scenarios) -> Weights:
    """The weights of scenarios over the structure."""
    steps = structure.plan.steps
    total = scenarios.off + scenarios.on
    off, on = scenarios.off / total, scenarios.on / total
    return Weights(
        # in logs from the start: many causes at long odds overflow a product
        log_constant=np.log(total).sum(axis=1) + _log_silent(structure, scenarios),
        causes={s.index: _column(s.index, off, on) for s in steps if s.kind == "cause"},
        lone={s: _lone(structure.network, s, (off, on)) for s in steps if s.kind == "lone"},
        stands={j: _stands(structure.network, j) for j in structure.compounds},
        spoken={j: _spoken(structure, scenarios, j) for j in structure.compounds},
        said={w: _column(w, *np.moveaxis(scenarios.said, -1, 0)) for w in structure.words},
    )


def _column(index: int, *pair: Floats) -> Pair:
    one, other = (np.ascontiguousarray(values[:, index]) for values in pair)
    return one, other


def _log_silent(structure: Structure, scenarios: Scenarios) -> Floats:
    """The log of the chance that no absent word was said by mistake."""
    silent = np.zeros(scenarios.columns)
    for word in structure.absent:
        clear = np.log1p(-structure.network.wrong_word[word])
        silent += np.where(scenarios.said[:, word, 1] == 0.0, clear, 0.0)
    return silent


def _lone(network: Network, step: Step, chances: Pair) -> Lone:
    causes = list(step.causes)
    off, on = (chance[:, causes] for chance in chances)
    return Lone(off, on, network.strength[causes, step.index])


def _stands(network: Network, compound: int) -> Stands:
    leak = 1.0 - (1.0 - network.expected[compound]) * (1.0 - network.unexplained[compound])
    return Stands(
        (np.array(1.0 - leak), np.array(leak), None), (np.array(0.0), np.array(1.0), None)
    )


def _spoken(structure: Structure, scenarios: Scenarios, compound: int) -> Floats:
    weight = scenarios.present[:, compound]
    for word in structure.absent:
        silent = 1.0 - structure.network.gives[compound, word]
        if silent < 1.0:
            weight = weight * np.where(scenarios.said[:, word, 1] == 0.0, silent, 1.0)
    return np.ascontiguousarray(weight)


def branched(structure: Structure, weights: Weights, groups: Sequence[frozenset[int]]) -> Weights:
    """For each group the branch in which nothing expected spoke through it, and then, for each,
    that in which no cause did so either; their columns one after another.
    """
    times = 2 * len(groups)

    def tiled(pair: Pair) -> Pair:
        return np.tile(pair[0], times), np.tile(pair[1], times)

    return Weights(
        log_constant=np.tile(weights.log_constant, times),
        causes={i: tiled(pair) for i, pair in weights.causes.items()},
        lone={step: lone.tiled(times) for step, lone in weights.lone.items()},
        stands={j: _branched(structure, weights, j, groups) for j in weights.stands},
        spoken={j: np.tile(weight, times) for j, weight in weights.spoken.items()},
        said={w: tiled(pair) for w, pair in weights.said.items()},
    )


def _branched(
    structure: Structure, weights: Weights, compound: int, groups: Sequence[frozenset[int]]
) -> Stands:
    """The compound's stands, silenced in the branches of the groups that it belongs to."""
    plain = weights.stands[compound]
    silenced = np.array([compound in group for group in groups])
    if not silenced.any():
        return plain
    expected = float(structure.network.expected[compound])
    unexplained = float(structure.network.unexplained[compound])
    left = 1.0 - expected

    def spread(here: tuple[float, float], elsewhere: Floats | float) -> Floats:
        """Given the branch of what is expected, and of no cause either, for every column."""
        halves = [np.where(silenced, of, elsewhere) for of in here]
        return np.repeat(np.concatenate(halves), weights.columns)

    off, on, _ = plain.idle
    return Stands(
        idle=(
            spread((left * (1.0 - unexplained),) * 2, off),
            spread((left * unexplained,) * 2, on),
            spread((expected, expected), 0.0),
        ),
        fired=(spread((0.0, 0.0), 0.0), spread((left, 0.0), 1.0), spread((expected, 1.0), 0.0)),
    )
