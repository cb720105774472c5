"""How answers look: on a terminal of 80 columns, with or without colour.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.report.batch_pages import print_batch, print_batch_check
    from diagnose.report.demo_page import print_demo
    from diagnose.report.diagnosis_page import print_diagnosis
    from diagnose.report.html import diagnosis_html
    from diagnose.report.other_pages import (
        print_card,
        print_next_steps,
        print_probe,
        print_profiles,
        print_rule_check,
        print_score,
        print_words,
    )
    from diagnose.report.progress import ProgressBar
    from diagnose.report.rule_pages import (
        print_basis,
        print_card_list,
        print_coverage,
        print_rule_list,
    )
    from diagnose.report.strips import standing_by, terminal
    from diagnose.report.waiting import Waiting
else:
    from diagnose.fetching import fetched_from

    _HOMES = {
        "ProgressBar": "progress",
        "Waiting": "waiting",
        "diagnosis_html": "html",
        "print_basis": "rule_pages",
        "print_batch": "batch_pages",
        "print_batch_check": "batch_pages",
        "print_card": "other_pages",
        "print_card_list": "rule_pages",
        "print_coverage": "rule_pages",
        "print_demo": "demo_page",
        "print_diagnosis": "diagnosis_page",
        "print_next_steps": "other_pages",
        "print_probe": "other_pages",
        "print_profiles": "other_pages",
        "print_rule_check": "other_pages",
        "print_rule_list": "rule_pages",
        "print_score": "other_pages",
        "print_words": "other_pages",
        "standing_by": "strips",
        "terminal": "strips",
    }
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = [
    "ProgressBar",
    "Waiting",
    "diagnosis_html",
    "print_basis",
    "print_batch",
    "print_batch_check",
    "print_card",
    "print_card_list",
    "print_coverage",
    "print_demo",
    "print_diagnosis",
    "print_next_steps",
    "print_probe",
    "print_profiles",
    "print_rule_check",
    "print_rule_list",
    "print_score",
    "print_words",
    "standing_by",
    "terminal",
]
