"""Batches in the store: once, in versions, and back again."""

from dataclasses import replace

import pytest

from diagnose.batch import read_batch
from diagnose.errors import UnusableInput
from diagnose.history.brews import notes_of, probe_log_of, read_brews
from diagnose.history.filing import content_of, log_beside, read_filing
from diagnose.history.keeping import Wish, keep_batch, restore, undo
from diagnose.history.kinds import EventNote, TastingNote, Verdict
from diagnose.history.listing import Wanted, list_batches
from diagnose.history.noting import correct_note, restore_note, withdraw_note, write_note
from diagnose.history.replaying import batch_of, refresh
from diagnose.history.showing import show_batch
from tests.history.stores import CASES, NOW, TODAY, WITH_A_LOG, filed, later

KEY = "house-pale-2026-05-02"


def test_the_same_file_twice_is_one_batch(store, rules, tmp_path):
    first = keep_batch(store, filed(rules, tmp_path), NOW)
    again = keep_batch(store, filed(rules, tmp_path), later(1))
    assert (first.outcome, again.outcome) == ("new batch", "already there")
    assert [line.version for line in list_batches(store)] == [1]


def test_the_same_record_from_another_folder_is_one_batch(store, rules, tmp_path):
    elsewhere = tmp_path / "copy"
    elsewhere.mkdir()
    keep_batch(store, filed(rules, tmp_path), NOW)
    assert keep_batch(store, filed(rules, elsewhere, "x.yaml"), NOW).outcome == "already there"


# What was changed in the file, and what that makes of it; the rules of `keep_batch`.
CHANGES = [
    ({"pitch": "{at: 64 F}"}, "new version"),
    ({"batch": "house pale, for the fete"}, "new version"),
    ({"brewed": "2026-05-09"}, "new batch"),
    ({"brewed": "2026-05-09", "batch": "brown ale"}, "new batch"),
]


@pytest.mark.parametrize(("changed", "outcome"), CHANGES)
def test_a_changed_file_is_a_new_version_unless_it_tells_of_another_brew(
    store, rules, tmp_path, changed, outcome
):
    keep_batch(store, filed(rules, tmp_path), NOW)
    assert keep_batch(store, filed(rules, tmp_path, **changed), later(1)).outcome == outcome


def test_two_brewers_may_brew_the_same_name_on_one_day(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path, "a.yaml"), NOW)
    other = keep_batch(store, filed(rules, tmp_path, "b.yaml", brewer="Sedge"), NOW)
    assert (other.outcome, other.key) == ("new batch", f"{KEY}-2")


