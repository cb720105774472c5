"""Brute force over every state of causes, links, leaks and givers: slow, and plainly right."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.evidence.pieces import Evidence
from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.network import Floats, Network

Truths = NDArray[np.bool_]
Pair = tuple[int, int]


@dataclass(frozen=True)
class Truth:
    """The answer by definition; shapes as in `Posterior`, for one set of evidence."""

    log_evidence: float
    happened: Floats
    responsible: Floats
    in_every_group: Floats
    expected_here: Floats
    not_in_rule_base: Floats
    present: Floats


class States:
    """Every state of the beer: one array of truths, over all states, for each thing in it.

    `caused` are the links from causes that fired, `gave` the links from compounds that stand
    into reported words, `speaks` the compounds that gave at least one.
    """

    def __init__(self, network: Network, reported: Iterable[str]) -> None:
        links = [(int(i), int(j)) for i, j in np.argwhere(network.strength > 0)]
        words = [network.descriptor_index[word] for word in reported]
        givers = [(int(j), d) for d in words for j in np.flatnonzero(network.gives[:, d])]
        n, m = network.strength.shape
        brought = [int(j) for j in np.flatnonzero(network.expected)]
        self.size = 2 ** (n + len(links) + len(brought) + m + len(givers))
        bits = self._bits()
        self.causes = [next(bits) for _ in range(n)]
        self.caused: dict[Pair, Truths] = {link: next(bits) for link in links}
        never = np.zeros(self.size, dtype=bool)
        self.expected = [next(bits) if j in brought else never for j in range(m)]
        self.unexplained = [next(bits) for _ in range(m)]
        self.compounds = [self._stands(j) for j in range(m)]
        self.gave: dict[Pair, Truths] = {giver: next(bits) for giver in givers}
        self.speaks = [
            self._any(gave for (k, _), gave in self.gave.items() if k == j) for j in range(m)
        ]

    def _bits(self) -> Iterator[Truths]:
        place, every = 0, np.arange(self.size)
        while True:
            yield ((every >> place) & 1).astype(bool)
            place += 1

    def _any(self, truths: Iterable[Truths]) -> Truths:
        found = np.zeros(self.size, dtype=bool)
        for one in truths:
            found |= one
        return found

    def _stands(self, compound: int) -> Truths:
        fired = self._any(fired for (_, j), fired in self.caused.items() if j == compound)
        return fired | self.expected[compound] | self.unexplained[compound]

    def spoke(self, cause: int, group: Iterable[int]) -> Truths:
        """Whether a link of the cause fired into a compound of the group that speaks."""
        return self._any(
            self.caused[cause, j] & self.speaks[j] for j in group if (cause, j) in self.caused
        )

    def brought(self, group: Iterable[int]) -> Truths:
        """Whether yeast or style brought a compound of the group that speaks."""
        return self._any(self.expected[j] & self.speaks[j] for j in group)


def enumerate_posterior(network: Network, evidence: Evidence) -> Truth:
    """Every probability as a share of the summed weights of all states."""
    states = States(network, evidence.reported)
    groups = [compounds_behind(network, g) for g in groups_of(network, evidence.reported)]
    weight = weights_of(network, evidence, states)
    share = weight / weight.sum()
    causes = range(len(network.causes))
    spoke = [[states.spoke(i, group) for i in causes] for group in groups]
    brought = [states.brought(group) for group in groups]
    known = [np.any([*by, leak], axis=0) for by, leak in zip(spoke, brought, strict=True)]
    return Truth(
        log_evidence=float(np.log(weight.sum())),
        happened=np.array([share @ one for one in states.causes]),
        responsible=np.array([[share @ one for one in by] for by in spoke]),
        in_every_group=np.array([share @ np.all([by[i] for by in spoke], axis=0) for i in causes]),
        expected_here=np.array([share @ leak for leak in brought]),
        not_in_rule_base=np.array([share @ ~one for one in known]),
        present=np.array([share @ one for one in states.compounds]),
    )


def weights_of(network: Network, evidence: Evidence, states: States) -> Floats:
    """The weight of every state: how likely it is, and how well it fits the evidence."""
    return _prior(network, evidence, states) * _likelihood(network, evidence, states)


def _prior(network: Network, evidence: Evidence, states: States) -> Floats:
    weight = np.ones(states.size)
    for name, acted, rate in zip(network.causes, states.causes, network.base_rate, strict=True):
        weight *= _chance(acted, 0.0 if name in evidence.impossible else rate)
    for (i, j), fired in states.caused.items():
        weight *= _chance(fired, network.strength[i, j] * states.causes[i])
    for j, (expected, unexplained) in enumerate(
        zip(states.expected, states.unexplained, strict=True)
    ):
        weight *= _chance(expected, network.expected[j])
        weight *= _chance(unexplained, network.unexplained[j])
    for (j, d), gave in states.gave.items():
        weight *= _chance(gave, network.gives[j, d] * states.compounds[j])
    return weight


def _chance(truth: Truths, probability: Floats | float) -> Floats:
    return np.asarray(np.where(truth, probability, 1.0 - probability))


def _likelihood(network: Network, evidence: Evidence, states: States) -> Floats:
    weight = np.ones(states.size)
    for name, ratio in _ratios(piece.happened for piece in evidence.pieces).items():
        weight *= np.where(states.causes[network.cause_index[name]], ratio, 1.0)
    for name, ratio in _ratios(piece.present for piece in evidence.pieces).items():
        weight *= np.where(states.compounds[network.compound_index[name]], ratio, 1.0)
    for word, (off, on) in _said(evidence).items():
        silent = _silent(network, states, network.descriptor_index[word])
        weight *= off * silent + on * (1.0 - silent)
    return weight


def _silent(network: Network, states: States, word: int) -> Floats:
    """The chance, in every state, that the word is not there."""
    silent = np.full(states.size, 1.0 - network.wrong_word[word])
    for j in np.flatnonzero(network.gives[:, word]):
        if (int(j), word) in states.gave:
            silent *= ~states.gave[int(j), word]
        else:
            silent *= np.where(states.compounds[j], 1.0 - network.gives[j, word], 1.0)
    return silent


def _said(evidence: Evidence) -> Mapping[str, tuple[float, float]]:
    said: dict[str, tuple[float, float]] = {}
    for piece in evidence.pieces:
        for word, (off, on) in piece.words.items():
            before_off, before_on = said.get(word, (1.0, 1.0))
            said[word] = (before_off * off, before_on * on)
    return said


def _ratios(said: Iterable[Mapping[str, float]]) -> Mapping[str, float]:
    decibans: dict[str, float] = {}
    for one in said:
        for name, value in one.items():
            decibans[name] = decibans.get(name, 0.0) + value
    return {name: 10.0 ** (value / 10.0) for name, value in decibans.items()}
