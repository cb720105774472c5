"""`history learn` and `diagnose --learned --remember` as a brewer types them."""

import sys

import pytest

from diagnose.cli import loading
from diagnose.history.brews import notes_of
from diagnose.history.kinds import LearningSwitch
from diagnose.history.learning_switch import is_on, switch
from diagnose.history.noting import withdraw_note
from tests.cli.running import Faultwort, written
from tests.history.stores import NOW, later, record

KEY = "house-pale-2026-05-02"
LEFT = "diacetyl_left_at_packaging"


@pytest.fixture
def pale(tmp_path):
    return written(tmp_path, record(), "pale.yaml")


@pytest.fixture
def both(rules, tmp_path, monkeypatch, capsys):
    """All commands, as `diagnose` and `history` take turns here."""
    for module in ("loading", "history_adding", "history_writing"):
        monkeypatch.setattr(f"diagnose.cli.{module}.shipped_rules", lambda: rules)
    monkeypatch.setattr(loading, "today", NOW.date)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("FAULTWORT_STORE", str(tmp_path / "mine" / "store.faultwort"))
    return Faultwort(monkeypatch, capsys)


@pytest.fixture
def taught(both, pale):
    """A store of one batch with a verdict, learning switched on."""
    both("history", "add", pale)
    both("history", "verdict", KEY, LEFT, "--confidence", "0.95")
    both("history", "learn", "--apply")
    return both


def test_what_was_learned_is_shown_with_the_batch_and_verdict_behind_it(history, pale):
    history("add", pale)
    history("verdict", KEY, LEFT, "--confidence", "0.9")
    said = " ".join(history("learn").out.split())
    assert "Packaged before the diacetyl was reduced: 6.0 % ->" in said
    assert f"{KEY} (confirmed, 90 %, brewer)" in said
    assert "Not used yet: 'faultwort history learn --apply'" in said


def test_as_json_it_gives_before_and_after(history, pale):
    history("add", pale)
    history("verdict", KEY, LEFT)
    answer = history("learn", "--json").json
    first = answer["rates"][0]
    assert (answer["schema"], first["cause"]) == ("faultwort/history-learn/1", LEFT)
    assert first["after"]["value"] > first["before"]["value"]


def test_a_verdict_that_is_withdrawn_is_gone_from_it(history, pale):
    history("add", pale)
    before = history("learn", "--json").json
    uid = history("verdict", KEY, LEFT, "--json").json["uid"]
    assert history("learn", "--json").json != before
    history("withdraw", uid)
    assert history("learn", "--json").json == before


def test_a_batch_that_is_undone_is_gone_from_it_and_comes_back_restored(history, pale):
    history("add", pale)
    before = history("learn", "--json").json
    history("undo", KEY)
    assert history("learn", "--json").json["rates"] == []
    history("restore", KEY, "1")
    assert history("learn", "--json").json == before


def test_the_switch_is_off_until_it_is_set_and_every_change_of_it_is_kept(store):
    assert not is_on(store)
    for minute, on in enumerate((True, False, True)):
        switch(store, later(minute), on=on)
        assert is_on(store) is on
    (noted,) = notes_of(store, LearningSwitch)
    assert noted.number == 3
    withdraw_note(store, LearningSwitch, noted.uid, later(9))
    assert not is_on(store)


def test_a_diagnosis_that_uses_it_says_so(taught, tmp_path):
    other = written(tmp_path, record(batch="another", brewed="2026-06-02"), "other.yaml")
    said = " ".join(taught("diagnose", other, "--learned").out.split())
    assert "Uses what your 1 tasted batch taught: 1 base rate moved by a tenth or more." in said
    plain = taught("diagnose", other, "--json").json
    used = taught("diagnose", other, "--learned", "--json").json
    assert (plain["learned"], used["learned"]["base_rates"]) == (None, [LEFT])
    assert used["rules"] == plain["rules"]
    assert chance_of(used, LEFT) > chance_of(plain, LEFT)


def chance_of(answer, cause):
    (group,) = answer["faults"]
    return next(one["responsible"] for one in group["causes"] if one["id"] == cause)


