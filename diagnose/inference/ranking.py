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

from diagnose.evidence.pieces import Evidence, Piece
from diagnose.inference.held import held_by
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import Structure
from diagnose.inference.unnamed import UNNAMED_GROUP, unnamed_group, unnamed_outcomes


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
    told = told_of(network, [evidence.pieces for evidence in evidences])
    return _ranked(posterior, rows, told, unnamed=evidences[0].unnamed)


def _solved_by(evidence: Evidence) -> tuple[object, ...]:
    """What of the evidence the solve sees."""
    seen = [id(p) for p in evidence.pieces if p.happened or p.present or p.words]
    return (evidence.impossible, tuple(seen))


def told_of(network: Network, pieces: Sequence[Sequence[Piece]]) -> Floats:
    """The likelihood ratio of the circumstances for every set of pieces and main explanation.

    Shape (c, n + 2): the causes, expected here, and not in the rule base, of which they tell
    nothing.
    """
    held = held_by(pieces)
    decibans = np.zeros((len(pieces), len(network.causes) + 2))
    decibans[:, :-2] = held.added([one.responsible for one in held.pieces], network.cause_index)
    decibans[:, -2] = held.times @ np.array([one.expected for one in held.pieces])
    ratios: Floats = 10.0 ** (decibans / 10.0)
    return ratios


@dataclass(frozen=True)
class Stories:
    """The chances of every main explanation, before and after the circumstances.

    `before` and `shares` (c, g, n + 2); `log_fit` (c,) is how well the circumstances fit.
    """

    before: Floats
    shares: Floats
    log_fit: Floats


def stories_told(
    structure: Structure, outcomes: tuple[Floats, Floats, Floats], told: Floats
) -> Stories:
    """Weigh the main explanations by the circumstances.

    Args:
        structure: whose groups they explain.
        outcomes: `responsible` (c, g, n), `expected_here` and `not_in_rule_base` (c, g), as in
            `Posterior`.
        told: (c, n + 2), as from `told_of`.
    """
    spoke, expected_here, unknown = outcomes
    expected = readily_said(structure) * expected_here
    every = np.concatenate([spoke, expected[:, :, None], unknown[:, :, None]], axis=2)
    before = every / every.sum(axis=2, keepdims=True)
    after = before * told[:, None, :]
    fit = after.sum(axis=2, keepdims=True)
    told_of_it = fit / fit.sum(axis=1, keepdims=True)
    shares = told_of_it * after / fit + (1.0 - told_of_it) * before
    log_fit = np.log(fit[:, :, 0].mean(axis=1)) if fit.shape[1] else np.zeros(len(told))
    return Stories(before, shares, log_fit)


def _ranked(posterior: Posterior, rows: Floats, told: Floats, *, unnamed: bool) -> Ranking:
    structure, happened = posterior.structure, posterior.happened[rows]
    outcomes = tuple(
        of[rows]
        for of in (posterior.responsible, posterior.expected_here, posterior.not_in_rule_base)
    )
    if unnamed:
        structure = unnamed_group(structure)
        outcomes = unnamed_outcomes(structure.network, happened)
    spoke, expected, unknown = outcomes
    stories = stories_told(structure, (spoke, expected, unknown), told)
    before, shares = stories.before[..., :-2], stories.shares[..., :-2]
    return Ranking(
        structure=structure,
        log_evidence=posterior.log_evidence[rows] + stories.log_fit,
        shares=stories.shares,
        spoke=spoke,
        in_every_group=posterior.in_every_group[rows],
        happened=_happened(happened, before, shares),
        present=posterior.present[rows],
    )


def readily_said(structure: Structure) -> Floats:
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
