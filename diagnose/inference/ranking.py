"""The ranking: one story for each group of words, weighed by what is told of the fault.

The posterior says for every cause how likely it is to have spoken through the words. The
circumstances of a fault (when it was first noticed, in which bottles) are those of one story,
so they may not credit every cause that had a hand in it: each group has one main explanation,
a cause, what the beer brings by itself, or something unknown. Before the circumstances its
chances are as the responsibilities (what the beer is meant to have is complained of less
readily than a fault), scaled to sum to 1; Bayes' rule does the rest. Where the
words fall in several groups the circumstances tell of one of them, whichever they fit.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import Structure
from diagnose.inference.unnamed import UNNAMED_GROUP, unnamed_posterior


@dataclass(frozen=True)
class Ranking:
    """The ranking of every scenario (column c) over n causes and g groups.

    `shares` (c, g, n + 2) are the chances of every main explanation: each cause, expected
    here, not in the rule base; they sum to 1. `spoke` (c, g, n) is the chance that a cause had
    a hand in it at all, `in_every_group` (c, n) in all groups at once, before the
    circumstances. `happened` (c, n) and `present` (c, m) are of the beer, `log_evidence` (c,)
    of everything known.
    """

    structure: Structure
    log_evidence: Floats
    shares: Floats
    spoke: Floats
    in_every_group: Floats
    happened: Floats
    present: Floats

    @property
    def responsible(self) -> Floats:
        """Chance that a cause is the main explanation, shape (c, g, n)."""
        return self.shares[..., :-2]

    @property
    def expected_here(self) -> Floats:
        """Chance that yeast or style are, shape (c, g)."""
        return self.shares[..., -2]

    @property
    def not_in_rule_base(self) -> Floats:
        """Chance that something unknown is, shape (c, g)."""
        return self.shares[..., -1]


def rank(network: Network, evidences: Sequence[Evidence], asked: Sequence[str] = ()) -> Ranking:
    """Solve and rank several sets of evidence; arguments and errors as for `solve`.

    Sets that differ only in circumstances share one solve.
    """
    keys = [_solved_by(evidence) for evidence in evidences]
    distinct = list(dict.fromkeys(keys))
    firsts = [evidences[keys.index(key)] for key in distinct]
    posterior = solve(network, firsts, asked)
    rows = np.array([distinct.index(key) for key in keys])
    if evidences[0].unnamed:
        posterior = unnamed_posterior(posterior)
    return _ranked(posterior, rows, _told(network, evidences))


def _solved_by(evidence: Evidence) -> tuple[object, ...]:
    """What of the evidence the solve sees."""
    seen = [id(p) for p in evidence.pieces if p.happened or p.present or p.words]
    return (evidence.impossible, tuple(seen))


def _told(network: Network, evidences: Sequence[Evidence]) -> Floats:
    """The likelihood ratio of the circumstances for every scenario and main explanation.

    Shape (c, n + 2): the causes, expected here, and not in the rule base, of which they tell
    nothing.
    """
    decibans = np.zeros((len(evidences), len(network.causes) + 2))
    for row, evidence in enumerate(evidences):
        for piece in evidence.pieces:
            decibans[row, -2] += piece.expected
            for name, weight in piece.responsible.items():
                decibans[row, network.cause_index[name]] += weight
    ratios: Floats = 10.0 ** (decibans / 10.0)
    return ratios


def _ranked(posterior: Posterior, rows: Floats, told: Floats) -> Ranking:
    spoke = posterior.responsible[rows]
    expected = _expected_said(posterior.structure) * posterior.expected_here[rows]
    outcomes = np.concatenate(
        [spoke, expected[:, :, None], posterior.not_in_rule_base[rows, :, None]], axis=2
    )
    before = outcomes / outcomes.sum(axis=2, keepdims=True)
    after = before * told[:, None, :]
    fit = after.sum(axis=2, keepdims=True)
    told_of = fit / fit.sum(axis=1, keepdims=True)
    shares = told_of * after / fit + (1.0 - told_of) * before
    log_fit = np.log(fit[:, :, 0].mean(axis=1)) if fit.shape[1] else np.zeros(len(told))
    return Ranking(
        structure=posterior.structure,
        log_evidence=posterior.log_evidence[rows] + log_fit,
        shares=shares,
        spoke=spoke,
        in_every_group=posterior.in_every_group[rows],
        happened=_happened(posterior.happened[rows], before[..., :-2], shares[..., :-2]),
        present=posterior.present[rows],
    )


def _expected_said(structure: Structure) -> Floats:
    """How readily each group's words are said of what the beer is meant to have, shape (g,)."""
    network = structure.network
    readily = [
        min(network.expected_said[network.descriptor_index[word]] for word in words)
        for words in structure.groups
        if words != UNNAMED_GROUP
    ]
    return np.array(readily or [1.0] * len(structure.groups))


def _happened(happened: Floats, before: Floats, after: Floats) -> Floats:
    """Chance that each cause acted, once the circumstances have moved the main explanations.

    A cause that is the main explanation acted; for the others the chance that it acted beside
    one stays as it was. Where there are several groups, the one that tells most counts.
    """
    if before.shape[1] == 0:
        return happened
    beside = (happened[:, None, :] - before) / np.maximum(1.0 - before, 1e-300)
    moved = after + (1.0 - after) * np.clip(beside, 0.0, 1.0)
    loudest = np.argmax(np.abs(after - before), axis=1)
    picked = np.take_along_axis(moved, loudest[:, None, :], axis=1)[:, 0, :]
    at_least: Floats = np.maximum(picked, after.max(axis=1))
    return at_least


def entropy_bits(shares: Floats) -> Floats:
    """Shannon entropy along the last axis, in bits."""
    safe = np.where(shares > 0.0, shares, 1.0)
    entropy: Floats = -(shares * np.log2(safe)).sum(axis=-1)
    return entropy
