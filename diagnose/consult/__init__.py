"""What a brewer can ask for."""

from diagnose.consult.batches import check_batch, show_batch
from diagnose.consult.cards import card_sheet, explain_card, list_cards, network_for
from diagnose.consult.diagnosing import diagnose, first_outcomes
from diagnose.consult.gathering import Consultation, consult_on
from diagnose.consult.probes import describe_probe
from diagnose.consult.words import words_answer

__all__ = [
    "Consultation",
    "card_sheet",
    "check_batch",
    "consult_on",
    "describe_probe",
    "diagnose",
    "explain_card",
    "first_outcomes",
    "list_cards",
    "network_for",
    "show_batch",
    "words_answer",
]
