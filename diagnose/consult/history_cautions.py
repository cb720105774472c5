"""What is dangerous about a batch of the history: by its record, or by its latest diagnosis."""

from datetime import date

from diagnose.answers.caution import CautionLine
from diagnose.consult.card_cautions import gravest_lines_first
from diagnose.consult.cautioning import cautions_for
from diagnose.consult.gathering import consult_on
from diagnose.errors import UnusableInput
from diagnose.history.brews import notes_of
from diagnose.history.kinds import DiagnosisNote
from diagnose.history.opening import Store
from diagnose.history.replaying import batch_of
from diagnose.knowledge import RuleBase


def cautions_kept(rules: RuleBase, store: Store, key: str, today: date) -> tuple[CautionLine, ...]:
    """The cautions of a batch of the history, those that say stop first.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    lines = [*_by_record(rules, store, key, today), *_by_diagnosis(store, key)]
    return gravest_lines_first(dict.fromkeys(lines))


def _by_record(rules: RuleBase, store: Store, key: str, today: date) -> tuple[CautionLine, ...]:
    """None where the batch is withdrawn, or no longer reads as it did when it was kept."""
    try:
        batch, log = batch_of(store, key, today)
        return cautions_for(rules, consult_on(rules, batch, log=log), ())
    except UnusableInput:
        return ()


def _by_diagnosis(store: Store, key: str) -> list[CautionLine]:
    diagnoses = notes_of(store, DiagnosisNote, key)
    lines = diagnoses[-1].note.answer.get("cautions", ()) if diagnoses else ()
    return [CautionLine.model_validate(line) for line in lines]
