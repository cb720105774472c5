"""What `diagnose --remember` keeps."""

from pathlib import Path

import pytest

from diagnose.batch import empty_batch, read_batch
from diagnose.history.brews import notes_of, read_brews
from diagnose.history.kinds import DiagnosisNote
from diagnose.history.remembering import remember
from tests.history.stores import NOW, TODAY, WITH_A_LOG, later

ANSWER = {"rules": {"version": "abc"}, "verdict_text": "It was the pack.", "faults": []}


@pytest.fixture
def batch():
    return read_batch(WITH_A_LOG / "batch.yaml", TODAY)


def test_a_diagnosis_is_kept_with_its_batch_its_words_and_its_rule_base(store, rules, batch):
    kept = remember(store, rules, batch, (ANSWER, ["a hint of plaster"]), NOW)
    (brew,) = read_brews(store)
    assert "a hint of plaster" in [one.words for one in brew.tastings]
    (noted,) = notes_of(store, DiagnosisNote, kept.key)
    assert (noted.note.rules_version, noted.note.answer) == ("abc", ANSWER)


def test_the_same_diagnosis_again_adds_nothing(store, rules, batch):
    remember(store, rules, batch, (ANSWER, ["plaster"]), NOW)
    before = read_brews(store)
    remember(store, rules, batch, (ANSWER, ["plaster"]), later(5))
    assert read_brews(store) == before
    assert len(notes_of(store, DiagnosisNote)) == 1


def test_beers_told_of_without_a_record_are_batches_of_their_own(store, rules):
    for minute in (0, 5):
        told = empty_batch("this beer", Path())
        remember(store, rules, told, (ANSWER, ["butter"]), later(minute))
    assert [brew.reported for brew in read_brews(store)] == [frozenset({"butter"})] * 2
