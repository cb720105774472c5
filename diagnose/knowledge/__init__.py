"""What the trade knows: the rule base, its schema, loader, graph and checks."""

from diagnose.knowledge.base import Place, RuleBase, fold
from diagnose.knowledge.causes import Cause, CircumstanceShares, Indicator
from diagnose.knowledge.checking import rule_faults
from diagnose.knowledge.compounds import Compound
from diagnose.knowledge.findings import Check, Circumstance, Measure
from diagnose.knowledge.graph import causal_graph, paths_between
from diagnose.knowledge.lists import Caution, Constant, Source, Style, YeastFamily
from diagnose.knowledge.loading import load_rules

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
    "RuleBase",
    "Source",
    "Style",
    "YeastFamily",
    "causal_graph",
    "fold",
    "load_rules",
    "paths_between",
    "rule_faults",
]
