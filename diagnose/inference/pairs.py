"""The chance that two causes together are behind every group of words, exactly.

Three ways lead there: one acted without the other, twice, and both acted. Two causes that have
both acted are one: their links are a noisy-OR of each other, so one cause that surely acted,
with the links of both, stands for them, and what it says of itself it says of the pair.

Source: derived here from the noisy-OR (Pearl 1988, section 4.3.2, from memory).
"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.network import Network
from diagnose.inference.posterior import solve

Pair = tuple[str, str]


def pair_covers(network: Network, evidence: Evidence, pairs: Sequence[Pair]) -> list[float]:
    """For each pair, the chance that in every group one or the other gave a reported word.

    Before the circumstances of the fault, as `in_every_group` of a single cause.

    Args:
        network: the network.
        evidence: what is known; its words set the groups.
        pairs: ids of two different causes each.
    """
    alone = [_without(evidence, cause) for pair in pairs for cause in reversed(pair)]
    solved = solve(network, [evidence, *alone])
    log_known = float(solved.log_evidence[0])
    covers = []
    for place, pair in enumerate(pairs):
        total = 0.0
        for row, (acts, idle) in enumerate((pair, pair[::-1]), start=1 + 2 * place):
            was_idle = 1.0 - float(network.base_rate[network.cause_index[idle]])
            if idle in evidence.impossible:
                was_idle = 1.0
            weight = was_idle * np.exp(solved.log_evidence[row] - log_known)
            total += float(weight * solved.in_every_group[row, network.cause_index[acts]])
        covers.append(min(total + _both(network, evidence, pair, log_known), 1.0))
    return covers


def _without(evidence: Evidence, cause: str) -> Evidence:
    return replace(evidence, impossible=evidence.impossible | {cause})


def _both(network: Network, evidence: Evidence, pair: Pair, log_known: float) -> float:
    """The chance that both acted and, as one, spoke in every group."""
    if evidence.impossible & set(pair):
        return 0.0
    first, second = (network.cause_index[cause] for cause in pair)
    strength, base_rate = network.strength.copy(), network.base_rate.copy()
    strength[first] = 1.0 - (1.0 - strength[first]) * (1.0 - strength[second])
    strength[second], base_rate[first], base_rate[second] = 0.0, 1.0, 0.0
    as_one = replace(network, strength=strength, base_rate=base_rate)
    pieces = tuple(_less(piece, pair) for piece in evidence.pieces)
    solved = solve(as_one, [replace(evidence, pieces=pieces)])
    decibans = sum(piece.happened.get(cause, 0.0) for piece in evidence.pieces for cause in pair)
    acted = network.base_rate[first] * network.base_rate[second] * 10.0 ** (decibans / 10.0)
    weight = acted * np.exp(solved.log_evidence[0] - log_known)
    return float(weight * solved.in_every_group[0, first])


def _less(piece: Piece, pair: Pair) -> Piece:
    """The piece without what it says of the two: their weight is set beside it."""
    if not piece.happened.keys() & set(pair):
        return piece
    return replace(piece, happened={k: v for k, v in piece.happened.items() if k not in pair})
