"""Further answers as mixtures of scenarios over the structure that is there already.

Everything asked of a posterior is linear in the weight of the evidence, so what an answer leads
to is a weighted sum of scenarios in which only the weights of causes, touched compounds and
words differ. A compound outside the structure that stands with ratio r weighs r, and 1 - r
more where it is absent; its absence multiplies the weights of the causes that make it.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from diagnose.inference.bundles import Bundle
from diagnose.inference.network import Floats
from diagnose.inference.posterior import Posterior, solve_scenarios
from diagnose.inference.scenarios import Scenarios, Structure

Bools = NDArray[np.bool_]
NONE: frozenset[int] = frozenset()
_LEAST = 1e-300
Ratios = tuple[tuple[int, float], ...]
Key = tuple[Ratios, Ratios, tuple[tuple[int, tuple[float, float]], ...], frozenset[int]]


@dataclass(frozen=True)
class Mixed:
    """What a ranking needs of the posteriors, for what is known and then for every answer.

    Shapes as in `Posterior`, with one row for each; `happened` only where it was wanted.
    """

    log_evidence: Floats
    happened: Floats
    responsible: Floats
    expected_here: Floats
    not_in_rule_base: Floats


class Mixer:
    """Mixtures over one structure, with the scenarios they share."""

    def __init__(self, structure: Structure, known: Scenarios, *, every_cause: bool) -> None:
        """Begin with what is known alone.

        Args:
            structure: the structure of what is known.
            known: its scenario, one column.
            every_cause: whether causes count that make no touched compound.
        """
        self.structure = structure
        self._known = known
        strength = structure.network.strength
        touched = list(structure.compounds)
        self._made: Bools = strength > 0.0
        self._acts: Bools = np.any(self._made[:, touched], axis=1) | every_cause
        self._makers_act: Bools = np.any(self._made[self._acts], axis=0)
        self._touched = frozenset(touched)
        self._places: dict[Key, int] = {}
        self._mixtures: list[list[tuple[int, float]]] = []
        self.add([Bundle()])

    def widens_by(self, bundle: Bundle) -> int:
        """How many compounds outside the structure the bundle brings that tell of its causes."""
        return sum(bool(self._makers_act[j]) for j in self._outside(bundle))

    def add(self, bundles: Sequence[Bundle]) -> None:
        """Take in an answer, as a sum of bundles."""
        mixture: dict[int, float] = {}
        for bundle in bundles:
            for key, weight in self._terms(bundle):
                place = self._places.setdefault(key, len(self._places))
                mixture[place] = mixture.get(place, 0.0) + weight
        self._mixtures.append(list(mixture.items()))

    def _outside(self, bundle: Bundle) -> list[int]:
        return [j for j in bundle.present if j not in self._touched]

    def _terms(self, bundle: Bundle) -> list[tuple[Key, float]]:
        """The bundle as scenarios with their weights."""
        on = tuple((i, ratio) for i, ratio in sorted(bundle.on.items()) if self._acts[i])
        present = tuple((j, r) for j, r in sorted(bundle.present.items()) if j in self._touched)
        said = tuple(sorted(bundle.said.items()))
        idle = {i: ratio for i, ratio in bundle.on.items() if not self._acts[i]}
        weights = {NONE: bundle.factor}
        for together in self._hanging_together(self._outside(bundle)):
            some = self._weights(bundle, together)
            idle = {i: r for i, r in idle.items() if not self._made[i, list(together)].any()}
            weights = {one | two: w * v for one, w in weights.items() for two, v in some.items()}
        moved = math.prod(self._moved(i, ratio) for i, ratio in idle.items())
        return [((on, present, said, absent), w * moved) for absent, w in weights.items()]

    def _hanging_together(self, outside: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """Compounds that share a cause which does not act, set by set; those that tell first."""
        left = set(outside)
        while left:
            together, fresh = set[int](), {min(left)}
            while fresh:
                together |= fresh
                makers = self._made[:, sorted(fresh)].any(axis=1) & ~self._acts
                fresh = {j for j in left - together if self._made[makers, j].any()}
            left -= together
            yield tuple(sorted(together, key=lambda j: (not self._makers_act[j], j)))

    def _weights(self, bundle: Bundle, outside: tuple[int, ...]) -> Mapping[frozenset[int], float]:
        """The weight of every set of absent compounds that tell, less what the acting causes make
        of it.
        """
        network = self.structure.network
        telling = [j for j in outside if self._makers_act[j]]
        absent = np.array(list(product((False, True), repeat=len(outside))))
        ratios = np.array([bundle.present[j] for j in outside])
        columns = list(outside)
        idle = (1.0 - network.expected[columns]) * (1.0 - network.unexplained[columns])
        weights = np.where(absent, (1.0 - ratios) * idle, ratios).prod(axis=1)
        makers = np.flatnonzero(self._made[:, columns].any(axis=1) & ~self._acts)
        off, on = self._known.off[0, makers], self._known.on[0, makers]
        ratio = np.array([bundle.on.get(int(i), 1.0) for i in makers])
        fails = np.maximum(1.0 - network.strength[makers][:, columns], _LEAST)
        quiet = np.exp(absent @ np.log(fails).T)
        weights *= ((off + on * ratio * quiet) / (off + on)).prod(axis=1)
        summed = weights.reshape(2 ** len(telling), -1).sum(axis=1)
        return dict(zip(_subsets(telling), summed.tolist(), strict=True))

    def _moved(self, cause: int, ratio: float) -> float:
        off, on = float(self._known.off[0, cause]), float(self._known.on[0, cause])
        return (off + on * ratio) / (off + on)

    def solve(self) -> Mixed:
        """Posteriors of what is known, and of it with each of the answers in turn."""
        posterior = solve_scenarios(self.structure, self._scenarios(), briefly=True)
        mixing = np.zeros((len(self._mixtures), len(self._places)))
        for row, mixture in enumerate(self._mixtures):
            for place, weight in mixture:
                mixing[row, place] = weight
        return _mixed(posterior, mixing)

    def _scenarios(self) -> Scenarios:
        count = len(self._places)
        spread = {
            name: np.repeat(getattr(self._known, name), count, axis=0)
            for name in ("off", "on", "present", "said")
        }
        for column, (on, present, said, absent) in enumerate(self._places):
            for cause, ratio in on:
                spread["on"][column, cause] *= ratio
            for compound, ratio in present:
                spread["present"][column, compound] *= ratio
            for word, likelihoods in said:
                spread["said"][column, word] *= likelihoods
            for compound in absent:
                fails = 1.0 - self.structure.network.strength[self._acts, compound]
                spread["on"][column, self._acts] *= fails
        return Scenarios(**spread)


def _subsets(some: Sequence[int]) -> Iterator[frozenset[int]]:
    """All subsets, in the order of binary numbers whose first digit is the first member."""
    for chosen in product((False, True), repeat=len(some)):
        yield frozenset(one for one, taken in zip(some, chosen, strict=True) if taken)


def _mixed(posterior: Posterior, mixing: Floats) -> Mixed:
    """Mix the columns; the first row of `mixing` is the first column, what is known."""
    log_known = posterior.log_evidence[0]
    weights = mixing * np.exp(posterior.log_evidence - log_known)
    total = weights.sum(axis=1)

    def mean(of: Floats) -> Floats:
        averaged: Floats = np.tensordot(weights / total[:, None], of, axes=1)
        return np.maximum(averaged, 0.0)

    return Mixed(
        log_evidence=log_known + np.log(total),
        happened=mean(posterior.happened),
        responsible=mean(posterior.responsible),
        expected_here=mean(posterior.expected_here),
        not_in_rule_base=mean(posterior.not_in_rule_base),
    )
