"""`diagnose --html`: a page in a file, over nothing but an earlier page."""

from pathlib import Path

import pytest

from tests.cli.running import CASES, Faultwort, written

CASE = next(case for case in CASES if case.name == "crashed_too_soon")
NAMED = next(case for case in CASES if case.name == "spring_bitter")


def test_the_page_is_written_and_the_verdict_said(faultwort: Faultwort, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    outcome = faultwort("diagnose", CASE, "--html", file)
    assert outcome.code == 0
    assert str(file) in outcome.out
    assert file.read_text("utf-8").endswith("</html>\n")


def test_json_and_the_page_are_both_done(faultwort: Faultwort, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    answer = faultwort("diagnose", CASE, "--json", "--html", file).json
    assert answer["schema"] == "faultwort/diagnose/1"
    assert answer["verdict_text"] in file.read_text("utf-8")


def test_an_earlier_page_is_written_over_with_the_same_bytes(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    file = tmp_path / "page.html"
    faultwort("diagnose", CASE, "--html", file)
    first = file.read_bytes()
    assert faultwort("diagnose", NAMED, "--html", file).code == 0
    assert file.read_bytes() != first
    faultwort("diagnose", CASE, "--html", file)
    assert file.read_bytes() == first


def test_nothing_is_left_beside_the_page(faultwort: Faultwort, tmp_path: Path) -> None:
    faultwort("diagnose", CASE, "--html", tmp_path / "page.html")
    assert [path.name for path in tmp_path.iterdir()] == ["page.html"]


@pytest.mark.parametrize("text", ["", "my own notes", "<!DOCTYPE html>\n<html>mine</html>"])
def test_a_file_of_someone_else_is_left_alone(
    faultwort: Faultwort, tmp_path: Path, text: str
) -> None:
    file = written(tmp_path, text, "mine.html")
    outcome = faultwort("diagnose", CASE, "--html", file)
    assert outcome.code == 2
    assert "mine.html: --html: found something else there; wanted" in outcome.err
    assert file.read_text("utf-8") == text


def test_a_folder_is_no_place_for_a_page(faultwort: Faultwort, tmp_path: Path) -> None:
    outcome = faultwort("diagnose", CASE, "--html", tmp_path)
    assert outcome.code == 2
    assert "Traceback" not in outcome.err


def test_a_place_that_cannot_be_written_to_is_said(faultwort: Faultwort, tmp_path: Path) -> None:
    file = written(tmp_path, "a file, not a folder", "mine")
    outcome = faultwort("diagnose", CASE, "--html", file / "page.html")
    assert outcome.code == 2
    assert "wanted a place that can be written to" in outcome.err


def test_without_names_the_page_names_nobody(faultwort: Faultwort, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    assert faultwort("diagnose", NAMED, "--html", file, "--without-names").code == 0
    page = file.read_text("utf-8")
    assert [name for name in ("Wren", "Tansy") if name in page] == []


def test_names_are_left_out_of_json_too(faultwort: Faultwort, tmp_path: Path) -> None:
    record = "batch: Wren's pale\nbrewer: Wren\ntastings: [{who: Tansy, words: 'butter, Wren!'}]\n"
    file = written(tmp_path, record)
    outcome = faultwort("diagnose", file, "--json", "--without-names")
    assert outcome.json["batch"] == "(name left out)'s pale"
    assert "Wren" not in outcome.out


def test_words_alone_make_a_page_too(faultwort: Faultwort, tmp_path: Path) -> None:
    file = tmp_path / "page.html"
    taste = "<script>alert(1)</script> butter"
    assert faultwort("diagnose", "--taste", taste, "--html", file).code == 0
    assert "<script" not in file.read_text("utf-8")


# Source: a word of two names that the shipped case denies.
def test_a_denied_flavour_is_told_on_the_page_as_people_deny_it(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    faultwort("diagnose", CASE, "--html", tmp_path / "page.html")
    assert "not sour or sour milk" in (tmp_path / "page.html").read_text("utf-8")
