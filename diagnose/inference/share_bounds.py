"""Bounds on the ranking: between which chances each main explanation lies."""

from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.bounds import HIGH, LOW, Bounded, bounded
from diagnose.inference.network import Floats, Network
from diagnose.inference.ranking import readily_said, told_of


@dataclass(frozen=True)
class ShareBounds:
    """The lowest and the highest that each share can be, (g, n + 2) as in `Ranking`.

    Where `exact`, both are the share itself.
    """

    groups: tuple[tuple[str, ...], ...]
    low: Floats
    high: Floats
    exact: bool


def share_bounds(
    network: Network, evidence: Evidence, most_cells: int, speaking: frozenset[str] | None = None
) -> ShareBounds:
    """Bounds on the main explanations of the words in `speaking`, given all of the evidence.

    Args:
        network: the network.
        evidence: what is known; some word is reported.
        most_cells: as for `bounded`.
        speaking: as for `bounded`.

    Raises:
        ImpossibleEvidence: the evidence contradicts itself.
    """
    found = bounded(network, evidence, most_cells, speaking)
    most, least = _weights(found)
    told = told_of(network, [evidence.pieces])[0]
    before = _shares(least, most)
    after = _shares(least * told, most * told)
    fit_low = (before[LOW] * told).sum(axis=1)
    fit_high = np.minimum((before[HIGH] * told).sum(axis=1), told.max())
    fit_high = np.maximum(fit_high, fit_low)
    first = _shares(fit_low[None], fit_high[None])
    low = _mixed(first, after[LOW], before[LOW]).min(axis=0)
    high = _mixed(first, after[HIGH], before[HIGH]).max(axis=0)
    return ShareBounds(found.posterior.structure.groups, low, high, not found.aside)


def _weights(found: Bounded) -> tuple[Floats, Floats]:
    """The most and the least that every main explanation weighs, (g, n + 2) each."""
    posterior, (most, least) = found.posterior, found.scale
    expected = readily_said(posterior.structure) * posterior.expected_here
    unknown = posterior.not_in_rule_base
    every = np.concatenate(
        [posterior.responsible, expected[:, :, None], unknown[:, :, None]], axis=2
    )
    return most * every[HIGH], least * every[LOW]


def _shares(least: Floats, most: Floats) -> tuple[Floats, Floats]:
    """Bounds on each as a share of its row, (HIGH, LOW), from bounds on the weights."""
    other_most = most.sum(axis=1, keepdims=True) - most
    other_least = least.sum(axis=1, keepdims=True) - least
    return most / (most + np.maximum(other_least, 0.0)), least / (least + other_most)


def _mixed(first: tuple[Floats, Floats], after: Floats, before: Floats) -> Floats:
    """With the circumstances telling of each group as much, and as little, as they may."""
    told = np.stack([share[0][:, None] for share in first])
    return told * after + (1.0 - told) * before
