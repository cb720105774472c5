"""The whole check of a rule base: every card, the rules between cards, and the cases they name."""

from pathlib import Path

from diagnose.answers import FaultLine, RuleCheck
from diagnose.casebook.case import read_cases
from diagnose.casebook.mentions import case_faults
from diagnose.consult.cards import LISTED
from diagnose.errors import Fault, UnusableInput
from diagnose.knowledge import load_rules, rule_faults


def check_rule_base(rules_folder: Path, cases_folder: Path) -> RuleCheck:
    """Check a rule base and the ids its cases use; what cannot be loaded is reported as faults."""
    try:
        rules = load_rules(rules_folder)
        cases = read_cases(cases_folder)
    except UnusableInput as error:
        return RuleCheck(cards={}, faults=tuple(_line(fault) for fault in error.faults))
    names = frozenset(case.card.id for case in cases)
    faults = [*rule_faults(rules, names), *case_faults(rules, cases)]
    return RuleCheck(
        cards={kind: len(getattr(rules, kind)) for kind in LISTED},
        faults=tuple(_line(fault) for fault in faults),
    )


def _line(fault: Fault) -> FaultLine:
    return FaultLine(
        file=fault.file, line=fault.line, key=fault.key, found=fault.found, wanted=fault.wanted
    )
