"""Worked cases: examples for people, and an exam for the rule base."""

from diagnose.casebook.case import Case, demo_case, read_cases
from diagnose.casebook.rule_check import check_rule_base
from diagnose.casebook.scoring import replay, score_case, score_cases

__all__ = [
    "Case",
    "check_rule_base",
    "demo_case",
    "read_cases",
    "replay",
    "score_case",
    "score_cases",
]
