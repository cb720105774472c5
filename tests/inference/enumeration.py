"""Brute force over every state of causes, links, leaks and compounds: slow, and plainly right."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.evidence.pieces import Evidence
from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.network import Floats, Network

Truths = NDArray[np.bool_]


@dataclass(frozen=True)
class Truth:
    """The answer by definition; shapes as in `Posterior`, for one set of evidence."""

    log_evidence: float
    happened: Floats
    responsible: Floats
    expected_here: Floats
    not_in_rule_base: Floats
    present: Floats


@dataclass(frozen=True)
class States:
    """Every state: which causes acted, which links and leaks fired, which compounds stand."""

    causes: Truths
    links: Truths
    expected: Truths
    unexplained: Truths
    compounds: Truths


def enumerate_posterior(network: Network, evidence: Evidence) -> Truth:
    """Every probability as a share of the summed weights of all states."""
    links = [(int(i), int(j)) for i, j in np.argwhere(network.strength > 0)]
    states = _states(network, links)
    groups = [set(compounds_behind(network, g)) for g in groups_of(network, evidence.reported)]
    weight = _prior(network, evidence, states, links)
    weight *= _likelihood(network, evidence, states)
    behind = set().union(*groups)
    for name, ratio in _ratios(piece.responsible for piece in evidence.pieces).items():
        fired = _fired(states, links, network.cause_index[name], behind)
        weight *= np.where(fired, ratio, 1.0)
    share = weight / weight.sum()
    causes = range(len(network.causes))
    fired = [[_fired(states, links, i, group) for i in causes] for group in groups]
    brought = [states.expected[:, sorted(group)].any(axis=1) for group in groups]
    known = [np.any([*by, leak], axis=0) for by, leak in zip(fired, brought, strict=True)]
    return Truth(
        log_evidence=float(np.log(weight.sum())),
        happened=share @ states.causes,
        responsible=np.array([[share @ one for one in by] for by in fired]),
        expected_here=np.array([share @ leak for leak in brought]),
        not_in_rule_base=np.array([share @ ~one for one in known]),
        present=share @ states.compounds,
    )


def _states(network: Network, links: list[tuple[int, int]]) -> States:
    n, m = network.strength.shape
    bits = n + len(links) + 2 * m
    every = ((np.arange(2**bits)[:, None] >> np.arange(bits)) & 1).astype(bool)
    causes, fired, expected, unexplained = np.split(
        every, [n, n + len(links), n + len(links) + m], axis=1
    )
    compounds = expected | unexplained
    for column, (_, j) in enumerate(links):
        compounds[:, j] |= fired[:, column]
    return States(causes, fired, expected, unexplained, compounds)


def _prior(
    network: Network, evidence: Evidence, states: States, links: list[tuple[int, int]]
) -> Floats:
    possible = np.array([name not in evidence.impossible for name in network.causes])
    rate = network.base_rate * possible
    weight = np.where(states.causes, rate, 1.0 - rate).prod(axis=1)
    strength = np.array([network.strength[i, j] for i, j in links])
    chance = strength * states.causes[:, [i for i, _ in links]]
    weight *= np.where(states.links, chance, 1.0 - chance).prod(axis=1)
    weight *= np.where(states.expected, network.expected, 1.0 - network.expected).prod(axis=1)
    leak = np.where(states.unexplained, network.unexplained, 1.0 - network.unexplained)
    return np.asarray(weight * leak.prod(axis=1))


def _likelihood(network: Network, evidence: Evidence, states: States) -> Floats:
    weight = np.ones(len(states.causes))
    for name, ratio in _ratios(piece.happened for piece in evidence.pieces).items():
        weight *= np.where(states.causes[:, network.cause_index[name]], ratio, 1.0)
    for name, ratio in _ratios(piece.present for piece in evidence.pieces).items():
        weight *= np.where(states.compounds[:, network.compound_index[name]], ratio, 1.0)
    for word, (off, on) in _said(evidence).items():
        d = network.descriptor_index[word]
        silent = np.where(states.compounds, 1.0 - network.gives[:, d], 1.0).prod(axis=1)
        silent *= 1.0 - network.wrong_word[d]
        weight *= off * silent + on * (1.0 - silent)
    return weight


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


def _fired(states: States, links: list[tuple[int, int]], cause: int, compounds: set[int]) -> Truths:
    columns = [k for k, (i, j) in enumerate(links) if i == cause and j in compounds]
    return np.asarray(states.links[:, columns].any(axis=1))
