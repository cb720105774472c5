"""Whether a posterior means what it says: beers drawn from the rule base, diagnosed, counted.

    python -m tests.inference.calibration [BATCHES]

Of every batch one claim of each kind is picked, by what was claimed and never by what is true,
so that the claims of a kind are independent of each other. Of n claims in a bin as many must be
true as their probabilities sum to, give or take the spread of so many coins of those biases.
Bounds, stated before the first run: in no bin more than `FARTHEST` standard deviations away, and
over all bins together a chi-square no rarer than `RAREST`. A bin in which that spread is less
than `LEAST_SPREAD` events is joined to the next, the last to the one before.
"""

import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats, Network
from diagnose.inference.posterior import Posterior, solve
from diagnose.inference.scenarios import structure_of
from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped
from tests.inference.simulated import Random, Tasting, draw_tasting, some_beer

BATCHES = 20_000
FARTHEST, RAREST, LEAST_SPREAD = 4.0, 0.001, 3.0
# Words on the sheet beside the first: related ones and others. A wider one costs more, not else.
SHEET = (5, 3)
MOST_CELLS = 2**14
EDGES = (0.01, 0.03, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.97)
# A claim about a cause is about one of this many likeliest, whichever is drawn.
LIKELIEST = 3
KINDS = ("happened", "responsible", "present", "expected here", "not in the rule base")


@dataclass(frozen=True)
class Claim:
    """A probability that was claimed of something, and whether it was so."""

    kind: str
    probability: float
    true: bool


@dataclass(frozen=True)
class Bin:
    """The claims between two probabilities: how many, how many true, and how many were due."""

    lowest: float
    highest: float
    claims: int
    true: int
    due: float
    spread: float

    @property
    def off(self) -> float:
        """How many standard deviations the count is away from what was due."""
        return (self.true - self.due) / self.spread


def draw_claims(rules: RuleBase, seed: int, batches: int) -> Iterator[Claim]:
    """One claim of each kind for each of so many batches in which something was tasted."""
    random = np.random.default_rng(seed)
    done = 0
    while done < batches:
        network = some_beer(rules, random)
        tasting = draw_tasting(random, network, SHEET)
        # Told from the evidence alone, so leaving out the wide ones biases nothing.
        if structure_of(network, tasting.evidence).plan.cells <= MOST_CELLS:
            yield from _claims(random, tasting, solve(network, [tasting.evidence]))
            done += 1


def _claims(random: Random, tasting: Tasting, posterior: Posterior) -> Iterator[Claim]:
    network, beer = posterior.structure.network, tasting.beer
    cause = _one_of_the_likeliest(random, posterior.happened[0])
    yield Claim("happened", float(posterior.happened[0, cause]), bool(beer.acted[cause]))
    group = int(random.integers(len(posterior.structure.groups)))
    words = _places(network, posterior.structure.groups[group])
    blamed = posterior.responsible[0, group]
    cause = _one_of_the_likeliest(random, blamed)
    behind = beer.responsible(words)
    yield Claim("responsible", float(blamed[cause]), bool(behind[cause]))
    compound = int(random.choice(posterior.structure.compounds))
    yield Claim("present", float(posterior.present[0, compound]), bool(beer.stands[compound]))
    expected = beer.expected_here(words)
    yield Claim("expected here", float(posterior.expected_here[0, group]), expected)
    unknown = float(posterior.not_in_rule_base[0, group])
    yield Claim("not in the rule base", unknown, not (behind.any() or expected))


def _places(network: Network, words: Sequence[str]) -> list[int]:
    return [network.descriptor_index[word] for word in words]


def _one_of_the_likeliest(random: Random, probabilities: Floats) -> int:
    order = np.argsort(-probabilities, kind="stable")
    return int(order[random.integers(LIKELIEST)])


def reliability(claims: Sequence[Claim]) -> list[Bin]:
    """The claims of one kind in bins of probability."""
    said = np.array([claim.probability for claim in claims])
    true = np.array([claim.true for claim in claims])
    order = np.argsort(said, kind="stable")
    parts = [np.zeros(0, dtype=int)]
    for part in np.split(order, np.searchsorted(said[order], EDGES)):
        if _spread(said[parts[-1]]) < LEAST_SPREAD:
            parts[-1] = np.concatenate([parts[-1], part])
        else:
            parts.append(part)
    if len(parts) > 1 and _spread(said[parts[-1]]) < LEAST_SPREAD:
        parts[-2:] = [np.concatenate(parts[-2:])]
    return [_bin(said[part], true[part]) for part in parts]


def _spread(said: Floats) -> float:
    """Standard deviation of how many of independent claims are true."""
    return float(np.sqrt((said * (1.0 - said)).sum()))


def _bin(said: Floats, true: Floats) -> Bin:
    ends = float(said.min()), float(said.max())
    return Bin(*ends, len(said), int(true.sum()), float(said.sum()), _spread(said))


def rarity(bins: Sequence[Bin]) -> float:
    """How rarely chance alone would be as far off over all bins (chi-square)."""
    from scipy.stats import chi2  # noqa: PLC0415

    return float(chi2.sf(sum(one.off**2 for one in bins), len(bins)))


def table(claims: Sequence[Claim]) -> str:
    """Claimed and true, bin by bin and kind by kind."""
    lines = []
    for kind in KINDS:
        bins = reliability([claim for claim in claims if claim.kind == kind])
        lines.append(f"{kind}: chi-square p {rarity(bins):.3f} over {len(bins)} bins")
        lines += [
            f"   {one.lowest:6.3f} to {one.highest:5.3f} {one.claims:7} claims "
            f"{one.due / one.claims:7.4f} said {one.true / one.claims:7.4f} true {one.off:+5.1f} sd"
            for one in bins
        ]
    return "\n".join(lines) + "\n"


if __name__ == "__main__":
    batches = int((*sys.argv, BATCHES)[1])
    sys.stdout.write(table(list(draw_claims(load_rules(shipped("rules")), 0, batches))))
