"""Posteriors of many scenarios: who happened, who is responsible, what is unexplained."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference import operators as op
from diagnose.inference.network import Floats, Network
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure, scenarios_of, structure_of
from diagnose.inference.steps import Visit
from diagnose.inference.sweep import NONE, Sweep

LARGEST_BLOCK_CELLS = 2**21


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
    present = np.full(scenarios.present.shape, np.nan)
    responsible = np.zeros((scenarios.columns, len(structure.groups), happened.shape[1]))
    in_every_group = np.zeros_like(happened)
    passes = _causes_by_speakers(structure, scenarios.columns) or {NONE: frozenset()}
    for number, (hushed, speaking) in enumerate(passes.items()):
        for visit, after in sweep.backward(visits, hushed):
            if number == 0:
                _look_at(sweep, (visit, after), happened, present)
            if visit.step in speaking:
                causes = list(visit.step.causes or (visit.step.index,))
                shares = _spoke(sweep, structure, (visit, after), happened)
                responsible[:, :, causes], in_every_group[:, causes] = shares
    expected, remainder = _known_and_unknown(structure, scenarios, log_evidence)
    return log_evidence, happened, responsible, in_every_group, expected, remainder, present


def _look_at(sweep: Sweep, at: tuple[Visit, Floats], happened: Floats, present: Floats) -> None:
    """Note down what the visit says of its cause or its compound."""
    visit, after = at
    if visit.step.kind == "cause":
        off, on = sweep.cause_sides(visit, op.without_hushed(after))
        happened[:, visit.step.index] = on / (off + on)
    elif visit.step.kind == "lone":
        lone, sides = sweep.lone_sides(visit, after)
        happened[:, list(visit.step.causes)] = sides.happened(lone)
    elif visit.step.kind == "close":
        off, on = sweep.compound_sides(visit, op.without_hushed(after))
        present[:, visit.step.index] = on / (off + on)


# A pass back over states of up to so many cells costs its steps, not its cells.
CHEAP_CELLS = 2**14


def _causes_by_speakers(
    structure: Structure, columns: int
) -> dict[frozenset[int], frozenset[Step]]:
    """The steps whose causes may speak, by a set of compounds that holds all they speak through.

    One pass back answers for all steps of a set. Sets are joined as long as a pass that must
    tell all of them apart stays cheap; only sets that no other holds are kept.
    """
    acting = [step for step in structure.plan.steps if step.kind in ("cause", "lone")]
    speakers = {step: _speakers(structure, step) for step in acting}
    joined: list[frozenset[int]] = []
    for one in sorted(set(speakers.values()) - {NONE}, key=lambda one: (-len(one), sorted(one))):
        for place, other in enumerate(joined):
            if one <= other or structure.plan.peak(one | other) * columns <= CHEAP_CELLS:
                joined[place] = one | other
                break
        else:
            joined.append(one)
    found: dict[frozenset[int], frozenset[Step]] = {}
    for step, through in speakers.items():
        if through:
            home = next(one for one in joined if through <= one)
            found[home] = found.get(home, frozenset()) | {step}
    return found


def _speakers(structure: Structure, step: Step) -> frozenset[int]:
    """The compounds through which the step's causes may speak."""
    if step.kind == "lone":
        return structure.behind & {step.index}
    return structure.speakers(step.index)


def _spoke(
    sweep: Sweep, structure: Structure, at: tuple[Visit, Floats], happened: Floats
) -> tuple[Floats, Floats]:
    """Probability that each cause of the visit, of k, spoke in each group, and in every one.

    Shapes (c, g, k) and (c, k).
    """
    visit, after = at
    if visit.step.kind == "lone":
        return _lone_spoke(sweep, structure, at, happened)
    acted = happened[:, visit.step.index]
    speakers = structure.speakers(visit.step.index)
    all_weight = sweep.kept_quiet(visit, after, NONE)

    def kept_quiet(compounds: frozenset[int]) -> Floats:
        if not compounds & speakers:
            return acted
        weight = sweep.kept_quiet(visit, after, compounds)
        share = np.divide(weight, all_weight, out=np.zeros_like(weight), where=all_weight > 0.0)
        return acted * share

    groups = structure.group_compounds
    spoke = [np.maximum(acted - kept_quiet(group), 0.0) for group in groups]
    everywhere = spoke[0] if len(groups) == 1 else _spoke_everywhere(groups, acted, kept_quiet)
    return np.stack(spoke, axis=1)[:, :, None], everywhere[:, None]


def _lone_spoke(
    sweep: Sweep, structure: Structure, at: tuple[Visit, Floats], happened: Floats
) -> tuple[Floats, Floats]:
    """The same for lone causes, which speak through one compound, so in one group."""
    visit = at[0]
    acted = happened[:, list(visit.step.causes)]
    lone, sides = sweep.lone_sides(*at)
    spoke = np.maximum(acted * (1.0 - sides.quiet_share(lone)), 0.0)
    inside = np.array([visit.step.index in group for group in structure.group_compounds])
    everywhere = spoke if len(inside) == 1 else np.zeros_like(spoke)
    return spoke[:, None, :] * inside[None, :, None], everywhere


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
    groups, columns = structure.group_compounds, scenarios.columns
    if not groups:
        empty = np.zeros((columns, 0))
        return empty, empty
    no_leak = [scenarios.without_expected(structure.network, group) for group in groups]
    nothing = [one.without_causes(group) for one, group in zip(no_leak, groups, strict=True)]
    branches = no_leak[0].beside([*no_leak[1:], *nothing])
    log_branches, _ = Sweep(structure, branches).forward()
    left = log_branches.reshape(2, len(groups), columns).transpose(0, 2, 1) - log_evidence[:, None]
    return np.maximum(-np.expm1(left[0]), 0.0), np.exp(left[1])
