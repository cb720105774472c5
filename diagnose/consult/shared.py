"""Causes seen over all groups of words: one for all of them, or at work and behind none."""

from diagnose.answers import Bystander, OneForAll
from diagnose.evidence.pieces import Evidence
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase

SHOWN = 3
LEAST_CHANCE = 0.05
# A group that is likelier unexplained than not is left aside.
UNEXPLAINED_FROM = 0.5


def one_for_all(rules: RuleBase, evidence: Evidence, ranking: Ranking) -> tuple[OneForAll, ...]:
    """Causes that may speak in every group of words, the likeliest first.

    Words that nothing here explains are left aside, so that they do not hide a cause of all
    the others.
    """
    _, ranking = explained(evidence, ranking)
    if len(ranking.structure.groups) < 2:
        return ()
    network, chances = ranking.structure.network, ranking.in_every_group[0]
    likely = [i for i in range(len(network.causes)) if chances[i] >= LEAST_CHANCE]
    order = sorted(likely, key=lambda i: (-chances[i], network.causes[i]))
    return tuple(
        OneForAll(
            id=network.causes[i],
            name=rules.causes[network.causes[i]].name,
            probability=float(chances[i]),
        )
        for i in order[:SHOWN]
    )


# From this chance on a cause "probably acted"; below this share it does not make the flavours.
ACTED_FROM = 0.3
BEHIND_NOTHING_BELOW = 0.02


def bystanders(rules: RuleBase, ranking: Ranking) -> tuple[Bystander, ...]:
    """Causes the record speaks for that do not make these flavours, the likeliest first."""
    if not ranking.structure.groups:
        return ()
    network, happened = ranking.structure.network, ranking.happened[0]
    behind = ranking.responsible[0].max(axis=0)
    found = [
        i
        for i in range(len(network.causes))
        if happened[i] >= ACTED_FROM and behind[i] < BEHIND_NOTHING_BELOW
    ]
    order = sorted(found, key=lambda i: (-happened[i], network.causes[i]))
    return tuple(
        Bystander(
            id=network.causes[i],
            name=rules.causes[network.causes[i]].name,
            happened=float(happened[i]),
        )
        for i in order[:SHOWN]
    )


def explained(evidence: Evidence, ranking: Ranking) -> tuple[Evidence, Ranking]:
    """The evidence and its ranking without the words that are likelier unexplained than not.

    They stay as they are where fewer than two groups would be left.
    """
    groups, unknown = ranking.structure.groups, ranking.not_in_rule_base[0]
    aside = [g for g in range(len(groups)) if unknown[g] >= UNEXPLAINED_FROM]
    if not aside or len(groups) - len(aside) < 2:
        return evidence, ranking
    for group in aside:
        for word in groups[group]:
            evidence = evidence.without(word, "word")
    return evidence, rank(ranking.structure.network, [evidence])
