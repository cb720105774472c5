"""The same query by a general-purpose library, solving again for everything that is left out or
answered; it and we take turns.

The library is pyAgrum, the faster of its two exact engines on each case. Its network is built
beforehand, with a variable for every link that may be behind a reported word, so that one solve
tells who happened, who is responsible, what the beer brings and what nobody knows.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from math import inf
from statistics import median

import numpy as np

from diagnose.consult.asking import questions_about
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.evidence.gathering import gather
from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Network
from diagnose.inference.posterior import solve
from diagnose.inference.question import Question
from diagnose.inference.ranking import rank
from diagnose.inference.scenarios import Structure, structure_of
from diagnose.knowledge import RuleBase
from tests.bench.query import full_query, suspects, time_ms
from tests.inference.agrum import Likelihoods, gum, likelihoods_of
from tests.inference.reference import Reference

ENGINES: tuple[Callable[..., "gum.BNInference"], ...] = (
    gum.LazyPropagation,
    gum.ShaferShenoyInference,
)
ALONE_ROUNDS = 5
# Variables of its largest table, some 64 MB. Beyond it a solve takes it seconds.
WIDEST = 23
# Processor time is compared; on networks as small as these a second thread is no help to it.
gum.setNumberOfThreads(1)


@dataclass(frozen=True)
class Pair:
    """One case both ways [ms]: the full query, then the posteriors alone; ours and theirs."""

    case: str
    solves: int
    ours_ms: float
    theirs_ms: float
    ours_alone_ms: float
    theirs_alone_ms: float


def compare(rules: RuleBase, consultation: Consultation, rounds: int) -> Pair | None:
    """One case both ways, taking turns, the quickest of so many; None where it is too wide."""
    network = network_of_batch(rules, consultation)
    evidence = gather(rules, consultation.known)
    questions = questions_about(rules, consultation.known, suspects(rank(network, [evidence])))
    said = every_likelihood(network, evidence, questions)
    theirs = Theirs(structure_of(network, evidence), said)
    if theirs.is_too_wide():
        return None
    theirs.choose()
    whole = alternating(
        lambda: full_query(rules, consultation), lambda: theirs.solve(theirs.said), rounds
    )
    alone = alternating(
        lambda: solve(network, [evidence]), lambda: theirs.solve(theirs.said[:1]), ALONE_ROUNDS
    )
    return Pair(consultation.batch.name, len(said), *whole, *alone)


def alternating(
    ours: Callable[[], object], theirs: Callable[[], object], rounds: int
) -> tuple[float, float]:
    """The quickest of each job [ms], one after the other in every round; both tried as often."""
    took = [(time_ms(ours), time_ms(theirs)) for _ in range(rounds)]
    return min(ms for ms, _ in took), min(ms for _, ms in took)


def every_likelihood(
    network: Network, evidence: Evidence, questions: Sequence[Question]
) -> list[Likelihoods]:
    """What is to be solved, once each: circumstances of the fault need no solve of their own."""
    distinct: dict[str, Likelihoods] = {}
    for one in _every_evidence(evidence, questions):
        said, _ = likelihoods_of(network, one)
        distinct.setdefault(repr(sorted(said.items())), said)
    return list(distinct.values())


def _every_evidence(evidence: Evidence, questions: Sequence[Question]) -> Iterator[Evidence]:
    """What is known, then with each piece left out, the words alone, and with each answer."""
    yield evidence
    for piece in evidence.pieces:
        yield evidence.without(piece.key, piece.kind)
    words = tuple(piece for piece in evidence.pieces if piece.kind == "word")
    yield Evidence(words, evidence.impossible)
    for question in questions:
        for answer in question.answers:
            yield evidence.with_piece(answer.piece)


def spelt_out(structure: Structure, said: Sequence[Likelihoods]) -> tuple["gum.BayesNet", set[str]]:
    """The network with every link behind a reported word, and the variables to be read off."""
    network = structure.network
    behind = np.any(network.strength[:, sorted(structure.behind)] > 0.0, axis=1)
    blamed = [int(i) for i in np.flatnonzero(behind)]
    reported = [word for words in structure.groups for word in words]
    heard = {name.partition("_")[2] for one in said for name in one if name[:11] == "descriptor_"}
    reference = Reference(network, range(len(network.compounds)))
    reference.add_causes(blamed)
    reference.add_compounds(blamed)
    reference.add_words(sorted(heard), reported)
    reference.add_speech(structure.behind, reported)
    targets = {f"cause_{name}" for name in network.causes}
    for g, compounds in enumerate(structure.group_compounds):
        for kind in ("brought", "told"):
            reference.add_any(f"{kind}_in_{g}", [f"{kind}_{j}" for j in sorted(compounds)])
            targets.add(f"{kind}_in_{g}")
        for i in blamed:
            reference.add_blame(f"responsible_{i}_{g}", i, compounds)
            targets.add(f"responsible_{i}_{g}")
    return reference.net, targets


class Theirs:
    """The library's network of one beer, and all it has to be solved with."""

    def __init__(self, structure: Structure, likelihoods: Sequence[Likelihoods]) -> None:
        self.said = [{name: list(pair) for name, pair in one.items()} for one in likelihoods]
        self._net, self._targets = spelt_out(structure, likelihoods)
        self._engine = ENGINES[0]

    def is_too_wide(self) -> bool:
        """Whether some solve needs a larger table than the library may have."""
        planner = gum.LazyPropagation(self._net)
        planner.setTargets(self._targets)
        for said in self.said:
            planner.setEvidence(said)
            tree = planner.junctionTree()
            if max((len(tree.clique(node)) for node in tree.nodes()), default=0) > WIDEST:
                return True
        return False

    def choose(self) -> None:
        """Take the engine that answers the first question sooner."""
        self._engine = min(ENGINES, key=self._first_ms)

    def _first_ms(self, engine: Callable[..., "gum.BNInference"]) -> float:
        self._engine = engine
        return min(time_ms(lambda: self.solve(self.said[:1])) for _ in range(2))

    def solve(self, several: Sequence[dict[str, list[float]]]) -> None:
        """Solve for each set of likelihoods and read everything off."""
        solver = self._engine(self._net)
        solver.setTargets(self._targets)
        for said in several:
            solver.setEvidence(said)
            solver.makeInference()
            for target in self._targets:
                solver.posterior(target)


