"""Odd input that is no reason to stop: it is used, and what is odd about it is said."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.cli.running import Faultwort, written

# In Lisbon the clocks pass 01:00 to 02:00 twice on 25 October 2026.
TWICE = "".join(
    f"2026-10-25 {time},11.{number}\n"
    for number, time in enumerate(["00:00", "00:30", "01:00", "01:30", "01:00", "01:30", "02:00"])
)
ONCE = TWICE.replace("01:00,11.4\n2026-10-25 01:30,11.5\n", "")
RECORD = "zone: Europe/Lisbon\nbrewed: 2026-10-20\nfermentation: {probe_log: log.csv}\n"


def log_of(folder: Path, rows: str) -> Path:
    return written(folder, f"time,beer temp (C)\n{rows}", "log.csv")


def test_the_hour_that_comes_twice_in_autumn_is_two_hours(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    probe = faultwort("probe", log_of(tmp_path, TWICE), "--zone", "Europe/Lisbon", "--json").json
    assert probe["days"] == pytest.approx(3 / 24)
    assert any("clocks" in note or "hour" in note for note in probe["notes"])


def test_a_log_that_passes_the_hour_only_once_is_flagged_in_the_diagnosis(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    log_of(tmp_path, ONCE)
    outcome = faultwort("diagnose", written(tmp_path, RECORD), "--taste", "butter", "--json")
    assert outcome.code == 0
    assert any("clocks pass twice" in odd["text"] for odd in outcome.json["odd_entries"])


@pytest.mark.parametrize("value", ["NaN", "nan", "", "---", "inf", "9999"])
def test_a_reading_that_is_none_is_flagged_and_left_out(
    faultwort: Faultwort, tmp_path: Path, value: str
) -> None:
    rows = [f"2026-10-20 {hour:02d}:00,{11 + hour % 3 / 10}\n" for hour in range(24)]
    rows[7] = f"2026-10-20 07:00,{value}\n"
    outcome = faultwort("probe", log_of(tmp_path, "".join(rows)), "--json")
    (series,) = outcome.json["series"]
    assert outcome.code == 0
    assert (series["readings"], series["usable"]) == (24, 23)
    assert series["highest"] == pytest.approx(11.2)
    assert sum(series["flags"].values()) == 1


# Source of the table: from memory; taste words of other languages, scripts and nonsense.
NOT_ENGLISH = ["sabe a manteiga", "вкус сливочного масла", "バターの味", "glorpish", "🍺", ""]


@pytest.mark.parametrize("words", NOT_ENGLISH)
def test_words_that_are_not_understood_are_said_and_no_error(
    faultwort: Faultwort, words: str
) -> None:
    outcome = faultwort("taste", words, "--json")
    assert outcome.code == 0
    assert outcome.json["understood"] == []
    assert bool(outcome.json["not_understood"]) == bool(words)


@pytest.mark.parametrize("words", NOT_ENGLISH)
def test_a_diagnosis_of_words_that_are_not_understood_names_no_fault(
    faultwort: Faultwort, words: str
) -> None:
    outcome = faultwort("diagnose", "--taste", words, "--json")
    assert (outcome.code, outcome.json["faults"], outcome.json["verdict"]) == (0, [], "open")


# Source: what is typed by somebody who has not read anything yet.
@pytest.mark.parametrize("typed", [(), ("--taste", "xyzzy"), ("--taste", "")], ids=str)
def test_a_diagnosis_of_nothing_says_what_to_type_and_that_works(
    faultwort: Faultwort, typed: tuple[str, ...]
) -> None:
    page = faultwort("diagnose", *typed).out
    commands = re.findall(r"^  faultwort (.+)$", page, re.MULTILINE)
    assert commands[0].startswith("diagnose --taste ")
    words = [[a or b for a, b in re.findall(r'"([^"]*)"|(\S+)', line)] for line in commands]
    answers = [faultwort(*line) for line in words if line[:2] != ["batch", "new"]]
    assert [(one.code, bool(one.out)) for one in answers] == [(0, True)] * 2
    assert "What may be behind" in answers[0].out


def test_a_record_without_a_known_word_is_named_in_what_to_type(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    path = written(tmp_path, "style: pale ale\n")
    for command in ("diagnose", "ask"):
        assert f"faultwort diagnose {path} --taste " in faultwort(command, path).out


# Source of the table: slips of the fingers that are no one slip away from a word.
@pytest.mark.parametrize(
    ("said", "near"),
    [("buttrschotsh", "butterscotch"), ("cardborrddish", "cardboard"), ("xyzzy", None)],
)
def test_near_words_are_offered_for_one_that_is_not_understood(
    faultwort: Faultwort, said: str, near: str | None
) -> None:
    for typed in (("diagnose", "--taste", said), ("taste", said)):
        answer = faultwort(*typed, "--json").json
        offered = [word for one in answer["near_words"] for word in one["near"]]
        assert answer["not_understood"] == [said]
        assert bool(offered) == bool(near) and (near is None or near in offered[0])


def test_words_beside_others_are_not_dropped_when_they_are_not_understood(
    faultwort: Faultwort,
) -> None:
    outcome = faultwort("diagnose", "--taste", "buttery, glorpish", "--json").json
    assert [one["descriptor"] for one in outcome["understood"]] == ["butter"]
    assert outcome["not_understood"] == ["glorpish"]


def test_an_odd_entry_of_a_record_ends_a_check_with_code_1(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    path = written(tmp_path, "gravity:\n  original: 1.050\n  final: 1.040\n")
    outcome = faultwort("batch", "check", path, "--json")
    (odd,) = outcome.json["odd_entries"]
    assert (outcome.code, odd["place"]) == (1, f"{path}:3")
    assert odd["text"].startswith("gravity.final: 20 % apparent attenuation is outside the usual")


def test_a_rule_base_with_faults_ends_a_check_with_code_1(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    outcome = faultwort("rules", "check", tmp_path)
    assert (outcome.code, outcome.err) == (1, "")
    assert f"{tmp_path}/measures.yaml: found no such file; wanted the path of" in outcome.out


# Signs that a page's own mark-up, a terminal or an encoding might trip over.
TRICKY = (
    "batch: 'pils [/b] [red]'\nbrewer: '[/]'\nnotes: 'a [/i]'\ntastings: [{words: 'buttery [/b]'}]"
)


@pytest.mark.parametrize("command", [("diagnose",), ("batch", "check"), ("batch", "show")])
def test_square_brackets_in_a_record_are_only_brackets(
    faultwort: Faultwort, tmp_path: Path, command: tuple[str, ...]
) -> None:
    outcome = faultwort(*command, written(tmp_path, TRICKY))
    assert (outcome.code, outcome.err) == (0, "")
    assert "pils [/b] [red]" in outcome.out


def test_signs_that_steer_a_terminal_are_not_passed_on(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    log = log_of(tmp_path, "2026-10-20 00:00,11\n2026-10-20 01:00,12\n")
    log.write_text(log.read_text("utf-8").replace("beer temp", "beer \x1b[31mtemp"), "utf-8")
    pages = [faultwort("probe", log), faultwort("taste", "\x1b[31mbutter")]
    assert ["\x1b" in page.out for page in pages] == [False, False]


def test_a_terminal_that_cannot_show_a_sign_is_no_reason_to_stop() -> None:
    command = [sys.executable, "-m", "diagnose", "taste", "вкус, buttery", "--json"]
    env = {**os.environ, "PYTHONIOENCODING": "ascii"}
    done = subprocess.run(command, env=env, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["not_understood"] == ["вкус"]


# Source: common practice, no source; an invented note, with a word that nothing covers.
def test_a_praised_beer_has_nothing_to_explain_though_a_word_is_not_understood(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    path = written(tmp_path, "style: pale ale\n")
    praised = faultwort("diagnose", path, "--taste", "crisp, frobby", "--json").json
    unnamed = faultwort("diagnose", path, "--taste", "frobby", "--json").json
    assert (praised["faults"], praised["verdict"]) == ([], "open")
    assert "praised and no fault is named" in praised["verdict_text"]
    assert [group["descriptors"] for group in unnamed["faults"]] == [["something_off"]]
