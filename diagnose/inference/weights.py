"""What multiplies a state at every step of the sweep, for a block of scenarios, columns last."""

from collections.abc import Mapping
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

    `idle` if no cause fired into it; `fired` if one did, when it is never off. Arrays (columns,)
    or numbers; the last of each is None where nothing is hushed.
    """

    idle: tuple[Floats, Floats, Floats | None]
    fired: tuple[Floats, Floats | None]


@dataclass(frozen=True)
class Weights:
    """The weights of a block of scenarios, by index of cause, compound or word.

    Chances of a cause being off and on sum to 1; what they were scaled by is in `log_constant`.
    `turned` are the chances that no lone cause of a step fires and that one does.
    `spoken` is the weight of a compound standing: its own evidence and the words it failed to
    give. `said` are the likelihoods of a word not being there and being there.
    """

    log_constant: Floats
    causes: Mapping[int, Pair]
    lone: Mapping[Step, Lone]
    turned: Mapping[Step, Pair]
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
    lone = {s: _lone(structure.network, s, (off, on)) for s in steps if s.kind == "lone"}
    return Weights(
        # in logs from the start: many causes at long odds overflow a product
        log_constant=np.log(total).sum(axis=1) + _log_silent(structure, scenarios),
        causes={s.index: _column(s.index, off, on) for s in steps if s.kind == "cause"},
        lone=lone,
        turned={step: some.chances for step, some in lone.items()},
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
    leak = _leak(network.expected[compound], network.unexplained[compound])
    return Stands((np.array(1.0 - leak), np.array(leak), None), (np.array(1.0), None))


def _leak(expected: Floats, unexplained: Floats) -> Floats:
    """The chance that a compound stands without any cause."""
    return 1.0 - (1.0 - expected) * (1.0 - unexplained)


def _spoken(structure: Structure, scenarios: Scenarios, compound: int) -> Floats:
    weight = scenarios.present[:, compound]
    for word in structure.absent:
        silent = 1.0 - structure.network.gives[compound, word]
        if silent < 1.0:
            weight = weight * np.where(scenarios.said[:, word, 1] == 0.0, silent, 1.0)
    return np.ascontiguousarray(weight)


def branched(structure: Structure, weights: Weights) -> Weights:
    """The columns as they are, then for each group of words the branch in which nothing expected
    spoke through it, and then, for each, that in which no cause did so either.
    """
    times = 1 + 2 * len(structure.groups)

    def tiled(values: Floats) -> Floats:
        return np.concatenate((values,) * times)

    def both(pair: Pair) -> Pair:
        return tiled(pair[0]), tiled(pair[1])

    return Weights(
        log_constant=tiled(weights.log_constant),
        causes={i: both(pair) for i, pair in weights.causes.items()},
        lone={},
        turned={step: both(pair) for step, pair in weights.turned.items()},
        stands=dict(weights.stands) | _silenced(structure, weights.columns),
        spoken={j: tiled(weight) for j, weight in weights.spoken.items()},
        said={w: both(pair) for w, pair in weights.said.items()},
    )


def _silenced(structure: Structure, columns: int) -> dict[int, Stands]:
    """The stands of the compounds behind reported words, silenced in the branches of a group."""
    network, groups, behind = structure.network, structure.group_compounds, sorted(structure.behind)
    if not behind:
        return {}
    mine = np.array([[j in group for group in groups] for j in behind])
    silent = np.hstack(
        [np.zeros((len(behind), columns), bool), *(np.repeat(mine, columns, 1),) * 2]
    )
    causeless = np.arange(silent.shape[1]) >= columns * (1 + len(groups))
    expected, unexplained = (
        leak[behind][:, None] for leak in (network.expected, network.unexplained)
    )
    left = 1.0 - expected
    off, on = left * (1.0 - unexplained), _leak(expected, unexplained)
    ons, quiet, fired, fired_quiet = (
        np.where(silent, here, elsewhere)
        for elsewhere, here in (
            (on, left * unexplained),
            (0.0, expected),
            (1.0, np.where(causeless, 0.0, left)),
            (0.0, np.where(causeless, 1.0, expected)),
        )
    )
    return {
        j: Stands((off[k], ons[k], quiet[k]), (fired[k], fired_quiet[k]))
        for k, j in enumerate(behind)
    }
