"""Which cautions apply: by a measure, a word, a suspect or a salt; the gravest first."""

from dataclasses import dataclass

from diagnose.answers import CautionLine, FaultGroup
from diagnose.consult.alarming import Told, told_by
from diagnose.consult.card_cautions import gravest_first
from diagnose.consult.gathering import Consultation
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.knowledge import RuleBase
from diagnose.knowledge.lists import Caution, Trigger

# A suspect at least this likely brings the cautions of its card. Judgement.
SUSPECT_FROM = 0.10


@dataclass(frozen=True)
class _Seen:
    """What a trigger is held against."""

    consultation: Consultation
    told: Told
    suspects: frozenset[str]


def cautions_for(
    rules: RuleBase, consultation: Consultation, faults: tuple[FaultGroup, ...]
) -> tuple[CautionLine, ...]:
    """The cautions for a diagnosis, those that say stop first."""
    suspects = frozenset(c.id for g in faults for c in g.causes if c.responsible >= SUSPECT_FROM)
    named = {name for suspect in suspects for name in rules.causes[suspect].cautions}
    seen = _Seen(consultation, told_by(rules, consultation), suspects)
    return gravest_first(
        card
        for card in rules.cautions.values()
        if ((card.id in named and card.level != "stop") or _any(card.when, seen))
        and _fits(card, seen)
    )


def set_off_by_record(rules: RuleBase, consultation: Consultation) -> frozenset[str]:
    """Ids of the cautions that the record and the words set off, whoever is suspected."""
    seen = _Seen(consultation, told_by(rules, consultation), frozenset())
    return frozenset(
        card.id for card in rules.cautions.values() if _any(card.when, seen) and _fits(card, seen)
    )


def _fits(card: Caution, seen: _Seen) -> bool:
    return not _any(card.unless, seen) and (not card.only or _any(card.only, seen))


def _any(triggers: tuple[Trigger, ...], seen: _Seen) -> bool:
    return any(_met(trigger, seen) for trigger in triggers)


def _met(trigger: Trigger, seen: _Seen) -> bool:
    if trigger.said:
        return any(map(seen.told.of, trigger.said))
    if trigger.descriptor is not None:
        heard = seen.consultation.known.heard
        return any(o.descriptor == trigger.descriptor and o.state == "reported" for o in heard)
    if trigger.cause is not None:
        return trigger.cause in seen.suspects
    if trigger.salt is not None:
        return any(one.salt == trigger.salt for one in seen.consultation.batch.record.salts)
    return _met_by(trigger, seen.consultation.known.findings.get(trigger.measure or ""))


def _met_by(trigger: Trigger, finding: Finding | None) -> bool:
    if isinstance(finding, ClassFinding):
        return finding.value in trigger.any_of
    if not isinstance(finding, NumberFinding):
        return False
    # Safety looks at the unfavourable end of the range, not at its middle.
    if trigger.at_least is not None:
        return finding.band.high >= trigger.at_least
    return trigger.at_most is not None and finding.band.low <= trigger.at_most
