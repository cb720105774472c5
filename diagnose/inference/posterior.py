"""Posteriors of many scenarios: who happened, who is responsible, what is unexplained."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.evidence.pieces import ABSENT, Evidence, Piece
from diagnose.inference.network import Floats, Network
from diagnose.inference.plan import Step
from diagnose.inference.scenarios import Scenarios, Structure, scenarios_of, structure_of
from diagnose.inference.spoken import Found
from diagnose.inference.sweep import NONE, Sweep
from diagnose.inference.weights import branched, weights_of

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
    return solve_scenarios(structure, scenarios_of(network, evidences))


def solve_scenarios(
    structure: Structure, scenarios: Scenarios, *, briefly: bool = False
) -> Posterior:
    """Exact posteriors of scenarios over a structure; errors as for `solve`.

    Where there are reported words, `briefly` leaves out who happened beside those responsible,
    who spoke in every group, and what is present: NaN there.
    """
    briefly = briefly and bool(structure.groups)
    blocks = [_solve_block(structure, part, briefly) for part in _blocks(structure, scenarios)]
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


def _solve_block(structure: Structure, scenarios: Scenarios, briefly: bool) -> tuple[Floats, ...]:
    sweep, weights, columns = Sweep(structure), weights_of(structure, scenarios), scenarios.columns
    logs, visits = sweep.forward(branched(structure, weights), kept=columns)
    found = Found.empty(structure, scenarios, briefly)
    passes = _causes_by_speakers(structure, columns) or {NONE: frozenset()}
    for number, (hushed, speaking) in enumerate(passes.items()):
        looking, unheard = number == 0 and not briefly, set(speaking)
        for visit in sweep.backward(weights, visits, hushed):
            listening = visit.stop.step in unheard
            found.note(weights, visit, look=looking, listen=listening)
            unheard.discard(visit.stop.step)
            if not looking and not unheard:
                break
    expected, remainder = _known_and_unknown(logs, columns)
    return (
        logs[:columns],
        found.happened,
        found.responsible,
        found.in_every_group,
        expected,
        remainder,
        found.present,
    )


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
    return structure.speakers.get(step.index, NONE)


def _known_and_unknown(logs: Floats, columns: int) -> tuple[Floats, Floats]:
    """For each group: expected here, and not in the rule base; from the columns `branched`."""
    left = logs[columns:].reshape(2, -1, columns).transpose(0, 2, 1) - logs[:columns, None]
    return np.maximum(-np.expm1(left[0]), 0.0), np.exp(left[1])
