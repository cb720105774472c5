"""The sweep against pyAgrum, a general-purpose Bayesian-network library, on random evidence."""

from collections.abc import Sequence

import numpy as np
import pytest

from diagnose.evidence.pieces import Evidence
from diagnose.inference.export import to_bif
from diagnose.inference.network import Floats, Network, network_of
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import Structure, structure_of
from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped
from tests.inference.agrum import Answers, likelihoods_of, read_exactly
from tests.inference.networks import Random, log_pieces, random_evidence, realistic_network
from tests.inference.reference import Reference

TOLERANCE = 1e-9
MOST_LINKS = 4  # of a cause whose links are spelt out: the library's tables grow with them
SETS, STRUCTURES, DRAWS = 8, 2, 4
# The library's clique tables outgrow memory on some tastings that a sweep of this many cells still
# answers; such a tasting is drawn again.
LIBRARY_CELLS, LIBRARY_CELLS_SPELT_OUT = 3000, 1200

# reported, absent and doubtful words; from memory of how tastings are written down
TASTINGS = ((1, 0, 0), (2, 3, 0), (3, 4, 0), (2, 2, 1), (4, 2, 0), (3, 0, 1), (1, 8, 0), (5, 3, 0))

LIGHT_TASTINGS = ((1, 0, 0), (2, 1, 0), (1, 2, 0), (2, 0, 0))


@pytest.fixture(scope="module")
def rules() -> RuleBase:
    return load_rules(shipped("rules"))


def some_beer(rules: RuleBase, random: Random) -> Network:
    """The rule base in a beer of a random yeast family and style, one in eight not known."""
    yeast, style = random.choice(sorted(rules.yeasts)), random.choice(sorted(rules.styles))
    known = random.random(2) > 1 / 8
    return network_of(rules, str(yeast) if known[0] else None, str(style) if known[1] else None)


@pytest.mark.parametrize("seed", range(4))
def test_a_network_as_large_as_the_rule_base_gives_the_library_s_answers(seed: int) -> None:
    random = np.random.default_rng(seed)
    assert_exported_network_agrees(realistic_network(random), random)


@pytest.mark.parametrize("seed", range(20))
def test_the_rule_base_gives_the_library_s_answers(rules: RuleBase, seed: int) -> None:
    random = np.random.default_rng(seed)
    assert_exported_network_agrees(some_beer(rules, random), random)


@pytest.mark.parametrize("seed", range(2))
def test_responsibility_is_the_library_s_with_every_link_spelt_out(seed: int) -> None:
    random = np.random.default_rng(seed)
    for _ in range(STRUCTURES):
        assert_responsibility_agrees(realistic_network(random), random, LIGHT_TASTINGS)


@pytest.mark.parametrize("seed", range(5))
def test_responsibility_in_the_rule_base_is_the_library_s(rules: RuleBase, seed: int) -> None:
    random = np.random.default_rng(seed)
    for _ in range(STRUCTURES):
        assert_responsibility_agrees(some_beer(rules, random), random, TASTINGS)


def assert_exported_network_agrees(network: Network, random: Random) -> None:
    """Happened, present and the evidence's probability, for several tastings."""
    net = read_exactly(to_bif(network))
    for _ in range(SETS):
        evidence = answerable(random, network, TASTINGS, LIBRARY_CELLS)
        posterior = solve(network, [evidence])
        touched = posterior.structure.compounds
        causes = [f"cause_{name}" for name in network.causes]
        compounds = [f"compound_{network.compounds[j]}" for j in touched]
        answers = Answers(net, [*causes, *compounds])
        said, prior = likelihoods_of(network, evidence)
        assert_close(posterior.log_evidence[0], answers.hear(said) - prior)
        assert_close(posterior.happened[0], answers.on(causes))
        assert_close(posterior.present[0, list(touched)], answers.on(compounds))


def answerable(
    random: Random, network: Network, tastings: Sequence[tuple[int, int, int]], most_cells: int
) -> Evidence:
    """Random evidence that the library can answer too."""
    while True:
        evidence = random_evidence(random, network, tastings[random.integers(len(tastings))])
        if structure_of(network, evidence).plan.cells <= most_cells:
            return evidence


def assert_close(found: Floats, wanted: Floats) -> None:
    np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE)


def assert_responsibility_agrees(
    network: Network, random: Random, tastings: Sequence[tuple[int, int, int]]
) -> None:
    """All that the ranking is made of, for several sets of findings about one tasting."""
    first = answerable(random, network, tastings, LIBRARY_CELLS_SPELT_OUT)
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
