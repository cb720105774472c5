"""A papery bitter, the two arms of its split, and plans and panels made of them."""

from datetime import date
from functools import cache
from typing import Any

from diagnose.consult import Consultation, consult_on
from diagnose.consult.split_planning import planned
from diagnose.trial.panel import BallotsAsked
from diagnose.trial.plan import Plan
from diagnose.trial.planning import PlanAsked
from tests.evidence.records import batch_of
from tests.knowledge.shipped import rule_base

DAY = date(2026, 7, 1)
CAUSE = "oxygen_at_packaging"
TASTERS = ("Wren", "Pike", "Tansy", "Moss", "Finch", "Rook", "Heron", "Teal", "Swift")
FAULTY = """\
batch: papery bitter
zone: Europe/London
brewed: 2026-03-01
style: bitter
volume: 23 L
recipe: {fermentables: [{name: pale malt, kind: base malt, amount: 4 kg}]}
pitch: {when: 2026-03-01 18:00, at: 18 C, yeast: {family: clean ale, form: dry, amount: 11 g}}
gravity: {original: 1.044, final: 1.011}
fermentation: {temperature: 19 C}
packaging: {when: 2026-03-21, package: bottle, size: 500 mL, fill: open pour, purged: "no"}
storage: [{since: 2026-03-21, time: 10 weeks, at: 20 C}]
fault: {course: grows}
tastings: [{who: Wren, words: wet cardboard}]
"""
_ARM = """\
batch: arm
zone: Europe/London
brewed: 2026-04-01
style: bitter
volume: 5 L
pitch: {when: 2026-04-01 18:00, at: 18 C, yeast: {family: clean ale, form: dry, amount: 3 g}}
gravity: {original: 1.044, final: FINAL}
fermentation: {temperature: 19 C}
packaging: {when: 2026-04-21, package: bottle, size: 500 mL, FILL}
storage: [{since: 2026-04-21, time: 6 weeks, at: KEPT}]
"""
_AIRY, _PURGED = 'fill: open pour, purged: "no"', 'fill: counter-pressure, purged: "yes"'


def arm_text(name: str, *, kept: str = "12 C", final: str = "1.011") -> str:
    """The record of arm A (air let in) or B (purged), with what else may be made to differ."""
    text = _ARM.replace("FILL", _AIRY if name == "A" else _PURGED)
    return text.replace("KEPT", kept).replace("FINAL", final).replace("arm\n", f"arm {name}\n", 1)


def consultation_of(text: str) -> Consultation:
    """What is known of a record."""
    return consult_on(rule_base(), batch_of(text))


@cache
def papery() -> Consultation:
    """What is known of the papery bitter."""
    return consultation_of(FAULTY)


def plan_of(*causes: str, text: str = FAULTY, **told: Any) -> Plan:
    """A plan for the papery bitter."""
    asked: dict[str, Any] = {"litres": 23.0, "start": DAY, "seed": 7, "made": DAY}
    consultation = papery() if text == FAULTY else consultation_of(text)
    asked |= {"causes": causes or (CAUSE,)} | told
    return planned(rule_base(), consultation, PlanAsked(**asked))


@cache
def usual_plan() -> Plan:
    """The plan that most tests start from."""
    return plan_of()


def asked_of(test: str = "2-afc", **told: Any) -> BallotsAsked:
    """A panel of nine."""
    return BallotsAsked(**({"tasters": TASTERS, "test": test, "made": DAY} | told))
