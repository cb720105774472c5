"""Posteriors of many scenarios: who happened, who is responsible, what is unexplained."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.scenarios import Scenarios, Structure, scenarios_of, structure_of
from diagnose.inference.sweep import Sweep, Visit, dot

LARGEST_BLOCK_CELLS = 2**23


@dataclass(frozen=True)
class Posterior:
    """The answer for every scenario (column c) over n causes, m compounds and g groups.

    `log_evidence` (c,); `happened` (c, n) the probability that the cause acted; `responsible`
    (c, g, n) that a link of it fired into a compound which in turn gave a reported word of the
    group, `in_every_group` (c, n) that one did so in every group at once; `expected_here`
    (c, g) that what yeast or style bring did so; `not_in_rule_base`
    (c, g) that nothing known did; `present` (c, m) that the compound is noticeable (NaN where
    no evidence touches it).
    """

    structure: Structure
    log_evidence: Floats
    happened: Floats
    responsible: Floats
    in_every_group: Floats
    expected_here: Floats
    not_in_rule_base: Floats
    present: Floats


def solve(network: Network, evidences: Sequence[Evidence], asked: Sequence[str] = ()) -> Posterior:
    """Exact posteriors for several sets of evidence that share their reported words.

    What the pieces say of responsibility is not used here; see `rank`.

    Args:
        network: the network.
        evidences: the first one sets the groups of reported words, for all of them.
        asked: descriptors to leave room for, though no evidence may judge them.

    Raises:
        ImpossibleEvidence: the evidence contradicts itself.
        QueryTooWide: more flavours hang together than fit in memory.
    """
    structure = structure_of(network, *_room_for(evidences, asked))
    scenarios = scenarios_of(network, evidences)
    blocks = [_solve_block(structure, part) for part in _blocks(structure, scenarios)]
    return Posterior(structure, *(np.concatenate(parts) for parts in zip(*blocks, strict=True)))


def _room_for(
    evidences: Sequence[Evidence], asked: Sequence[str]
) -> tuple[Evidence, tuple[str, ...]]:
    """The first evidence and the words asked, with room for what only the others say."""
    first = evidences[0]
    known, judged = {id(piece) for piece in first.pieces}, set(first.judged)
    fresh = [piece for one in evidences[1:] for piece in one.pieces if id(piece) not in known]
    weighed = [Piece(piece.kind, piece.key, present=piece.present) for piece in fresh]
    words = [
        word
        for piece in fresh
        for word, said in piece.words.items()
        if word not in judged or said != ABSENT
    ]
    return Evidence((*first.pieces, *weighed), first.impossible), (*asked, *words)


def _blocks(structure: Structure, scenarios: Scenarios) -> Iterator[Scenarios]:
    size = max(1, LARGEST_BLOCK_CELLS // max(1, structure.plan.cells))
    for start in range(0, scenarios.columns, size):
        yield scenarios.part(slice(start, start + size))


def _solve_block(structure: Structure, scenarios: Scenarios) -> tuple[Floats, ...]:
    sweep = Sweep(structure, scenarios)
    log_evidence, visits = sweep.forward()
    happened = scenarios.on / (scenarios.off + scenarios.on)
    responsible = np.zeros((scenarios.columns, len(structure.groups), happened.shape[1]))
    in_every_group = np.zeros_like(happened)
    present = np.full((scenarios.columns, len(structure.network.compounds)), np.nan)
    for visit, after in sweep.backward(visits):
        index = visit.step.index
        if visit.step.kind == "cause":
            shares = _cause_shares(sweep, scenarios, (visit, after))
            happened[:, index], responsible[:, :, index], in_every_group[:, index] = shares
        elif visit.step.kind == "close":
            off_weight, on_weight = sweep.compound_sides(visit, after)
            present[:, index] = on_weight / (off_weight + on_weight)
    expected, remainder = _known_and_unknown(structure, scenarios, log_evidence)
    return log_evidence, happened, responsible, in_every_group, expected, remainder, present


def _cause_shares(
    sweep: Sweep, scenarios: Scenarios, at: tuple[Visit, Floats]
) -> tuple[Floats, Floats, Floats]:
    """Probability that the cause acted (c,), spoke in each group (c, g), and in every one (c,)."""
    visit, after = at
    cause = visit.step.index
    off = scenarios.off[:, cause] * dot(visit.state_before, after)
    on = scenarios.on[:, cause] * dot(sweep.acted(visit, frozenset()), after)
    total, groups = off + on, sweep.group_compounds

    def kept_quiet(compounds: frozenset[int]) -> Floats:
        return scenarios.on[:, cause] * dot(sweep.acted(visit, compounds), after) / total

    spoke = [np.maximum(on / total - kept_quiet(group), 0.0) for group in groups]
    if not spoke:
        return on / total, np.zeros((scenarios.columns, 0)), np.zeros(scenarios.columns)
    everywhere = spoke[0]
    if len(groups) > 1:
        everywhere = _spoke_everywhere(groups, on / total, kept_quiet)
    return on / total, np.stack(spoke, axis=1), everywhere


def _spoke_everywhere(
    groups: Sequence[frozenset[int]], acted: Floats, kept_quiet: Callable[[frozenset[int]], Floats]
) -> Floats:
    """Probability of speaking in every group, by inclusion and exclusion over the groups."""
    total = acted.copy()
    for number in range(1, len(groups) + 1):
        for some in combinations(groups, number):
            total += (-1.0) ** number * kept_quiet(frozenset().union(*some))
    return np.clip(total, 0.0, 1.0)


def _known_and_unknown(
    structure: Structure, scenarios: Scenarios, log_evidence: Floats
) -> tuple[Floats, Floats]:
    """For each group: expected here, and not in the rule base."""
    expected, remainder = [], []
    for compounds in structure.group_compounds:
        no_leak = scenarios.without_expected(structure.network, compounds)
        log_no_leak, _ = Sweep(structure, no_leak).forward()
        log_nothing, _ = Sweep(structure, no_leak, compounds).forward()
        expected.append(np.maximum(-np.expm1(log_no_leak - log_evidence), 0.0))
        remainder.append(np.exp(log_nothing - log_evidence))
    if not expected:
        empty = np.zeros((scenarios.columns, 0))
        return empty, empty
    return np.stack(expected, axis=1), np.stack(remainder, axis=1)
