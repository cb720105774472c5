"""What the trade knows: the rule base, its schema, loader, graph and checks.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.knowledge.base import Place, RuleBase, fold
    from diagnose.knowledge.causes import Cause, CircumstanceShares, Indicator
    from diagnose.knowledge.checking import rule_faults
    from diagnose.knowledge.compounds import Compound
    from diagnose.knowledge.covering import Ways, is_covered, ways_to
    from diagnose.knowledge.findings import Check, Circumstance, Measure
    from diagnose.knowledge.graph import causal_graph, paths_between
    from diagnose.knowledge.lists import (
        Caution,
        Constant,
        Retired,
        Source,
        Style,
        Term,
        YeastFamily,
    )
    from diagnose.knowledge.loading import load_rules
    from diagnose.knowledge.near import named_cause, near_causes, near_causes_said
    from diagnose.knowledge.retiring import retired_sides
else:
    from diagnose.fetching import fetched_from

    _HOMES = {
        "Cause": "causes",
        "Caution": "lists",
        "Check": "findings",
        "Circumstance": "findings",
        "CircumstanceShares": "causes",
        "Compound": "compounds",
        "Constant": "lists",
        "Indicator": "causes",
        "Measure": "findings",
        "Place": "base",
        "Retired": "lists",
        "RuleBase": "base",
        "Source": "lists",
        "Style": "lists",
        "Term": "lists",
        "Ways": "covering",
        "YeastFamily": "lists",
        "causal_graph": "graph",
        "fold": "base",
        "is_covered": "covering",
        "load_rules": "loading",
        "named_cause": "near",
        "near_causes": "near",
        "near_causes_said": "near",
        "paths_between": "graph",
        "retired_sides": "retiring",
        "rule_faults": "checking",
        "ways_to": "covering",
    }
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = [
    "Cause",
    "Caution",
    "Check",
    "Circumstance",
    "CircumstanceShares",
    "Compound",
    "Constant",
    "Indicator",
    "Measure",
    "Place",
    "Retired",
    "RuleBase",
    "Source",
    "Style",
    "Term",
    "Ways",
    "YeastFamily",
    "causal_graph",
    "fold",
    "is_covered",
    "load_rules",
    "named_cause",
    "near_causes",
    "near_causes_said",
    "paths_between",
    "retired_sides",
    "rule_faults",
    "ways_to",
]
