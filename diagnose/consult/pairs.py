"""Two causes at once: which pairs may be behind all of it, and how much better than one."""

import math
from itertools import combinations, product

import numpy as np

from diagnose.answers import PairLine
from diagnose.consult.shared import explained
from diagnose.evidence.pieces import Evidence
from diagnose.inference.pairs import Pair, pair_covers
from diagnose.inference.ranking import Ranking
from diagnose.knowledge import RuleBase

SOLVED, SHOWN = 4, 3
FROM_EACH_GROUP = 3
LEAST_CHANCE = 0.05
# Odds further than this from even are as good as certain, and are shown as this far.
_FLOOR, MOST_DECIBANS = 1e-9, 60.0


def likely_pairs(rules: RuleBase, evidence: Evidence, ranking: Ranking) -> tuple[PairLine, ...]:
    """The likeliest pairs of causes behind all groups of words, where one cause does not do.

    A pair is named only where two that are both needed are likelier than any one cause for all.
    Words that nothing here explains are left aside, as for one cause behind all. The figures
    are those before the circumstances of the fault, which tell of one main explanation only.
    """
    evidence, ranking = explained(evidence, ranking)
    if len(ranking.structure.groups) < 2:
        return ()
    network, alone = ranking.structure.network, ranking.in_every_group[0]
    single = float(alone.max())
    pairs = _candidates(ranking, single)
    lines = []
    for pair, cover in zip(pairs, pair_covers(network, evidence, pairs), strict=True):
        either = sum(float(alone[network.cause_index[cause]]) for cause in pair)
        needed = cover - either
        if needed > max(single, LEAST_CHANCE):
            lines.append(_line(rules, pair, (cover, needed, single)))
    return tuple(sorted(lines, key=lambda line: (-line.probability, line.ids))[:SHOWN])


def _candidates(ranking: Ranking, single: float) -> list[Pair]:
    """One of the likeliest of each of two groups, the likeliest together first.

    A pair is left out whose chances cannot add up to more than the likeliest single cause.
    """
    causes, spoke = ranking.structure.network.causes, ranking.spoke[0]
    alone = ranking.in_every_group[0]
    tops = [np.argsort(-row, kind="stable")[:FROM_EACH_GROUP] for row in spoke]
    together: dict[tuple[int, int], float] = {}
    for one, other in combinations(range(len(tops)), 2):
        for places in product(tops[one], tops[other]):
            i, j = sorted(int(place) for place in places)
            most = float((spoke[:, i] + spoke[:, j]).min() - alone[i] - alone[j])
            if i != j and most > max(single, LEAST_CHANCE):
                chance = float(spoke[one, places[0]] * spoke[other, places[1]])
                together[i, j] = max(chance, together.get((i, j), 0.0))
    best = sorted(together, key=lambda pair: (-together[pair], pair))[:SOLVED]
    return [(causes[i], causes[j]) for i, j in best]


def _line(rules: RuleBase, pair: Pair, chances: tuple[float, float, float]) -> PairLine:
    cover, needed, single = chances
    decibans = 10.0 * math.log10(_odds(cover) / _odds(single))
    return PairLine(
        ids=pair,
        names=(rules.causes[pair[0]].name, rules.causes[pair[1]].name),
        probability=cover,
        both_needed=needed,
        single=single,
        decibans=min(decibans, MOST_DECIBANS),
    )


def _odds(chance: float) -> float:
    held = min(max(chance, _FLOOR), 1.0 - _FLOOR)
    return held / (1.0 - held)
