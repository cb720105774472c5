"""The history as a brewer types it."""

import json
import shlex
from datetime import date, timedelta

import pytest

from tests.cli.running import written
from tests.cli.split_folder import Folder
from tests.history.stores import WITH_A_LOG, record

KEY = "house-pale-2026-05-02"


@pytest.fixture
def pale(tmp_path):
    return written(tmp_path, record(), "pale.yaml")


# The whole story in order: (what is typed, what is said)
def test_a_story(history, pale, tmp_path):
    assert "house pale: a new batch" in history("add", pale, WITH_A_LOG).out
    assert "already there" in history("add", pale).out
    assert history("list").out.splitlines() == [
        "2025-10-04  christmas-ale-2025-10-04 (strong ale): green apple, solvent, sweet cloying",
        f"2026-05-02  {KEY} (pale ale): butter",
        "2 batches",
    ]
    tasted = " ".join(history("tasting", "house", "no butter, flurble").out.split())
    assert "Understood as: no butter, not understood: 'flurble'" in tasted
    said = history("verdict", "house", "under_pitched", "--confidence", "0.7").out
    assert said.startswith("Written down as ")
    assert "<- under pitched (70% sure)" in history("list", "--flaw", "buttery").out
    assert "version 2 now" in history("undo", "house", "--reason", "not mine").out
    assert history("list").out.endswith("1 batch\n")
    assert "version 3 now" in history("restore", "house", "1").out
    shown = history("show", "house").out
    assert "2. withdrawn" in shown and "3. restored from version 1" in shown
    assert 'Wren: "buttery, no sourness"' in shown


def test_an_export_is_imported_into_another_store(history, pale, tmp_path):
    history("add", pale, WITH_A_LOG)
    assert history("export", tmp_path / "out.jsonl").code == 0
    other = ("--store", tmp_path / "other.faultwort")
    done = history("import", tmp_path / "out.jsonl", *other, "--json").json
    assert (done["batches"], done["versions"]) == (2, 2)
    assert history("list", *other).out == history("list").out


def test_a_backup_is_a_store(history, pale, tmp_path):
    history("add", pale)
    assert history("backup", tmp_path / "copy.faultwort").code == 0
    assert history("list", "--store", tmp_path / "copy.faultwort").out == history("list").out


def test_a_csv_folder_is_made(history, pale, tmp_path):
    history("add", pale)
    assert history("export", "--csv", tmp_path / "out").code == 0
    assert (tmp_path / "out" / "datapackage.json").is_file()


def test_an_instrument_check_keeps_what_was_typed_and_the_offset_in_one_unit(history, tmp_path):
    typed = ("instrument", "kitchen thermometer", "--reads", "72 F", "--true", "67 F")
    assert history(*typed).code == 0
    history("export", tmp_path / "out.jsonl")
    last = json.loads((tmp_path / "out.jsonl").read_text("utf-8").splitlines()[-2])
    (note,) = last["notes"]
    assert note["typed"] == "72 F for 67 F"
    assert note["body"]["reads"] - note["body"]["true"] == pytest.approx(5 / 1.8)


# (what is typed, the schema of its answer)
ANSWERS = [
    (("add", "{pale}"), "history-add"),
    (("list",), "history-list"),
    (("show", KEY), "history-show"),
    (("undo", KEY), "history-version"),
    (("restore", KEY, "1"), "history-version"),
    (("verdict", KEY, "under_pitched"), "history-note"),
    (("tasting", KEY, "plaster"), "history-note"),
    (("event", "new hose", "--on", "2026-04-01"), "history-note"),
    (("export", "{folder}/out.jsonl"), "history-export"),
    (("backup", "{folder}/copy.faultwort"), "history-backup"),
    (("refresh",), "history-refresh"),
    (("upgrade",), "history-upgrade"),
]


@pytest.mark.parametrize(("typed", "schema"), ANSWERS, ids=lambda one: one[0])
def test_every_answer_can_be_had_as_json(history, pale, tmp_path, typed, schema):
    history("add", pale)
    words = [word.format(pale=pale, folder=tmp_path) for word in typed]
    done = history(*words, "--json")
    assert (done.code, done.json["schema"]) == (0, f"faultwort/{schema}/1"), done.err


def test_a_note_is_withdrawn_by_its_name(history, pale):
    history("add", pale)
    uid = history("tasting", KEY, "plaster", "--json").json["uid"]
    assert "plaster" in history("list").out
    assert "restore" in history("withdraw", uid, "--reason", "a cold").out
    assert "plaster" not in history("list").out
    assert "taken back already" in history("withdraw", uid).err
    assert history("restore", uid, "1").code == 0
    assert "plaster" in history("list").out


# (what the taster says, what the list says of the batch)
HEARD = [
    ("", "not tasted"),
    ("nothing wrong", "no flavour complained of"),
    ("no butter", "no flavour complained of"),
    ("flurble", "tasted, in words that were not understood"),
]


@pytest.mark.parametrize(("words", "said"), HEARD)
def test_the_list_tells_a_clean_batch_from_one_that_nobody_tasted(history, tmp_path, words, said):
    told = f'[{{who: Wren, words: "{words}"}}]' if words else ""
    history("add", written(tmp_path, record(tastings=told), "pale.yaml"))
    assert history("list").out.splitlines()[0] == f"2026-05-02  {KEY} (pale ale): {said}"


def test_a_cause_is_found_by_its_name_and_a_misspelt_one_is_answered(history, pale):
    history("add", pale)
    assert history("verdict", "house", "Too little living yeast").out.startswith("Written down")
    refused = history("verdict", "house", "under_piched").err
    assert "perhaps under_pitched (Too little living yeast)" in " ".join(refused.split())


