"""How answers look: on a terminal of 80 columns, with or without colour."""

from diagnose.report.demo_page import print_demo
from diagnose.report.diagnosis_page import print_diagnosis
from diagnose.report.other_pages import (
    print_batch,
    print_batch_check,
    print_card,
    print_card_list,
    print_next_steps,
    print_probe,
    print_rule_check,
    print_score,
    print_words,
)
from diagnose.report.strips import terminal

__all__ = [
    "print_batch",
    "print_batch_check",
    "print_card",
    "print_card_list",
    "print_demo",
    "print_diagnosis",
    "print_next_steps",
    "print_probe",
    "print_rule_check",
    "print_score",
    "print_words",
    "terminal",
]
