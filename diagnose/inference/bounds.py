"""Between which bounds the ranking lies where an exact answer would cost too much.

What is set aside is replaced by straight lines above and below it, which weigh causes and
compounds one by one: two scenarios over what is left, one too heavy everywhere and one too light.
A chance then lies between its least weight over the most of everything else, and the reverse.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import reduce

import numpy as np

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.aside import Aside, is_denied, set_aside
from diagnose.inference.groups import compounds_behind
from diagnose.inference.lines import Line, costs_of, lines_around
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve_scenarios
from diagnose.inference.scenarios import (
    Scenarios,
    scenarios_of,
    speaking_only,
    structure_of,
)

HIGH, LOW = 0, 1


@dataclass(frozen=True)
class Bounded:
    """Two scenarios: every weight in the first is at least the true one, in the second at most.

    `posterior` has a column for each; its `log_evidence` is that of all evidence. Where nothing
    was set `aside` both are the exact answer.
    """

    posterior: Posterior
    aside: Aside

    @property
    def scale(self) -> tuple[float, float]:
        """What a chance weighs in either scenario, the heavier weighing 1."""
        return 1.0, float(np.exp(-_log_gap(self.posterior)))

    def chance(self, of: Floats) -> tuple[Floats, Floats]:
        """The lowest and the highest that a chance can be.

        Args:
            of: a chance by `posterior`, shape (2, …).
        """
        if not self.aside:
            return of[LOW], of[HIGH]
        slack = self.scale[LOW]
        # Of a chance that is nearly 1 the rest is not known to the last digit.
        most, rest_most = of[HIGH] + _ROUNDING, 1.0 - of[HIGH] + _ROUNDING
        return _share(slack * of[LOW], rest_most), _share(most, slack * (1.0 - of[LOW]))


_ROUNDING = 1e-13


def _share(of: Floats, rest: Floats) -> Floats:
    total = of + rest
    share: Floats = np.divide(of, total, out=np.zeros_like(total), where=total > 0.0)
    return share


def bounded(
    network: Network, evidence: Evidence, most_cells: int, speaking: frozenset[str] | None = None
) -> Bounded:
    """Solve for bounds; the groups are those of the reported words that are not set aside.

    Args:
        network: the network.
        evidence: what is known.
        most_cells: what a scenario may cost; what is dearer is set aside.
        speaking: words to be set aside last; where given, only they speak for a cause, and all
            others, said or not, are evidence.

    Raises:
        ImpossibleEvidence: the evidence contradicts itself.
    """
    aside = set_aside(network, evidence, most_cells, speaking or frozenset())
    rest, kept = _without(network, evidence, aside)
    structure = structure_of(rest, kept)
    if speaking is not None:
        speak = tuple(word for word in kept.reported if word in speaking)
        structure = speaking_only(structure, speak)
    scenarios = scenarios_of(rest, [kept, kept])
    if not aside:
        return Bounded(solve_scenarios(structure, scenarios), aside)
    guess = solve_scenarios(structure, scenarios.part(slice(0, 1)))
    tries = []
    for _ in range(_ROUNDS):
        added = _added(network, evidence, aside, _Expected(network, guess))
        guess = solve_scenarios(structure, _weighed(scenarios, added))
        constants = np.array([one.constant for one in added])
        tries.append(replace(guess, log_evidence=guess.log_evidence + constants))
    return Bounded(min(tries, key=_log_gap), aside)


# The lines are laid where they are needed: first by what is expected without what is set aside,
# then by what comes of the scenario too heavy.
_ROUNDS = 3


def _log_gap(posterior: Posterior) -> float:
    return float(posterior.log_evidence[HIGH] - posterior.log_evidence[LOW])


def _without(network: Network, evidence: Evidence, aside: Aside) -> tuple[Network, Evidence]:
    """The network whose denied words do not touch what is set aside, and the evidence less it.

    A compound that a word set aside weighs, and that is itself kept, is touched all the same.
    """
    gives = network.gives.copy()
    gives[sorted(aside.compounds)] = 0.0
    names = {network.compounds[j] for j in aside.compounds}
    pieces = [
        replace(
            piece,
            present={name: db for name, db in piece.present.items() if name not in names},
            words={word: pair for word, pair in piece.words.items() if word not in aside.words},
        )
        for piece in evidence.pieces
    ]
    touched = {network.compounds[j] for j in compounds_behind(network, aside.words)} - names
    pieces.append(Piece("aside", "aside", present=dict.fromkeys(sorted(touched), 0.0)))
    return replace(network, gives=gives), replace(evidence, pieces=tuple(pieces))


@dataclass(frozen=True)
class _Added:
    """What multiplies a scenario: a constant, as its log, and weights of causes and compounds."""

    constant: float
    on: Floats
    present: Floats


class _Expected:
    """How much t is to be expected of causes and compounds, to lay the lines there."""

    def __init__(self, network: Network, guess: Posterior) -> None:
        self.happened = guess.happened[0]
        failing = costs_of(network.strength).T @ self.happened
        quiet = (1.0 - network.expected) * (1.0 - network.unexplained) * np.exp(-failing)
        self.present = np.where(np.isnan(guess.present[0]), 1.0 - quiet, guess.present[0])


def _added(
    network: Network, evidence: Evidence, aside: Aside, expected: _Expected
) -> tuple[_Added, _Added]:
    """What all that is set aside adds to the scenario too heavy and to the one too light."""
    possible = np.array([name not in evidence.impossible for name in network.causes])
    sides = []
    for side in (HIGH, LOW):
        constant, present = 0.0, _present(network, evidence)
        weight = np.ones_like(present)
        for line, costs in _of_words(network, evidence, aside, (expected, side)):
            constant += line.start
            weight *= np.exp(line.slope * costs)
        on = np.ones(len(network.causes))
        for j in sorted(aside.compounds):
            costs = costs_of(network.strength[:, j])
            quiet = float((1.0 - network.expected[j]) * (1.0 - network.unexplained[j]))
            there = float(present[j] * weight[j]) * _denied(network, evidence, j)
            ends = float(costs[possible].sum()), float(costs @ expected.happened)
            line = lines_around(there, (1.0 - there) * quiet, *ends)[side]
            constant += line.start
            on *= np.exp(line.slope * costs)
        sides.append(_Added(constant, on, weight))
    return sides[0], sides[1]


def _of_words(
    network: Network, evidence: Evidence, aside: Aside, at: tuple[_Expected, int]
) -> Iterator[tuple[Line, Floats]]:
    """The line of each word set aside, and what each compound adds to its t."""
    expected, side = at
    for word in aside.words:
        index = network.descriptor_index[word]
        off, on = _said(evidence, word)
        costs = costs_of(network.gives[:, index])
        quiet = float(1.0 - network.wrong_word[index])
        # Of a word that was said something is there, however little of it was expected.
        ends = float(costs.sum()), max(float(costs @ expected.present), _SOME)
        yield lines_around(on, (off - on) * quiet, *ends)[side], costs


_SOME = 1.0


def _said(evidence: Evidence, word: str) -> tuple[float, float]:
    pairs = [piece.words[word] for piece in evidence.pieces if word in piece.words]
    return reduce(lambda one, other: (one[0] * other[0], one[1] * other[1]), pairs, (1.0, 1.0))


def _present(network: Network, evidence: Evidence) -> Floats:
    """What the evidence weighs every compound by, shape (m,)."""
    ratios: Floats = scenarios_of(network, [evidence]).present[0]
    return ratios


def _denied(network: Network, evidence: Evidence, compound: int) -> float:
    """The chance that a compound which stands gives none of the denied words."""
    words = [w for w in evidence.judged if is_denied(evidence, w)]
    given = network.gives[compound, [network.descriptor_index[word] for word in words]]
    return float(np.prod(1.0 - given))


def _weighed(scenarios: Scenarios, added: tuple[_Added, _Added]) -> Scenarios:
    on = np.stack([one.on for one in added])
    present = np.stack([one.present for one in added])
    return replace(scenarios, on=scenarios.on * on, present=scenarios.present * present)
