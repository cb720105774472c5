"""A plan from a batch and a suspect."""

from dataclasses import replace

from diagnose.answers.caution import CautionLine
from diagnose.batch import NotLogged, logged_entries
from diagnose.consult.diagnosing import diagnose
from diagnose.consult.gathering import Consultation
from diagnose.consult.split_choosing import ranking_of
from diagnose.evidence.finding import NumberFinding
from diagnose.knowledge import RuleBase, named_cause
from diagnose.trial.plan import Plan, Warned
from diagnose.trial.planning import BatchFacts, PlanAsked, plan_split
from diagnose.trial.readings import NOTHING_TAUGHT, Taught

_IN_THE_BEER = ("recipe", "water", "salts", "acids")


def planned(
    rules: RuleBase, consultation: Consultation, asked: PlanAsked, taught: Taught = NOTHING_TAUGHT
) -> Plan:
    """The plan; a volume of 0 stands for that of the record.

    Args:
        rules: the rule base.
        consultation: the batch.
        asked: what the brewer wants.
        taught: what splits of it taught before.

    Raises:
        UnusableInput: see `plan_split`.
    """
    causes = tuple(named_cause(rules, typed) for typed in asked.causes)
    facts = BatchFacts(
        name=consultation.batch.name,
        ranking=ranking_of(rules, consultation, taught),
        circumstances=consultation.known.circumstances,
        alcohol_percent=_alcohol(consultation),
        contains=_contains(consultation),
        cautions=_cautions(rules, consultation, causes),
        taught=taught.ratios,
    )
    litres = asked.litres or _litres(consultation)
    return plan_split(rules, facts, replace(asked, causes=causes, litres=litres))


# A batch whose volume is nowhere to be found. Practice: the commonest home brew length.
_USUAL_LITRES = 20.0


def _litres(consultation: Consultation) -> float:
    volume = consultation.batch.record.volume
    return _USUAL_LITRES if isinstance(volume, NotLogged) else volume.value


def _alcohol(consultation: Consultation) -> float | None:
    finding = consultation.known.findings.get("alcohol_percent")
    return finding.band.mid if isinstance(finding, NumberFinding) else None


def _contains(consultation: Consultation) -> tuple[str, ...]:
    """Names of all that went in, as they were written."""
    entries = logged_entries(consultation.batch.record)
    names = [
        str(value)
        for path, value in entries
        if path[0] in _IN_THE_BEER and path[-1] in ("name", "kind") and isinstance(value, str)
    ]
    return tuple(dict.fromkeys(names))


def _cautions(
    rules: RuleBase, consultation: Consultation, causes: tuple[str, ...]
) -> tuple[Warned, ...]:
    """The diagnosis's cautions, and those of the suspects' own cards."""
    found = [
        Warned(level=one.level, text=one.text) for one in diagnose(rules, consultation).cautions
    ]
    for cause in causes:
        if cause not in rules.causes:
            continue
        for card in rules.cautions.values():
            triggered = any(trigger.cause == cause for trigger in card.when)
            named = card.id in rules.causes[cause].cautions and card.level != "stop"
            if triggered or named:
                found.append(Warned(level=card.level, text=card.text))
    order = {"stop": 0, "warn": 1, "note": 2}
    return tuple(sorted(dict.fromkeys(found), key=lambda one: order[one.level]))


def cautions_of(plan: Plan) -> tuple[CautionLine, ...]:
    """The cautions that were written into a plan."""
    return tuple(CautionLine(level=one.level, text=one.text) for one in plan.cautions)
