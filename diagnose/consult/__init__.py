"""What a brewer can ask for.

A name is fetched from its module when it is asked for, so that a command waits only for what
it uses.
"""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from diagnose.consult.background import to_show
    from diagnose.consult.bands import with_bands
    from diagnose.consult.basis import basis_of
    from diagnose.consult.batches import check_batch, show_batch
    from diagnose.consult.cards import card_sheet, explain_card, list_cards
    from diagnose.consult.coverage import coverage_of
    from diagnose.consult.diagnosing import diagnose
    from diagnose.consult.gathering import Consultation, consult_on
    from diagnose.consult.listing import list_rules
    from diagnose.consult.networks import network_for
    from diagnose.consult.page_file import write_page
    from diagnose.consult.probe_profiles import (
        ProbeQuestion,
        answer_probe,
        forget_saved,
        list_saved,
    )
    from diagnose.consult.probes import describe_probe
    from diagnose.consult.supposing import Supposition
    from diagnose.consult.what_if import with_what_if
    from diagnose.consult.words import words_answer
else:
    from diagnose.fetching import fetched_from

    _HOMES = {
        "Consultation": "gathering",
        "Supposition": "supposing",
        "basis_of": "basis",
        "card_sheet": "cards",
        "check_batch": "batches",
        "consult_on": "gathering",
        "coverage_of": "coverage",
        "describe_probe": "probes",
        "ProbeQuestion": "probe_profiles",
        "answer_probe": "probe_profiles",
        "forget_saved": "probe_profiles",
        "list_saved": "probe_profiles",
        "diagnose": "diagnosing",
        "explain_card": "cards",
        "list_cards": "cards",
        "list_rules": "listing",
        "network_for": "networks",
        "show_batch": "batches",
        "to_show": "background",
        "with_bands": "bands",
        "with_what_if": "what_if",
        "words_answer": "words",
        "write_page": "page_file",
    }
    __getattr__ = fetched_from(__name__, _HOMES)


__all__ = [
    "Consultation",
    "ProbeQuestion",
    "Supposition",
    "answer_probe",
    "basis_of",
    "card_sheet",
    "check_batch",
    "consult_on",
    "coverage_of",
    "describe_probe",
    "diagnose",
    "explain_card",
    "forget_saved",
    "list_cards",
    "list_rules",
    "list_saved",
    "network_for",
    "show_batch",
    "to_show",
    "with_bands",
    "with_what_if",
    "words_answer",
    "write_page",
]
