"""Cautions come first on every page of a split, and on the plan's paper."""

import re

import pytest

from tests.cli.running import written
from tests.cli.split_folder import Folder
from tests.trial.arms import CAUSE, FAULTY, arm_text

# Source of the record and of the words: the rule base's own caution for a solvent smell.
PETROL = FAULTY.replace("wet cardboard", "wet cardboard and petrol")
GASSY = "gravity: {original: 1.044, final: 1.011}", "gravity: {original: 1.060, final: 1.032}"
MARKS = re.compile("^(STOP|TAKE CARE|Note):", re.MULTILINE)


def first_advice(page: str) -> int:
    """Where the page starts on anything but its title and cautions."""
    body = page.split("\n\n")
    title = 0 if MARKS.search(body[0]) else 1
    place = next(n for n, part in enumerate(body[title:]) if not MARKS.match(part.lstrip()))
    return len("\n\n".join(body[: title + place]))


def assert_cautions_first(page: str) -> None:
    found = [match.start() for match in MARKS.finditer(page)]
    assert found
    assert max(found) < first_advice(page)


@pytest.mark.parametrize("command", ["choose", "plan"])
def test_what_says_stop_stands_before_what_is_advised(folder: Folder, command: str) -> None:
    batch = written(folder.path, PETROL)
    cause = [CAUSE, "--out", folder.split] if command == "plan" else []
    page = folder.typed(command, batch, *cause).stdout
    assert "STOP:" in page
    assert_cautions_first(page)


def test_what_says_take_care_is_said_of_a_plan_and_of_all_that_comes_of_it(folder: Folder) -> None:
    folder.batch = written(folder.path, FAULTY.replace(*GASSY))
    texts = {one["text"] for one in folder.plan()["cautions"] if one["level"] == "warn"}
    assert texts
    folder.ballots()
    folder.answer(9)
    read = folder.json("read", folder.split)
    assert {one["text"] for one in read["cautions"]} >= texts
    assert_cautions_first(folder.typed("read", folder.split).stdout)


def test_the_cautions_of_either_arm_come_before_the_comparison(folder: Folder) -> None:
    sound = written(folder.path, arm_text("A"), "a.yaml")
    sweet = written(folder.path, arm_text("B", final="1.030"), "b.yaml")
    assert_cautions_first(folder.typed("check", sound, sweet).stdout)


def test_the_plan_on_paper_warns_before_it_says_what_to_do(folder: Folder) -> None:
    folder.batch = written(folder.path, FAULTY.replace(*GASSY))
    folder.plan()
    paper = (folder.split / "plan.html").read_text("utf-8")
    assert paper.index("Take care.") < paper.index("Arms and vessels")
