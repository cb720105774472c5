"""Files that are no text a person wrote."""

import os
from pathlib import Path

import pytest

from diagnose.documents import read_text
from tests.documents.refused import refusal_of_file

# Source of the table: common practice, no source; what people point a program at by mistake.
CONTENTS = [
    (b"", "f.yaml: found an empty file; wanted at least one entry"),
    (b" \r\n\t\n", "f.yaml: found an empty file; wanted at least one entry"),
    (b"\x7fELF\x02\x01\x01\x00\x00", "f.yaml: found a binary file; wanted a text file"),
    ("a: 1\n".encode("utf-16"), "f.yaml: found a binary file; wanted a text file"),
    (
        "a: 1\nb: caf\u00e9\n".encode("latin-1"),
        "f.yaml:2: found a byte that is not UTF-8 (0xe9); wanted UTF-8",
    ),
]


@pytest.mark.parametrize(("contents", "said"), CONTENTS, ids=lambda part: repr(part)[:24])
def test_contents_that_are_no_text_are_refused(tmp_path: Path, contents: bytes, said: str) -> None:
    file = tmp_path / "f.yaml"
    file.write_bytes(contents)
    assert refusal_of_file(file).startswith(said)


def test_a_file_that_is_too_large_is_refused_unread(tmp_path: Path) -> None:
    file = tmp_path / "f.yaml"
    file.touch()
    os.truncate(file, 200_000_000)
    wanted = "f.yaml: found 200 MB; wanted a hand-written file of at most 2 MB"
    assert refusal_of_file(file) == wanted


def test_a_file_that_does_not_exist_is_refused(tmp_path: Path) -> None:
    assert refusal_of_file(tmp_path / "f.yaml").startswith("f.yaml: found no such file; wanted")


def test_a_folder_is_refused(tmp_path: Path) -> None:
    assert refusal_of_file(tmp_path) == "f.yaml: found a folder; wanted a file"


def test_a_path_below_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes").write_text("x", "utf-8")
    assert refusal_of_file(tmp_path / "notes" / "f.yaml").startswith("f.yaml: found not a dir")


@pytest.mark.parametrize("name", ["buttery and slick " * 20, "a\x00b"], ids=["too long", "NUL"])
def test_a_path_that_no_disk_can_hold_is_refused(name: str) -> None:
    assert "wanted the path of a file that may be read" in refusal_of_file(Path(name))


def test_a_byte_order_mark_is_no_part_of_the_text(tmp_path: Path) -> None:
    file = tmp_path / "f.yaml"
    file.write_bytes(b"\xef\xbb\xbfa: 1\n")
    assert read_text(file) == "a: 1\n"
