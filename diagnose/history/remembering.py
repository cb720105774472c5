"""What `diagnose --remember` keeps: the record, the words told beside it, and the answer."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, select

from diagnose.batch import Batch, batch_from
from diagnose.batch.probe_beside import log_beside
from diagnose.documents import parse_yaml, read_text
from diagnose.history.filing import Filing, content_of
from diagnose.history.finding_batches import numbered
from diagnose.history.keeping import Kept, Wish, keep_in
from diagnose.history.kinds import DiagnosisNote, TastingNote
from diagnose.history.noting import write_note_in
from diagnose.history.opening import Store
from diagnose.history.tables import batches, diagnoses
from diagnose.history.tasted import read_words
from diagnose.history.writing_down import compact
from diagnose.knowledge import RuleBase


def remember(
    store: Store,
    rules: RuleBase,
    batch: Batch,
    told: tuple[Mapping[str, Any], Sequence[str]],
    now: datetime,
) -> Kept:
    """Keep a batch and its diagnosis, in one transaction; the same again adds nothing.

    Args:
        store: where.
        rules: the rule base that answered.
        batch: the record; one that stands in no file is kept under the moment it was told.
        told: the answer as `diagnose --json` prints it, and the words given with `--taste`.
        now: the moment.

    Raises:
        UnusableInput: the record or its probe log cannot be read again.
        StoreUnusable: the store cannot be written.
    """
    answer, tastes = told
    rules_version = str(answer["rules"]["version"])
    with store.writing() as connection:
        kept = _kept(connection, rules, batch, now)
        if _said_before(connection, kept.key, rules_version, answer):
            return kept
        for words in tastes:
            understood = read_words(words, rules.lexicon)
            note = TastingNote(typed=words, at=now.date().isoformat(), **understood)
            write_note_in(connection, note, now, kept.key)
        diagnosis = DiagnosisNote(rules_version=rules_version, answer=answer)
        write_note_in(connection, diagnosis, now, kept.key)
    return kept


def _kept(connection: Connection, rules: RuleBase, batch: Batch, now: datetime) -> Kept:
    if batch.kept_as is None:
        return keep_in(connection, _filing(rules, batch, now), now, Wish())
    there = numbered(connection, batch.kept_as)
    return Kept(there.key, batch.name, there.current, "already there")


def filing_in_file(rules: RuleBase, batch: Batch) -> Filing | None:
    """The record as `history add` would read it; None where it stands in no file."""
    file = Path(batch.document.name)
    if not batch.document.data or not file.is_file():
        return None
    text = read_text(file)
    return Filing(content_of(rules, batch, text, log_beside(batch)), str(file.resolve()))


def _filing(rules: RuleBase, batch: Batch, now: datetime) -> Filing:
    written = filing_in_file(rules, batch)
    if written is not None:
        return written
    told = now.astimezone()
    text = f"batch: beer told of on {told:%Y-%m-%d at %H:%M:%S}\n"
    unwritten = batch_from(parse_yaml(text, "told.yaml", as_typed=True), Path(), told.date())
    return Filing(content_of(rules, unwritten, text, None), None)


def _said_before(
    connection: Connection, key: str, rules_version: str, answer: Mapping[str, Any]
) -> bool:
    """Whether the latest diagnosis of the batch is this one."""
    joined = diagnoses.join(batches, batches.c.id == diagnoses.c.batch_id)
    query = select(diagnoses.c.body).select_from(joined).where(batches.c.key == key)
    latest = connection.execute(query.order_by(diagnoses.c.id.desc())).scalars().first()
    return latest == compact({"rules_version": rules_version, "answer": answer})
