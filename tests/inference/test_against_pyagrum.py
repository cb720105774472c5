"""Responsibility against pyAgrum, a general-purpose library, with every link spelt out."""

from collections.abc import Sequence

import numpy as np
import pytest

from diagnose.evidence.pieces import Evidence
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import Structure
from diagnose.knowledge import RuleBase
from tests.inference.agrum import Answers, TooWide, likelihoods_of
from tests.inference.exactness import TASTINGS
from tests.inference.networks import Random, log_pieces, random_evidence, realistic_network
from tests.inference.reference import Reference
from tests.inference.simulated import some_beer

TOLERANCE = 1e-9
MOST_LINKS = 4  # of a cause whose links are spelt out: the library's tables grow with them
STRUCTURES, DRAWS = 2, 4
LIGHT_TASTINGS = ((1, 0, 0), (2, 1, 0), (1, 2, 0), (2, 0, 0))


@pytest.mark.parametrize("seed", range(2))
def test_responsibility_is_the_library_s_with_every_link_spelt_out(seed: int) -> None:
    random = np.random.default_rng(seed)
    for _ in range(STRUCTURES):
        network = realistic_network(random)
        assert_responsibility_agrees(network, random, LIGHT_TASTINGS)


@pytest.mark.parametrize("seed", range(5))
def test_responsibility_in_the_rule_base_is_the_library_s(rules: RuleBase, seed: int) -> None:
    random = np.random.default_rng(seed)
    for _ in range(STRUCTURES):
        network = some_beer(rules, random)
        assert_responsibility_agrees(network, random, TASTINGS)


def assert_close(found: Floats, wanted: Floats) -> None:
    np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE)


def assert_responsibility_agrees(
    network: Network, random: Random, tastings: Sequence[tuple[int, int, int]]
) -> None:
    """All that the ranking is made of; a tasting too wide for the library is drawn again."""
    while True:
        counts = tastings[random.integers(len(tastings))]
        first = random_evidence(random, network, counts)
        try:
            assert_one_tasting_agrees(network, random, first)
        except TooWide:
            continue
        return


def assert_one_tasting_agrees(network: Network, random: Random, first: Evidence) -> None:
    """One tasting with several sets of findings."""
    evidences = [first, *(with_other_findings(first, network, random) for _ in range(DRAWS - 1))]
    posterior = solve(network, evidences)
    blamed = blamable(posterior.structure, random)
    reference = reference_for(posterior.structure, first, blamed)
    for column, evidence in enumerate(evidences):
        assert_column_agrees(posterior, column, (reference, evidence, blamed))


def with_other_findings(first: Evidence, network: Network, random: Random) -> Evidence:
    """The same tasting with fresh findings about causes and the same about compounds."""
    kept = [piece for piece in first.pieces if piece.kind in {"tasting", "compound"}]
    fresh = [piece for piece in log_pieces(random, network) if piece.kind in {"log", "both"}]
    return Evidence((*kept, *fresh), first.impossible)


def blamable(structure: Structure, random: Random) -> list[int]:
    """Three causes with a link behind the reported words, none with many links."""
    network = structure.network
    links = network.strength[:, structure.compounds] > 0.0
    behind = (network.strength[:, sorted(structure.behind)] > 0.0).any(axis=1)
    fit = np.flatnonzero(behind & (links.sum(axis=1) <= MOST_LINKS))
    return [int(i) for i in random.permutation(fit)[:3]]


def reference_for(structure: Structure, evidence: Evidence, blamed: Sequence[int]) -> Reference:
    """The structure with what the blamed causes did, and who gave which word, spelt out."""
    reference = Reference(structure.network, structure.compounds)
    reference.add_causes(blamed)
    reference.add_compounds(blamed)
    reference.add_words(evidence.judged, evidence.reported)
    reference.add_speech(structure.behind, evidence.reported)
    for i in blamed:
        for g, compounds in enumerate(structure.group_compounds):
            reference.add_blame(f"responsible_{i}_{g}", i, compounds)
    return reference


def assert_column_agrees(
    posterior: Posterior, column: int, against: tuple[Reference, Evidence, Sequence[int]]
) -> None:
    reference, evidence, blamed = against
    structure = posterior.structure
    blames = [f"responsible_{i}_{g}" for g in range(len(structure.groups)) for i in blamed]
    causes = [f"cause_{name}" for name in structure.network.causes]
    answers = Answers(reference.net, [*blames, *causes])
    said, prior = likelihoods_of(structure.network, evidence)
    log_evidence = answers.hear(said)
    assert_close(posterior.log_evidence[column], log_evidence - prior)
    assert_close(posterior.happened[column], answers.on(causes))
    assert_close(posterior.responsible[column][:, blamed].ravel(), answers.on(blames))
    for g, compounds in enumerate(structure.group_compounds):
        unexpected = answers.hear({**said, **all_off("brought", compounds)})
        unknown = answers.hear({**said, **all_off("told", compounds)})
        assert_close(posterior.expected_here[column, g], -np.expm1(unexpected - log_evidence))
        assert_close(posterior.not_in_rule_base[column, g], np.exp(unknown - log_evidence))


def all_off(kind: str, compounds: frozenset[int]) -> dict[str, tuple[float, float]]:
    return {f"{kind}_{j}": (1.0, 0.0) for j in compounds}