def test_a_list_is_broken_between_words_on_a_terminal_alone(history, pale, monkeypatch):
    history("add", pale, WITH_A_LOG)
    whole = history("list").out
    monkeypatch.setenv("COLUMNS", "60")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True)
    broken = history("list").out
    assert history("list").out.split() == whole.split()
    assert max(map(len, broken.splitlines())) <= 60 < max(map(len, whole.splitlines()))


def test_a_batch_is_found_by_its_name(history, pale):
    history("add", pale, WITH_A_LOG)
    assert history("show", "House Pale").out == history("show", KEY).out


def test_a_reading_is_kept_by_the_command_that_it_names(history, tmp_path):
    folder = Folder(tmp_path)
    history("add", folder.batch)
    _, *typed = shlex.split(folder.read(9)["keep"])[1:]
    assert history(*typed).out.startswith("Written down as ")
    assert "splits: oxygen at packaging, 9 of 9 right, from 50 %" in history("show", typed[1]).out


def test_a_correction_does_not_move_a_note_to_another_batch(history, pale):
    history("add", pale, WITH_A_LOG)
    uid = history("tasting", KEY, "plaster", "--json").json["uid"]
    done = history("tasting", "christmas", "plaster", "--instead-of", uid)
    assert (done.code, f"wanted {KEY}" in done.err) == (2, True)


# (what is typed, what the refusal says); nothing in the store yet but the pale ale
REFUSED = [
    (("show", "porter"), "wanted a batch that 'faultwort history list' shows"),
    (("show", "hosue"), f"wanted one of {KEY}"),
    (("show", "?"), "wanted a batch that 'faultwort history list' shows"),
    (("restore", KEY, "9"), "found version 9; wanted one of 1 to 1"),
    (("list", "--since", "last week"), "--since: found 'last week'; wanted a day"),
    (("list", "--flaw", "xyzzy"), "--flaw: found 'xyzzy'; wanted a flavour"),
    (("verdict", KEY, "gremlins"), "cause: found 'gremlins'"),
    (("verdict", KEY, "under_pitched", "--state", "sure"), "--state: found 'sure'"),
    (("event", "new hose", "--on", "last week"), "--on: found 'last week'; wanted a day as 2026"),
    (("list", "--since", "spring"), "wanted a day as 2026-09-12, or 'today' or 'yesterday'"),
    (("trend", "--flaw", "butter", "--since", "spring"), "wanted a day as 2026-09-12"),
    (("instrument", "scale", "--reads", "1", "--true", "2", "--kind", "hope"), "--kind"),
    (("instrument", "t", "--reads", "68", "--true", "67 F"), "68 could be 68 C or 68 F"),
    (("withdraw", "000000000000"), "note: found '000000000000'"),
    (("tasting", KEY, " "), "words: found nothing; wanted what it tastes of"),
    (("add", "one.yaml", "--of", KEY, "--apart"), "found both --of and --apart"),
    (("add", "one.yaml", "two.yaml", "--of", KEY), "--of: found 2 files for one batch"),
    (("add", "."), "found a folder without a batch.yaml"),
    (("import", __file__), ':1: found """The history as a brewer types it."""; wanted'),
    (("spiked", "Wren", "diacetyl", "4 of 6", "--dose", "much"), "--dose: found 'much', in which"),
    (("trend", "--measure", "mash"), "is it mash_c or mash_ph?"),
    (("export",), "wanted a FILE, or --csv FOLDER"),
    (("list", "--store", "/nowhere/at/all"), "'faultwort history add FILE' starts one"),
]


@pytest.mark.parametrize(("typed", "said"), REFUSED)
def test_what_cannot_be_used_is_refused_in_a_sentence(history, pale, typed, said):
    history("add", pale)
    done = history(*typed)
    assert (done.code, said in done.err) == (2, True), done.err


def test_a_file_that_cannot_be_read_does_not_keep_the_others_out(history, pale, tmp_path):
    bad = written(tmp_path, "brewed: yesterday\n", "bad.yaml")
    done = history("add", bad, pale)
    assert done.code == 2 and "bad.yaml:1" in done.err
    assert "house pale: a new batch" in done.out


def test_a_damaged_store_ends_with_code_3(history, pale, tmp_path):
    written(tmp_path, "not a database", "store.faultwort")
    done = history("list", "--store", tmp_path / "store.faultwort")
    assert done.code == 3 and "the file is no database" in done.err


# Source: the rule that what can hurt is said before anything else; the record is invented.
def test_a_batch_under_a_caution_is_shown_with_it_first(history, tmp_path):
    packaging = "{package: bottle, carbonation: 4.5 volumes}"
    history("add", written(tmp_path, record(packaging=packaging), "pale.yaml"))
    lines = [line for line in history("show", "house").out.splitlines() if line]
    assert lines[1].startswith("STOP:")
    assert history("show", "house", "--json").json["cautions"][0]["level"] == "stop"
    history("show", "house", "--html", tmp_path / "page.html")
    page = (tmp_path / "page.html").read_text("utf-8")
    assert page.index('class="stop"') < page.index("On this page")


@pytest.mark.parametrize(("typed", "back"), [("today", 0), ("yesterday", 1)])
def test_a_note_is_kept_with_the_day_that_is_meant(history, tmp_path, typed, back):
    history("event", "new hose", "--on", typed)
    history("export", tmp_path / "out.jsonl")
    day = (date.today() - timedelta(days=back)).isoformat()
    assert f'"at":"{day}"' in (tmp_path / "out.jsonl").read_text("utf-8")
