"""A further pair of vessels, and a further split, start from what those before them taught."""

import json
import shlex
from typing import Any

import pytest

from diagnose.cli.history_split import split_note
from tests.cli.split_folder import Folder
from tests.trial.arms import CAUSE, FAULTY, TASTERS


def chance(answer: Any, which: str) -> float:
    return next(float(one[which]) for one in answer["ranking"] if one["id"] == CAUSE)


def odds(share: float) -> float:
    return share / (1.0 - share)


@pytest.fixture
def two_pairs(folder: Folder) -> Folder:
    folder.json("plan", folder.batch, CAUSE, "--seed", 7, "--pairs", 2, "--out", folder.split)
    folder.suspect_at(0.2)
    folder.ballots()
    folder.answer(9)
    return folder


def second_pair(folder: Folder, right: int = 9) -> Folder:
    folder.ballots("--pair", 2)
    other = Folder(folder.path)
    other.split = folder.split / "pair-2"
    plan = json.loads((folder.split / "plan.yaml").read_text("utf-8"))
    suspect = next(v["number"] for v in plan["vessels"] if (v["arm"], v["pair"]) == ("A", 2))
    poured = other.poured()
    for place, serving in enumerate(other.servings()):
        hits = [code for code in serving["codes"] if poured[code] == suspect]
        misses = [code for code in serving["codes"] if poured[code] != suspect]
        chosen = (hits if place < right else misses)[0]
        assert other.typed("enter", other.split, serving["taster"], chosen).exit_code == 0
    return other


# Source: Bayes' rule; two pairs are two lessons.
def test_the_second_pair_starts_from_what_the_first_one_left(two_pairs: Folder) -> None:
    first = two_pairs.json("read", two_pairs.split)
    other = second_pair(two_pairs)
    second = other.json("read", other.split)
    assert chance(second, "before") == pytest.approx(chance(first, "after"))
    ratios = first["ratios"][0]["ratio"] * second["ratios"][0]["ratio"]
    assert odds(chance(second, "after")) == pytest.approx(odds(0.2) * ratios, rel=1e-6)


def test_the_first_pair_read_again_does_not_count_the_second(two_pairs: Folder) -> None:
    first = two_pairs.json("read", two_pairs.split)
    other = second_pair(two_pairs)
    other.json("read", other.split)
    assert two_pairs.json("read", two_pairs.split)["ranking"] == first["ranking"]


def test_a_first_pair_that_was_not_read_is_asked_for(two_pairs: Folder) -> None:
    other = second_pair(two_pairs)
    second = other.json("read", other.split)
    assert chance(second, "before") == pytest.approx(0.2)
    assert any("not read yet" in words for words in second["remarks"])


def test_a_further_split_starts_from_what_both_pairs_taught(two_pairs: Folder) -> None:
    own = two_pairs.json("choose", two_pairs.batch)["candidates"]
    first = two_pairs.json("read", two_pairs.split)["ratios"][0]["ratio"]
    other = second_pair(two_pairs, right=2)
    second = other.json("read", other.split)["ratios"][0]["ratio"]
    after = two_pairs.json("choose", two_pairs.batch, "--after", other.split)["candidates"]
    shares = [next(o["responsible"] for o in one if o["cause"] == CAUSE) for one in (own, after)]
    assert odds(shares[1]) == pytest.approx(odds(shares[0]) * first * second, rel=1e-6)


def test_a_third_split_counts_the_first_as_well(folder: Folder) -> None:
    ratio = folder.read(9, share=0.2)["ratios"][0]["ratio"]
    again = shlex.split(folder.json("read", folder.split)["type_next"])[2:]
    planned = folder.json(*again)
    assert any("splits before" in words for words in planned["remarks"])
    third = Folder(folder.path)
    third.split = folder.path / "split-2"
    third.ballots()
    third.answer(9)
    second = third.json("read", third.split)
    own = folder.json("choose", folder.batch)["candidates"]
    start = next(o["responsible"] for o in own if o["cause"] == CAUSE)
    assert odds(chance(second, "before")) == pytest.approx(odds(start) * ratio, rel=1e-6)
    led = shlex.split(second["type_next"])
    assert "--after" in led or led[1] == "history"


def test_a_split_that_was_not_read_teaches_nothing(folder: Folder) -> None:
    folder.plan()
    assert "was not read" in folder.refused("choose", folder.batch, "--after", folder.split)


def test_a_split_about_another_flavour_is_no_start(folder: Folder) -> None:
    folder.read(9)
    folder.batch.write_text(FAULTY.replace("wet cardboard", "butter"), "utf-8")
    said = folder.refused("choose", folder.batch, "--after", folder.split)
    assert "a split about wet cardboard" in said


def test_the_history_keeps_the_chances_that_a_panel_was_read_with(folder: Folder) -> None:
    folder.plan()
    folder.ballots()
    folder.answer(len(TASTERS))
    folder.json("read", folder.split, "--m", 0.9, "--s", 0.2)
    note = split_note(folder.split, ())
    assert (note["reading"]["fires"], note["reading"]["harmless"]) == (0.9, 0.2)
