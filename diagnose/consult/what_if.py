"""The ranking as recorded beside the ranking as supposed."""

from diagnose.answers import ChangedChance, ChangedGroup, Diagnosis, WhatIf
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.supposing import Supposition, suppose
from diagnose.evidence.gathering import gather
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase

SHOWN = 12


def with_what_if(
    rules: RuleBase, consultation: Consultation, diagnosis: Diagnosis, what: Supposition
) -> Diagnosis:
    """The diagnosis with the ranking as supposed beside it; as it is where nothing is supposed.

    Args:
        rules: the rule base.
        consultation: the batch as recorded.
        diagnosis: what came of it.
        what: what is supposed and left out.

    Raises:
        UnusableInput: something typed is not understood, or no record may hold it.
    """
    if not what.suppose and not what.without:
        return diagnosis
    changed = suppose(rules, consultation, what)
    after = diagnose(rules, changed.consultation)
    was, now = (_ranking(rules, one) for one in (consultation, changed.consultation))
    what_if = WhatIf(
        supposed=changed.supposed,
        without=changed.without,
        set_aside=changed.set_aside,
        faults=tuple(_group(rules, was, now, g) for g in range(len(now.structure.groups))),
        verdict=after.verdict,
        verdict_text=after.verdict_text,
        cautions=tuple(one for one in after.cautions if one not in diagnosis.cautions),
    )
    return diagnosis.model_copy(update={"what_if": what_if})


def _ranking(rules: RuleBase, consultation: Consultation) -> Ranking:
    network = network_of_batch(rules, consultation)
    return rank(network, [gather(rules, consultation.known)])


def _group(rules: RuleBase, was: Ranking, now: Ranking, group: int) -> ChangedGroup:
    """One group as supposed, beside the recorded group that shares most words with it."""
    words = now.structure.groups[group]
    shared = [len(set(words) & set(others)) for others in was.structure.groups]
    before = shared.index(max(shared)) if any(shared) else None
    shares = now.shares[0, group]
    old = was.shares[0, before] if before is not None else None
    causes = now.structure.network.causes
    best = [max(share, old[i] if old is not None else 0.0) for i, share in enumerate(shares[:-2])]
    shown = sorted(range(len(causes)), key=lambda i: (-best[i], causes[i]))[:SHOWN]
    shown.sort(key=lambda i: (-shares[i], causes[i]))

    def chance(place: int, name_id: str, name: str) -> ChangedChance:
        recorded = float(old[place]) if old is not None else None
        return ChangedChance(id=name_id, name=name, was=recorded, responsible=float(shares[place]))

    return ChangedGroup(
        descriptors=words,
        names=tuple(rules.descriptors[word].name for word in words),
        causes=tuple(chance(i, causes[i], rules.causes[causes[i]].name) for i in shown),
        expected_here=chance(-2, "expected_here", "this beer brings it by itself"),
        not_in_rule_base=chance(
            -1, "not_in_rule_base", "something unknown here, or nothing at all"
        ),
    )
