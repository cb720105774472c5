"""The ranking as recorded beside the ranking as supposed."""

from collections.abc import Sequence

from diagnose.answers import (
    ChanceRange,
    ChangedChance,
    ChangedGroup,
    ChangedHappening,
    Diagnosis,
    WhatIf,
)
from diagnose.consult.bands import with_bands
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.gathering import Consultation
from diagnose.consult.networks import network_of_batch
from diagnose.consult.supposing import Supposition, suppose
from diagnose.consult.type_next import after_supposing
from diagnose.evidence.gathering import gather
from diagnose.inference.ranking import Ranking, rank
from diagnose.knowledge import RuleBase

SHOWN = 12
# A chance that moves by less than this stays where it is, as far as anybody can tell. Judgement.
LEAST_MOVED = 0.01


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
    if _has_bands(diagnosis):
        after = with_bands(rules, changed.consultation, after)
    was, now = (_ranking(rules, one) for one in (consultation, changed.consultation))
    what_if = WhatIf(
        supposed=changed.supposed,
        without=changed.without,
        set_aside=changed.set_aside,
        replaced=changed.replaced,
        faults=tuple(
            _with_ranges(_group(rules, was, now, g), diagnosis, after)
            for g in range(len(now.structure.groups))
        ),
        happened=_happened(rules, was, now),
        type_next=after_supposing(consultation.batch, what.tastes),
        verdict=after.verdict,
        verdict_text=after.verdict_text,
        cautions=tuple(one for one in after.cautions if one not in diagnosis.cautions),
    )
    return diagnosis.model_copy(update={"what_if": what_if})


def _has_bands(diagnosis: Diagnosis) -> bool:
    causes = (cause for group in diagnosis.faults for cause in group.causes)
    return any(cause.responsible_range is not None for cause in causes)


def _happened(rules: RuleBase, was: Ranking, now: Ranking) -> tuple[ChangedHappening, ...]:
    """Causes whose chance to have happened moves, whether or not they make these flavours."""
    before = dict(zip(was.structure.network.causes, was.happened[0], strict=True))
    after = zip(now.structure.network.causes, now.happened[0], strict=True)
    moved = [
        ChangedHappening(
            id=cause,
            name=rules.causes[cause].name,
            was=float(before[cause]),
            happened=float(chance),
        )
        for cause, chance in after
        if abs(float(chance) - before[cause]) >= LEAST_MOVED
    ]
    return tuple(sorted(moved, key=lambda one: (-abs(one.change), one.id))[:SHOWN])


def _with_ranges(group: ChangedGroup, was: Diagnosis, now: Diagnosis) -> ChangedGroup:
    """The group with the ranges that both diagnoses have for its causes."""
    before, after = (_ranges(one, group.descriptors) for one in (was, now))
    causes = tuple(
        one.model_copy(
            update={
                "was_range": before.get(one.id) if one.was is not None else None,
                "responsible_range": after.get(one.id),
            }
        )
        for one in group.causes
    )
    return group.model_copy(update={"causes": causes})


def _ranges(diagnosis: Diagnosis, words: tuple[str, ...]) -> dict[str, ChanceRange | None]:
    """The ranges of the group that shares most words with these."""
    place = _nearest(words, [group.descriptors for group in diagnosis.faults])
    causes = () if place is None else diagnosis.faults[place].causes
    return {one.id: one.responsible_range for one in causes}


def _nearest(words: tuple[str, ...], groups: Sequence[tuple[str, ...]]) -> int | None:
    """The group that shares most words with these; None where none does."""
    shared = [len(set(words) & set(others)) for others in groups]
    return shared.index(max(shared)) if any(shared) else None


def _ranking(rules: RuleBase, consultation: Consultation) -> Ranking:
    network = network_of_batch(rules, consultation)
    return rank(network, [gather(rules, consultation.known)])


def _group(rules: RuleBase, was: Ranking, now: Ranking, group: int) -> ChangedGroup:
    """One group as supposed, beside the recorded group that shares most words with it."""
    words = now.structure.groups[group]
    before = _nearest(words, was.structure.groups)
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