def test_a_batch_does_not_learn_from_its_own_verdict(taught, pale):
    plain = taught("diagnose", pale, "--not-learned", "--json").json
    used = taught("diagnose", pale, "--learned", "--json").json
    assert used["learned"]["batches"] == 0
    assert "0 other tasted batches" in used["learned"]["says"]
    assert "This batch itself is left out." in used["learned"]["says"]
    assert used["faults"] == plain["faults"]


def test_switched_off_it_is_not_used_and_that_is_said(taught, pale):
    taught("history", "learn", "--off")
    said = " ".join(taught("diagnose", pale, "--learned").out.split())
    assert "Does not use what your batches taught: it is switched off" in said


def test_a_store_that_is_named_is_asked_without_more_words(taught, pale, tmp_path):
    store = tmp_path / "mine" / "store.faultwort"
    assert taught("diagnose", pale, "--store", store, "--json").json["learned"]["used"]
    assert (
        taught("diagnose", pale, "--not-learned", "--store", store, "--json").json["learned"]
        is None
    )


def test_a_diagnosis_is_remembered_as_one_batch_however_often(both, pale):
    assert f"Remembered as {KEY}, version 1 (new batch)" in both("diagnose", pale, "--remember").out
    both("diagnose", pale, "--remember", "--taste", "sour")
    assert both("history", "list").out.endswith("1 batch\n")
    notes = both("history", "show", KEY, "--json").json["notes"]
    assert sum(note["kind"] == "diagnoses" for note in notes) == 2


def test_remembered_as_json_the_answer_is_one_document(both, pale):
    done = both("diagnose", pale, "--remember", "--json")
    assert (done.json["schema"], done.err) == ("faultwort/diagnose/1", "")


def test_a_spiked_session_shows_what_a_taster_notices(history):
    history("event", "first")
    assert history("spiked", "Wren", "diacetyl", "6 of 6", "--dose", "0.2 mg/L").code == 0
    (one,) = history("learn", "--json").json["tasters"]
    assert (one["taster"], one["right"], one["trials"]) == ("Wren", 6, 6)
    assert one["after"]["value"] > one["before"]["value"]


def test_a_word_of_a_taster_who_misses_it_is_more_often_a_wrong_word(both, pale):
    both("history", "spiked", "wren", "diacetyl", "10 of 30")
    both("history", "learn", "--apply")
    plain = both("diagnose", pale, "--json").json
    used = both("diagnose", pale, "--learned", "--json").json
    assert used["learned"]["tasters"] == ["wren"]
    assert "It knows how much 1 taster noticed." in used["learned"]["says"]
    (group,), (moved,) = plain["faults"], used["faults"]
    assert moved["not_in_rule_base"] > 1.2 * group["not_in_rule_base"]


READ = (
    '{"schema": "faultwort/split-read/1", "batch": "house pale",'
    f' "ratios": [{{"cause": "{LEFT}"}}], "ranking": [{{"id": "{LEFT}", "after": 0.85}}]}}'
)


def test_a_read_split_is_kept_with_its_batch_and_closes_the_case(history, pale, tmp_path):
    history("add", pale)
    assert history("split", KEY, written(tmp_path, READ, "read.json")).code == 0
    (case,) = history("learn", "--json").json["cases"]
    assert (case["cause"], case["state"]) == (LEFT, "closed")
    assert "closed by the split" in " ".join(history("show", KEY).out.split())


# (what is typed, what the refusal says)
REFUSED = [
    (("spiked", "Wren", "gremlin", "4 of 6"), "compound: found 'gremlin'"),
    (("spiked", "Wren", "diacetyl", "7 of 6"), "right: found '7 of 6'"),
    (("spiked", "Wren", "diacetyl", "4 of 6", "--test", "hope"), "test: found 'hope'"),
    (
        ("split", KEY, "{pale}"),
        "wanted the folder of a split, or what 'faultwort split read FOLDER --json' prints",
    ),
    (("correct", "spoon"), "instrument: found 'spoon'; wanted one with a check"),
]


@pytest.mark.parametrize(("typed", "said"), REFUSED, ids=lambda one: one[0])
def test_what_cannot_be_used_is_refused_in_a_sentence(history, pale, typed, said):
    history("add", pale)
    done = history(*(word.format(pale=pale) for word in typed))
    assert (done.code, said in done.err) == (2, True), done.err