def pairs_table(pairs: Sequence[Pair | None], targets: tuple[float, float]) -> str:
    """Each case both ways, and the medians of the ratios over those the library could answer."""
    lines = [
        f"{'against pyAgrum':32}{'ours':>9}{'theirs':>11}{'solves':>8}{'ratio':>8}{'alone':>8}"
    ]
    done = [one for one in pairs if one is not None]
    for one in done:
        lines.append(
            f"{one.case[:31]:32}{one.ours_ms:6.0f} ms{one.theirs_ms:8.0f} ms{one.solves:8}"
            f"{one.theirs_ms / one.ours_ms:8.0f}{one.theirs_alone_ms / one.ours_alone_ms:8.1f}"
        )
    if not done:
        return "\n".join([*lines, "every case was too wide for it"]) + "\n"
    whole = median(one.theirs_ms / one.ours_ms for one in done)
    overall = median(one.theirs_ms / one.ours_ms if one else inf for one in pairs)
    alone = median(one.theirs_alone_ms / one.ours_alone_ms for one in done)
    lines.append(
        f"{len(pairs) - len(done)} more cases too wide for it; median ratio {overall:.0f}, those "
        f"counted as slower\nthan any; of the others {whole:.0f}; wanted {targets[0]:.0f}; "
        f"posteriors alone {alone:.1f}, wanted {targets[1]:.0f}"
    )
    return "\n".join(lines) + "\n"
