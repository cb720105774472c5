"""How far the sweep is from two general-purpose libraries, over many random sets of evidence.

    python -m tests.inference.exactness [SETS]

Prints the sets that both libraries answered, the greatest relative difference to either, and how
many sets were drawn again because they were too wide for it. One is a library of Bayesian
networks, the other one of tensor products; neither shares a line with the other or with us.
"""

import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.export import to_bif
from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import structure_of
from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped
from tests.inference.agrum import Answers, TooWide, gum, likelihoods_of, read_exactly
from tests.inference.bif import read_tables
from tests.inference.contraction import Contraction, TooLarge
from tests.inference.networks import Random, random_evidence, realistic_network
from tests.inference.simulated import draw_tasting, some_beer

ALL_SETS = 500
NETWORKS = 25
# Every fifth network is a random one, the others are the rule base in some beer.
RANDOM_EVERY = 5
# What our own sweep may hold for one set, and the tensor library in one product, in numbers.
MOST_CELLS, MOST_PRODUCT = 2**17, 2**18
CAUSES_ASKED, COMPOUNDS_ASKED = 2, 1

# reported, absent and doubtful words; from memory of how tastings are written down
TASTINGS = ((1, 0, 0), (2, 3, 0), (3, 4, 0), (2, 2, 1), (4, 2, 0), (3, 0, 1), (1, 8, 0), (5, 3, 0))


@dataclass
class Tally:
    """What the comparison with one library came to: how many numbers, and how far apart."""

    too_wide: int = 0
    numbers: int = 0
    worst: float = 0.0

    def take(self, found: Floats | float, wanted: Floats | float) -> None:
        """Count in some numbers and how far they are apart at most, relative to the larger."""
        one, other = np.atleast_1d(found), np.atleast_1d(wanted)
        scale = np.maximum(np.abs(one), np.abs(other))
        apart = np.divide(np.abs(one - other), scale, out=np.zeros(one.shape), where=scale > 0.0)
        self.numbers += one.size
        self.worst = max(self.worst, float(apart.max(initial=0.0)))


@dataclass
class Comparison:
    """A tally for each library, the sets both answered, and those too wide for the sweep itself."""

    sets: int = 0
    too_wide_for_us: int = 0
    agrum: Tally = field(default_factory=Tally)
    tensors: Tally = field(default_factory=Tally)


def compare(rules: RuleBase, seed: int, sets: int) -> Comparison:
    """Compare on the network of a seed until both libraries have answered so many sets."""
    random = np.random.default_rng(seed)
    of_rules = (seed + 1) % RANDOM_EVERY
    network = some_beer(rules, random) if of_rules else realistic_network(random)
    comparison, text = Comparison(), to_bif(network)
    net, contraction = read_exactly(text), Contraction(read_tables(text), MOST_PRODUCT)
    while comparison.sets < sets:
        evidence = _drawn(random, network, likely=bool(comparison.sets % 2))
        if structure_of(network, evidence).plan.cells > MOST_CELLS:
            comparison.too_wide_for_us += 1
            continue
        posterior = solve(network, [evidence])
        asked = _asked(random, posterior)
        answered = compare_to_agrum(comparison.agrum, net, (posterior, evidence))
        comparison.sets += answered and compare_to_tensors(
            comparison.tensors, contraction, (posterior, evidence, asked)
        )
    return comparison


def _drawn(random: Random, network: Network, *, likely: bool) -> Evidence:
    """Evidence drawn from the model, or evidence of any kind on anything."""
    if likely:
        return draw_tasting(random, network, (7, 4)).evidence
    return random_evidence(random, network, TASTINGS[random.integers(len(TASTINGS))])


def _asked(random: Random, posterior: Posterior) -> Mapping[str, float]:
    """Some of the variables with what we say of them: the likeliest causes and others."""
    network = posterior.structure.network
    order = np.argsort(-posterior.happened[0], kind="stable")
    half = CAUSES_ASKED // 2
    causes = [*order[:half], *random.permutation(order[half:])[:half]]
    compounds = random.permutation(posterior.structure.compounds)[:COMPOUNDS_ASKED]
    return {
        **{f"cause_{network.causes[i]}": float(posterior.happened[0, i]) for i in causes},
        **{f"compound_{network.compounds[j]}": float(posterior.present[0, j]) for j in compounds},
    }


def compare_to_agrum(tally: Tally, net: "gum.BayesNet", ours: tuple[Posterior, Evidence]) -> bool:
    """The evidence, every cause and every touched compound; whether the library could answer."""
    posterior, evidence = ours
    network, touched = posterior.structure.network, list(posterior.structure.compounds)
    causes = [f"cause_{name}" for name in network.causes]
    compounds = [f"compound_{network.compounds[j]}" for j in touched]
    said, prior = likelihoods_of(network, evidence)
    answers = Answers(net, [*causes, *compounds])
    try:
        log_evidence = answers.hear(said) - prior
    except TooWide:
        tally.too_wide += 1
        return False
    tally.take(np.exp(posterior.log_evidence[0] - log_evidence), 1.0)
    tally.take(posterior.happened[0], answers.on(causes))
    tally.take(posterior.present[0, touched], answers.on(compounds))
    return True


def compare_to_tensors(
    tally: Tally, contraction: Contraction, ours: tuple[Posterior, Evidence, Mapping[str, float]]
) -> bool:
    """The evidence, and the variables asked about; whether the library could answer."""
    posterior, evidence, asked = ours
    said, prior = likelihoods_of(posterior.structure.network, evidence)
    try:
        log_evidence = contraction.log_evidence(said) - prior
        wanted = [contraction.on(said, name) for name in asked]
    except TooLarge:
        tally.too_wide += 1
        return False
    tally.take(np.exp(posterior.log_evidence[0] - log_evidence), 1.0)
    tally.take(np.array(list(asked.values())), np.array(wanted))
    return True


def table(comparisons: Sequence[Comparison]) -> str:
    """What all comparisons came to, a row for each library."""
    sets, too_wide = (
        sum(getattr(one, what) for one in comparisons) for what in ("sets", "too_wide_for_us")
    )
    rows = [
        f"{sets} sets of evidence, {too_wide} more drawn again as wider than meant here",
        f"{'library':12}{'drawn again':>13}{'numbers':>9}{'worst relative difference':>27}",
    ]
    for library in ("agrum", "tensors"):
        every = [getattr(one, library) for one in comparisons]
        again, numbers = (sum(getattr(t, what) for t in every) for what in ("too_wide", "numbers"))
        rows.append(f"{library:12}{again:13}{numbers:9}{max(t.worst for t in every):27.1e}")
    return "\n".join(rows) + "\n"


if __name__ == "__main__":
    wanted_sets = int((*sys.argv, ALL_SETS)[1])
    rule_base = load_rules(shipped("rules"))
    done = [compare(rule_base, seed, wanted_sets // NETWORKS) for seed in range(NETWORKS)]
    sys.stdout.write(table(done))