def test_a_brewer_may_say_that_it_is_a_batch_of_its_own(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    arm = filed(rules, tmp_path, "arm.yaml", pitch="{at: 72 F}")
    assert keep_batch(store, arm, NOW, Wish(apart=True)).key == f"{KEY}-2"


def test_a_brewer_may_say_which_batch_a_corrected_date_belongs_to(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    corrected = filed(rules, tmp_path, brewed="2026-05-09")
    kept = keep_batch(store, corrected, NOW, Wish(of=KEY, reason="read the calendar wrong"))
    assert (kept.key, kept.number) == (KEY, 2)


def test_undo_gives_the_version_before_and_undone_gives_it_back(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    keep_batch(store, filed(rules, tmp_path, pitch="{at: 90 F}"), later(1))
    before = read_brews(store)
    undo(store, KEY, later(2), "the thermometer was in the sun")
    after = read_brews(store)
    undo(store, KEY, later(3))
    assert before == read_brews(store)
    assert after[0].measures["pitch_c"][1] == pytest.approx(18.9, abs=0.1)


def test_a_batch_undone_from_its_first_version_is_nowhere_and_can_be_restored(
    store, rules, tmp_path
):
    keep_batch(store, filed(rules, tmp_path), NOW)
    before = read_brews(store)
    undo(store, KEY, later(1))
    assert read_brews(store) == [] and list_batches(store) == []
    restore(store, KEY, 1, later(2))
    assert read_brews(store) == before


def test_every_version_stays_visible_with_what_it_changed(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    keep_batch(store, filed(rules, tmp_path, pitch="{at: 90 F}"), later(1))
    undo(store, KEY, later(2), "a slip")
    shown = show_batch(store, "house")
    assert [(one.number, one.how, one.reason) for one in shown.versions] == [
        (1, "added", None),
        (2, "added", None),
        (3, "restored", "a slip"),
    ]
    (changed,) = shown.versions[1].changed
    assert (changed.entry, changed.was, changed.now) == ("pitch.at", "66 F", "90 F")


def test_words_and_quantities_are_kept_as_typed_and_as_read(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    shown = show_batch(store, KEY)
    pitched = next(entry for entry in shown.entries if entry["key"] == "pitch.at")
    assert (pitched["typed"], pitched["unit"]) == ("66 F", "C")
    assert shown.tastings[0]["words"] == "buttery, no sourness"
    assert "butter" in " ".join(shown.tastings[0]["reported"]) and shown.tastings[0]["absent"]


# (filter, whether the house pale of 2026-05-02 with its butter passes)
FILTERS = [
    (Wanted(since="2026-05-02", until="2026-05-02"), True),
    (Wanted(since="2026-05-03"), False),
    (Wanted(until="2026-05-01"), False),
    (Wanted(style="pale_ale"), True),
    (Wanted(style="PALE"), True),
    (Wanted(style="%"), False),
    (Wanted(flaw=frozenset({"butter"})), True),
    (Wanted(flaw=frozenset({"plaster"})), False),
]


@pytest.mark.parametrize(("wanted", "passes"), FILTERS)
def test_the_list_and_the_brews_obey_a_filter_alike(store, rules, tmp_path, wanted, passes):
    keep_batch(store, filed(rules, tmp_path), NOW)
    assert bool(list_batches(store, wanted)) == bool(read_brews(store, wanted)) == passes


@pytest.mark.parametrize("typed", ["", "nothing-of-the-kind", "house"])
def test_a_batch_is_refused_when_its_name_fits_none_or_several(store, rules, tmp_path, typed):
    keep_batch(store, filed(rules, tmp_path), NOW)
    keep_batch(store, filed(rules, tmp_path, brewed="2026-06-02"), NOW)
    with pytest.raises(UnusableInput, match=r"wanted (a batch that|one of house-pale)"):
        undo(store, typed, NOW)


def test_a_stored_batch_measures_as_its_file_does(store, rules):
    key = keep_batch(store, read_filing(rules, WITH_A_LOG, TODAY), NOW).key
    batch = read_batch(WITH_A_LOG / "batch.yaml", TODAY)
    from_file = content_of(rules, batch, "", log_beside(batch))
    again, log = batch_of(store, key, TODAY)
    assert content_of(rules, again, "", log).computed == from_file.computed


def test_a_probe_log_comes_back_as_it_was(store, rules):
    filing = read_filing(rules, WITH_A_LOG, TODAY)
    key = keep_batch(store, filing, NOW).key
    log, read = probe_log_of(store, key), log_beside(read_batch(WITH_A_LOG / "batch.yaml", TODAY))
    assert log is not None and read is not None
    assert log.notes == read.notes and log.layout == read.layout and log.zone == read.zone
    for role, series in read.series.items():
        assert series.values.tobytes() == log.series[role].values.tobytes()
        assert all(
            (log.series[role].flags[kind] == series.flags[kind]).all() for kind in series.flags
        )


def test_measures_of_an_earlier_rule_base_are_computed_anew_on_request(store, rules, tmp_path):
    filing = filed(rules, tmp_path)
    old = {**filing.content.computed, "rules_version": "older", "findings": {}}
    keep_batch(store, replace(filing, content=replace(filing.content, computed=old)), NOW)
    assert refresh(store, rules, TODAY).measured == 1
    assert read_brews(store)[0].measures == read_brews_of(filing)
    assert refresh(store, rules, TODAY).measured == 0


def read_brews_of(filing):
    found = filing.content.computed["findings"]
    return {key: one if isinstance(one, str) else tuple(one) for key, one in found.items()}


def test_a_corrected_verdict_counts_and_the_first_stays(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    uid = write_note(store, Verdict(cause="under_pitched", who="Tansy"), NOW, KEY)
    correct_note(store, uid, Verdict(cause="crashed_too_soon"), later(1), "split read")
    assert [one.verdict for one in list_batches(store)] == ["crashed_too_soon"]
    assert [note.number for note in show_batch(store, KEY).notes] == [1, 2]


def test_a_withdrawn_note_counts_no_more_until_it_is_restored(store, rules, tmp_path):
    keep_batch(store, filed(rules, tmp_path), NOW)
    note = TastingNote(typed="plaster", reported={"plaster": None}, who="Moth")
    uid = write_note(store, note, NOW, KEY)
    withdraw_note(store, TastingNote, uid, later(1))
    assert "plaster" not in list_batches(store)[0].reported
    assert "plaster" not in read_brews(store)[0].reported
    restore_note(store, TastingNote, uid, 1, later(2))
    assert "plaster" in list_batches(store)[0].reported
    assert [one.note for one in notes_of(store, TastingNote)] == [note]


def test_an_event_may_be_about_no_batch(store):
    event = EventNote(kind="cleaning", typed="took the ball valve apart", at="2026-04-01")
    write_note(store, event, NOW)
    (noted,) = notes_of(store, EventNote)
    assert (noted.batch, noted.note) == (None, event)


def test_the_same_note_at_the_same_moment_is_one_note(store):
    event = EventNote(kind="water", typed="new filter")
    assert write_note(store, event, NOW) == write_note(store, event, NOW)
    assert len(notes_of(store, EventNote)) == 1


def test_every_shipped_case_can_be_kept(store, rules):
    cases = sorted(CASES.glob("*/batch.yaml"))[::6]
    for case in cases:
        keep_batch(store, read_filing(rules, case, TODAY), NOW)
    assert len(read_brews(store)) == len(list_batches(store)) == len(cases)
