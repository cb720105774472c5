"""The lists of the rule base: its cards, what its numbers rest on, the terms it covers."""

from diagnose.answers import BasisAnswer, CardList, CoverageAnswer
from diagnose.consult.basis import basis_of
from diagnose.consult.cards import list_cards
from diagnose.consult.coverage import coverage_of
from diagnose.errors import Fault, UnusableInput
from diagnose.knowledge import RuleBase

RuleList = CardList | CoverageAnswer | BasisAnswer


def list_rules(
    rules: RuleBase, kind: str | None, *, coverage: bool = False, basis: bool = False
) -> RuleList:
    """One list of the rule base.

    Args:
        rules: the rule base.
        kind: list the cards of this kind; None for how many there are of each.
        coverage: the terms of the published terminology and what reaches each, instead.
        basis: how many numbers rest on what, instead.

    Raises:
        UnusableInput: more than one of these is asked for, or no such kind.
    """
    asked = {kind: kind is not None, "--coverage": coverage, "--basis": basis}
    named = [str(name) for name, wanted in asked.items() if wanted]
    if len(named) > 1:
        raise UnusableInput(Fault("rules list", 0, "", " with ".join(named), "one of them"))
    if coverage:
        return coverage_of(rules)
    return basis_of(rules) if basis else list_cards(rules, kind)
