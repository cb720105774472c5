"""`batch new` and `ask --answer` as a shell sees them, lines piped in."""

import io
import shlex
import sys
from pathlib import Path

import pytest

from tests.cli.running import Faultwort, written

LINES = "faint papery\ntoday\n1 Sep\nextract\npale ale\nclean ale\nbottle\n20 Sep\n"


@pytest.fixture
def piped(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    return tmp_path


def pipe(monkeypatch: pytest.MonkeyPatch, lines: str) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(lines))


def test_a_record_from_nothing_passes_its_check_and_is_diagnosed_alike(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    pipe(monkeypatch, LINES + "2\n\n1\nstop\n")
    made = faultwort("batch", "new", "shed.yaml", "--json")
    assert made.code == 0 and made.json["schema"] == "faultwort/batch-new/1"
    assert faultwort("batch", "check", "shed.yaml").code == 0
    causes = faultwort("diagnose", "shed.yaml", "--json").json["faults"][0]["causes"]
    assert [one["id"] for one in made.json["suspects"]] == [one["id"] for one in causes[:3]]


def test_a_second_sitting_goes_on_where_the_first_ended(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    pipe(monkeypatch, "faint papery\ntoday\n")
    faultwort("batch", "new", "shed.yaml")
    pipe(monkeypatch, "")
    again = faultwort("batch", "new", "shed.yaml")
    assert "Going on with shed.yaml" in again.out and "When was it brewed?" in again.out


class Interrupted(io.StringIO):
    """A keyboard at which somebody presses Ctrl-C after the last line."""

    def readline(self, size: int | None = -1, /) -> str:
        line = super().readline()
        if not line:
            raise KeyboardInterrupt
        return line


def test_an_interrupted_sitting_has_kept_every_answer(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    monkeypatch.setattr(sys, "stdin", Interrupted("faint papery\ntoday\n"))
    end = faultwort("batch", "new", "shed.yaml")
    assert end.code == 130 and "every answer so far is in shed.yaml" in end.out
    assert "words: faint papery" in (piped / "shed.yaml").read_text("utf-8")


def test_no_page_of_it_is_wider_than_the_terminal(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    pipe(monkeypatch, LINES + "help\n\n" * 3)
    out = faultwort("batch", "new", "shed.yaml").out
    assert max(len(line) for line in out.splitlines()) <= 80


def test_without_a_name_it_writes_over_nothing(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    for _ in range(2):
        pipe(monkeypatch, "butter\n")
        assert faultwort("batch", "new").code == 0
    assert len(list(piped.glob("batch-*.yaml"))) == 2


@pytest.mark.parametrize("text", ["a: [", "mash: {at: 67 c, ph: 5,4}\n", "just words\n"])
def test_a_file_that_is_no_record_is_left_as_it_is(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path, text: str
) -> None:
    file = written(piped, text)
    pipe(monkeypatch, "butter\n")
    end = faultwort("batch", "new", file)
    assert end.code == 2 and "wanted" in end.err and file.read_text("utf-8") == text


def test_answers_on_the_command_line_are_written_together(
    faultwort: Faultwort, piped: Path
) -> None:
    file = written(piped, "tastings:\n  - words: papery  # the last bottle\n")
    end = faultwort("ask", file, "--answer", "spread=1", "--answer", "season=summer", "--json")
    assert [one["entry"] for one in end.json["answered"]] == ["fault.spread", "fault.season"]
    assert "# the last bottle" in file.read_text("utf-8")


def test_of_several_answers_all_are_written_or_none(faultwort: Faultwort, piped: Path) -> None:
    file = written(piped, text := "tastings: [{words: papery}]\n")
    end = faultwort("ask", file, "--answer", "spread=1", "--answer", "season=purple")
    assert end.code == 2 and file.read_text("utf-8") == text


def test_ask_with_answer_alone_puts_the_questions(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    file = written(piped, "tastings: [{words: papery}]\n")
    pipe(monkeypatch, "1\nstop\n")
    end = faultwort("ask", "--answer", file)
    assert end.code == 0 and "fault." in end.out and "Now" in end.out


def test_the_command_that_ask_ends_with_puts_the_questions_into_the_record(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    file = written(piped, "tastings: [{words: papery}]\n")
    page = faultwort("ask", file).out.split("To go on, type\n", 1)[1]
    _, *words = shlex.split(page.splitlines()[0])
    pipe(monkeypatch, "1\nstop\n")
    assert faultwort(*words).code == 0 and "fault:" in file.read_text("utf-8")


def test_no_such_command_stands_below_words_that_are_not_in_the_file(
    faultwort: Faultwort, piped: Path
) -> None:
    file = written(piped, "volume: 20 L\n")
    assert "--answer" not in faultwort("ask", file, "--taste", "papery").out


def test_words_beside_the_record_take_no_answers(faultwort: Faultwort, piped: Path) -> None:
    file = written(piped, "tastings: [{words: papery}]\n")
    assert faultwort("ask", file, "--taste", "butter", "--answer", "spread=1").code == 2


def test_a_record_that_changed_meanwhile_is_not_written_over(
    faultwort: Faultwort, monkeypatch: pytest.MonkeyPatch, piped: Path
) -> None:
    file = written(piped, "tastings: [{words: papery}]\n")

    class Meddled(io.StringIO):
        def readline(self, size: int | None = -1, /) -> str:
            file.write_text("tastings: [{words: butter}]\n", "utf-8")
            return super().readline()

    monkeypatch.setattr(sys, "stdin", Meddled("today\n"))
    end = faultwort("batch", "new", file)
    assert end.code == 2 and "another program" in end.err
    assert file.read_text("utf-8") == "tastings: [{words: butter}]\n"
