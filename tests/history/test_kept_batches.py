"""A batch of the history is named to `diagnose` as `history list` shows it."""

from pathlib import Path

import pytest

from diagnose.cli import app as commands
from diagnose.cli.loading import batch_at
from diagnose.consult import consult_on, diagnose
from diagnose.errors import UnusableInput
from diagnose.history.flaws import flaw_ids
from tests.cli.running import written
from tests.history.stores import CASES, TODAY, record

KEY = "house-pale-2026-05-02"
ROOT_APP = commands.app


@pytest.fixture
def faultwort(history, tmp_path, monkeypatch):
    """The whole program, with two batches in the history; `history` as its own app filled it."""
    history("add", written(tmp_path, record(), "pale.yaml"))
    history("add", written(tmp_path, record(batch="house brown"), "brown.yaml"))
    history("add", CASES / "clove_in_a_lager")
    monkeypatch.setattr("diagnose.cli.loading.today", lambda: TODAY)
    monkeypatch.setattr(commands, "app", ROOT_APP)
    return history


@pytest.mark.parametrize("typed", [KEY, "house-pale"])
def test_a_batch_is_found_by_its_key_or_its_beginning(faultwort, typed):
    assert faultwort("diagnose", typed, "--json").json["batch"] == "house pale"


def test_a_kept_batch_is_diagnosed_as_its_file_is(faultwort, tmp_path):
    kept, file = (
        faultwort("diagnose", one, "--json").json for one in (KEY, tmp_path / "pale.yaml")
    )
    ranked = [
        [(c["id"], c["responsible"]) for c in one["faults"][0]["causes"]] for one in (kept, file)
    ]
    assert ranked[0] == ranked[1]


@pytest.mark.usefixtures("faultwort")
def test_its_probe_log_comes_with_it(rules):
    kept = diagnose(rules, consult_on(rules, batch_at(Path("october"))))
    file = diagnose(rules, consult_on(rules, batch_at(CASES / "clove_in_a_lager")))
    assert kept.faults == file.faults


@pytest.mark.parametrize(
    ("typed", "said"),
    [("house", "one of house-brown"), ("nosuch", "no such file or batch"), ("no/such", "file")],
)
def test_what_fits_no_batch_or_several_is_refused_with_what_there_is(faultwort, typed, said):
    done = faultwort("diagnose", typed)
    assert (done.code, said in done.err) == (2, True)


def test_without_a_history_only_files_are_found(monkeypatch, tmp_path):
    monkeypatch.setenv("FAULTWORT_STORE", str(tmp_path / "none.faultwort"))
    with pytest.raises(UnusableInput, match="no such file or batch"):
        batch_at(Path("house"))


def test_remembered_it_stays_one_batch(faultwort, monkeypatch):
    before = len(faultwort("history", "list", "--json").json["batches"])
    done = faultwort("diagnose", KEY, "--remember")
    assert f"Remembered as {KEY}, version 1 (already there)" in done.out
    assert len(faultwort("history", "list", "--json").json["batches"]) == before
    notes = faultwort("history", "show", KEY, "--json").json["notes"]
    assert [one["kind"] for one in notes] == ["diagnoses"]


def test_a_batch_is_shown_in_the_order_of_its_file(history, tmp_path):
    text = (
        "pitch: {at: 66 F}\ntastings: [{words: buttery}]\nbatch: house pale\nbrewed: 2026-05-02\n"
    )
    history("add", written(tmp_path, text, "pale.yaml"))
    keys = [one["key"] for one in history("show", KEY, "--json").json["entries"]]
    assert keys == ["pitch.at", "tastings[1].words", "batch", "brewed"]


# Source of the table: descriptors whose ids, as the list shows them, read as other flavours.
@pytest.mark.parametrize(
    "descriptor", ["kitchen_spice", "rancid", "coffee_stale", "tcp_antiseptic"]
)
def test_a_flaw_is_the_one_that_the_list_shows_by_that_name(rules, descriptor):
    assert flaw_ids(descriptor.replace("_", " "), rules.lexicon) == {descriptor}


def test_the_list_is_narrowed_by_the_name_it_shows(history, tmp_path):
    for name, words in (("spiced", "kitchen spice"), ("cloves", "clove")):
        tasted = f"[{{who: Wren, words: {words}}}]"
        history("add", written(tmp_path, record(batch=name, tastings=tasted), f"{name}.yaml"))
    shown = history("list", "--json").json["batches"]
    for one in shown:
        for word in one["reported"]:
            found = history("list", "--flaw", word.replace("_", " "), "--json").json["batches"]
            assert [each["key"] for each in found] == [
                each["key"] for each in shown if word in each["reported"]
            ]
