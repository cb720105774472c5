"""Bad input: one clear sentence on stderr, with file and line if there is one, and exit code 2."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner

from diagnose.cli.app import app
from diagnose.cli.plain_slips import said_on_stderr
from diagnose.errors import UnusableInput
from tests.cli.running import Faultwort, written

# Source of the table: the list of bad input; records, and what is said of them.
RECORDS = [
    ("", "batch.yaml: found an empty file; wanted at least one entry"),
    ("\x00\x01\x02", "batch.yaml: found a binary file; wanted a text file (YAML or JSON)"),
    (
        "style: bitter\nfermentation:\n  temperature: 68 C\n",
        "batch.yaml:3: fermentation.temperature: found 68 C; "
        "wanted between -2 and 45 C here; did you mean 68 F (20 C)?",
    ),
    (
        "mash:\n  at: 5 kg\n",
        "batch.yaml:2: mash.at: found '5 kg', where 'kg' is not a unit of temperature; "
        "wanted a temperature such as 20 C, 68 F or 18-20 C",
    ),
    (
        "brewed: 2026-05-02\npackaging:\n  when: 2026-04-02\n",
        "batch.yaml:3: packaging.when: found 2026-04-02; "
        "wanted a date after the batch was brewed (2026-05-02)",
    ),
    (
        "brewed: 2027-05-02\n",
        "batch.yaml:1: brewed: found 2027-05-02; wanted a date not after today (2026-11-25)",
    ),
    ("\nstyle: zorgbier\n", "batch.yaml:2: style: found 'zorgbier'; wanted one of pale_ale, "),
    ("style: pale lagr\n", "batch.yaml:1: style: found 'pale lagr'; wanted one of pale_lager, "),
    (
        "pitch:\n  yeast:\n    family: zorg\n",
        "batch.yaml:3: pitch.yeast.family: found 'zorg'; wanted one of clean_ale, ",
    ),
    (
        "fermentation:\n  probe_log: gone.csv\n",
        "batch.yaml:2: fermentation.probe_log: found gone.csv; wanted a file beside the record",
    ),
    (
        "fault:\n  sprad: every_package\n",
        "batch.yaml:2: fault.sprad: found sprad; wanted one of spread, first_noticed, ",
    ),
    (
        "fault:\n  spread: here and there\n",
        "batch.yaml:2: fault.spread: found here and there; wanted one of every_package, ",
    ),
    (
        "checks:\n  sniff_test: positive\n",
        "batch.yaml:2: checks.sniff_test: found sniff_test; wanted one of ",
    ),
    (
        "checks:\n  gravity_now: perhaps\n",
        "batch.yaml:2: checks.gravity_now: found perhaps; wanted one of ",
    ),
    ("brwed: 2026-05-02\n", "batch.yaml:1: brwed: found an unknown key 'brwed'; wanted 'brewed', "),
    ("a:\n\tb: 1\n", "batch.yaml:2: found a tab in the indent; wanted spaces in the indent"),
]
COMMANDS = [("diagnose",), ("ask",), ("batch", "check"), ("batch", "show")]


@pytest.mark.parametrize(("text", "said"), RECORDS, ids=lambda text: repr(text)[:40])
@pytest.mark.parametrize("command", COMMANDS, ids=" ".join)
def test_a_record_that_cannot_be_used_is_said_in_one_sentence(
    faultwort: Faultwort, tmp_path: Path, command: tuple[str, ...], text: str, said: str
) -> None:
    path = written(tmp_path, text)
    outcome = faultwort(*command, path)
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.replace(f"{tmp_path}/", "").startswith(f"faultwort: {said}")
    assert outcome.err.count("\n") == 1


def test_words_of_the_rules_that_are_unknown_are_all_said_at_once(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    text = "style: zorg\nfault: {sprad: x}\nchecks: {sniff: y}\npitch: {yeast: {family: z}}\n"
    lines = faultwort("diagnose", written(tmp_path, text)).err.strip().split("\n")
    assert [line.split("batch.yaml:")[1][0] for line in lines] == ["1", "2", "3", "4"]


# Source of the table: common practice, no source; slips of the fingers on a command line.
TYPED = [
    (("explain", "butterscotchy"), "faultwort: rules: found 'butterscotchy'; wanted one of butter"),
    (("explain", "zzz"), "faultwort: rules: found 'zzz'; wanted an id from 'faultwort rules list'"),
    (("rules", "sheet", "zzz"), "faultwort: rules: found 'zzz'; wanted an id from"),
    (("rules", "list", "zzz"), "faultwort: rules list: found 'zzz'; wanted one of causes, "),
    (("rules", "export", "--yeast", "zorg"), "faultwort: --yeast: found 'zorg'; wanted one of "),
    (("rules", "export", "--style", "zorg"), "faultwort: --style: found 'zorg'; wanted one of "),
    (("rules", "score", "no_such_folder"), "faultwort: no_such_folder: found no case.yaml below"),
    (("diagnose", "no_such_file.yaml"), "faultwort: no_such_file.yaml: found no such file; wanted"),
    (("diagnose", "rules"), "faultwort: rules/batch.yaml: found no such file; wanted the path of"),
    (("diagnose", "buttery and slick " * 20), "faultwort: buttery and slick buttery and slick "),
    (("probe", "no_such_file.csv"), "faultwort: no_such_file.csv: found no such file; wanted the"),
    (("probe", "rules"), "faultwort: rules: found a folder; wanted a logger's CSV file"),
    (("probe", "x" * 300), f"faultwort: {'x' * 300}: found file name too long; wanted a usable"),
    (("rules", "export", "--format", "xml"), "Usage: faultwort rules export"),
    (("diagnose", "--top", "0"), "faultwort: --top: found 0; wanted a number from 1 to 8"),
    (("diagnose", "--top", "99"), "faultwort: --top: found 99; wanted a number from 1 to 8"),
    (("rules", "score", "--perturb", "-1"), "faultwort: --perturb: found -1; wanted a number from"),
    (
        ("rules", "export", "--style", "lagr"),
        "faultwort: --style: found 'lagr'; wanted one of pale_l",
    ),
    (
        ("rules", "export", "--yeast", "lagar"),
        "faultwort: --yeast: found 'lagar'; wanted one of lager",
    ),
    (("diagnose", "--no-such-option"), "Usage: faultwort diagnose"),
    (("taste",), "Usage: faultwort taste"),
    (("ask",), "Usage: faultwort ask"),
    (("ask", "--answer"), "Usage: faultwort ask"),
    (("no_such_command",), "Usage: faultwort"),
]


@pytest.mark.parametrize(("typed", "said"), TYPED, ids=[" ".join(t)[:40] for t, _ in TYPED])
def test_a_slip_on_the_command_line_is_said(
    faultwort: Faultwort, typed: tuple[str, ...], said: str
) -> None:
    outcome = faultwort(*typed)
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.lstrip().startswith(said)


# Source of the table: the list of bad input; exports, and what is said of them.
EXPORTS = [
    ("", "log.csv: found an empty file; wanted a text file with one reading a line (CSV)"),
    ("PK\x03\x04", "log.csv: found a workbook or a zip file; wanted a text file with one reading"),
    ("time,temp (C)\n", "log.csv:1: found a header and no rows; wanted at least one reading"),
    ("dear diary\nall went well\n", "log.csv:1: time: found 'dear diary', and no column with a"),
]


@pytest.mark.parametrize(("text", "said"), EXPORTS, ids=lambda text: repr(text)[:24])
def test_an_export_that_cannot_be_used_is_said_in_one_sentence(
    faultwort: Faultwort, tmp_path: Path, text: str, said: str
) -> None:
    outcome = faultwort("probe", written(tmp_path, text, "log.csv"))
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.replace(f"{tmp_path}/", "").startswith(f"faultwort: {said}")
    assert outcome.err.count("\n") == 1


@pytest.mark.parametrize("command", ["probe", "diagnose"])
def test_a_file_of_200_mb_is_refused_at_once(
    faultwort: Faultwort, tmp_path: Path, command: str
) -> None:
    huge = written(tmp_path, "", "huge.csv")
    os.truncate(huge, 200_000_000)
    outcome = faultwort(command, huge)
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.startswith(f"faultwort: {huge}: found 200")


def test_a_record_beside_an_export_of_200_mb_is_refused(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    os.truncate(written(tmp_path, "", "huge.csv"), 200_000_000)
    outcome = faultwort("diagnose", written(tmp_path, "fermentation: {probe_log: huge.csv}\n"))
    assert outcome.code == 2
    assert "huge.csv: found 200.0 MB; wanted at most 100 MB" in outcome.err


def test_the_app_leaves_what_can_be_mended_to_the_main_function() -> None:
    result = CliRunner().invoke(app, ["diagnose", "no_such_file.yaml"])
    assert isinstance(result.exception, UnusableInput)


# Source: a terminal breaks where it is full; the width is that of a small window.
def test_an_error_on_a_terminal_is_broken_between_words(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    sentence = f"faultwort: {'x' * 60}/batch.yaml: found no such file; wanted the path of a record"
    said_on_stderr(sentence)
    assert capsys.readouterr().err == f"{sentence}\n"
    monkeypatch.setenv("COLUMNS", "40")
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True)
    said_on_stderr(sentence)
    lines = capsys.readouterr().err.splitlines()
    assert " ".join(line.strip() for line in lines) == sentence
    assert all(len(line) <= 40 or " " not in line.strip() for line in lines)


def test_a_damaged_installation_ends_with_code_3(
    faultwort: Faultwort, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("diagnose.shipped._PACKAGE", tmp_path / "diagnose")
    outcome = faultwort("taste", "butter")
    assert (outcome.code, outcome.out) == (3, "")
    assert outcome.err == (
        "faultwort: the folder rules/ that ships with Faultwort is missing; "
        "install Faultwort again\n"
    )


def test_bad_input_to_the_real_program_leaves_no_traceback(tmp_path: Path) -> None:
    path = written(tmp_path, "fermentation: {temperature: 68 C}\nzymurgy: x\n")
    command = [sys.executable, "-W", "error", "-m", "diagnose", "diagnose", str(path)]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(f"faultwort: {path}:2: zymurgy: found an unknown key 'zymurgy'")
    assert done.stderr.count("\n") == 1
