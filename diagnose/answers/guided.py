"""What a guided entry asks, shows and comes to."""

from typing import Any, Literal

from pydantic import Field as Key

from diagnose.answers.caution import CautionLine
from diagnose.answers.diagnosis import NextStep, Verdict
from diagnose.answers.part import Said


def _schema(command: str) -> Any:
    return Key(default=f"faultwort/{command}/1", serialization_alias="schema")


class Suspect(Said):
    """One line of a short ranking; `behind` names the flavours of its group."""

    id: str
    name: str
    behind: tuple[str, ...]
    responsible: float


class Asked(Said):
    """One question as it is put; `choices` may be answered by their number."""

    id: str
    kind: Literal["entry", "question", "check"]
    text: str
    choices: tuple[str, ...] = ()
    hint: str = ""
    gain_bits: float = 0.0
    minutes: float = 1.0


class EntryWritten(Said):
    """One answer as it stands in the record.

    `said` is what it was taken for where it was typed otherwise, `remarks` are doubts about it.
    """

    id: str
    entry: str
    value: str
    line: int
    said: str = ""
    remarks: tuple[str, ...] = ()


class SittingAnswer(Said):
    """A record that was asked for step by step, and what it comes to."""

    schema_: str = _schema("batch-new")
    record: str
    answered: int
    not_known: int
    suspects: tuple[Suspect, ...]
    verdict: Verdict
    verdict_text: str
    cautions: tuple[CautionLine, ...]
    next_: tuple[NextStep, ...] = Key(serialization_alias="next")


class AskAnswer(Said):
    """Answers written into a record: the ranking before and after, and what to ask next."""

    schema_: str = _schema("ask")
    batch: str
    record: str
    answered: tuple[EntryWritten, ...]
    before: tuple[Suspect, ...]
    after: tuple[Suspect, ...]
    verdict: Verdict
    verdict_text: str
    cautions: tuple[CautionLine, ...]
    next_: tuple[NextStep, ...] = Key(serialization_alias="next")
