"""The split commands as typed: the whole story in one folder, and what they refuse."""

import re
from typing import Any

import pytest
import yaml

from tests.cli.running import written
from tests.cli.split_folder import Folder
from tests.trial.arms import CAUSE, FAULTY, arm_text


def responsible(answer: Any, which: str) -> float:
    return next(one[which] for one in answer["ranking"] if one["id"] == CAUSE)


def test_the_whole_story(folder: Folder):
    chosen = folder.json("choose", folder.batch, "--tasters", 9)
    share = next(o["responsible"] for o in chosen["candidates"] if o["cause"] == CAUSE)
    planned = folder.plan()
    assert planned["causes"] == [CAUSE]
    first = written(folder.path, arm_text("A"), "a.yaml")
    spoilt = written(folder.path, arm_text("B", kept="28 C"), "b.yaml")
    checked = folder.typed("check", first, spoilt, "--plan", folder.split)
    assert checked.exit_code == 1
    assert "stored too warm" in " ".join(checked.stdout.split())
    sound = written(folder.path, arm_text("B"), "b2.yaml")
    assert folder.json("check", first, sound, "--plan", folder.split)["advice"] == "go"
    folder.ballots()
    folder.answer(right=9)
    read = folder.json("read", folder.split)
    assert read["panel"]["correct"] == 9
    assert responsible(read, "before") == pytest.approx(share)
    assert responsible(read, "after") > responsible(read, "before")
    assert read["known"] and read["not_known"] and read["next"]


def test_nine_who_cannot_tell_lower_the_suspect(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=4)
    read = folder.json("read", folder.split)
    assert responsible(read, "after") < responsible(read, "before")


def test_five_of_nine_in_a_triangle_is_not_shown_and_says_what_it_would_miss(folder: Folder):
    folder.plan()
    folder.ballots("--test", "triangle")
    folder.answer(right=5)
    page = " ".join(folder.typed("read", folder.split).stdout.split())
    missed = (
        "not shown; a difference half the tasters could taste would still be missed about one time "
        "in three"
    )
    assert missed in page[:1].lower() + page.replace("Not shown", "not shown")


def test_a_confound_left_in_makes_the_reading_weaker(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=9)
    clean = folder.json("read", folder.split)
    first = written(folder.path, arm_text("A"), "a.yaml")
    second = written(folder.path, arm_text("B", kept="20 C"), "b.yaml")
    folder.json("check", first, second, "--plan", folder.split)
    spoilt = folder.json("read", folder.split)
    assert 1.0 < spoilt["ratios"][0]["ratio"] < clean["ratios"][0]["ratio"]


def test_a_brewer_s_own_chances_go_before_those_of_the_rule_base(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=9)
    read = folder.json("read", folder.split, "--m", 0.9, "--s", 0.2)
    assert (read["fires"], read["harmless"]) == (0.9, 0.2)
    alike = folder.json("read", folder.split, "--alike", "2 of 2")
    assert alike["harmless"] > folder.json("read", folder.split)["harmless"]


def test_the_key_stays_sealed_until_all_ballots_are_in(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=7, of=7)
    box = (folder.split / "ballots.jsonl").read_bytes()
    assert "Teal, Swift" in folder.refused("read", folder.split)
    assert "Teal, Swift" in folder.refused("read", folder.split, "--close", " ")
    assert (folder.split / "ballots.jsonl").read_bytes() == box


def test_a_panel_closed_with_a_reason_is_read_and_takes_no_more(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=7, of=7)
    read = folder.json("read", folder.split, "--close", "two were ill")
    assert read["panel"]["of"] == 7
    assert read["closed"] == "two were ill"
    late = folder.servings()[8]
    assert "two were ill" in folder.refused("enter", folder.split, "Swift", late["codes"][0])


def test_a_panel_without_a_ballot_is_not_closed(folder: Folder):
    folder.plan()
    folder.ballots()
    assert "at least one ballot" in folder.refused("read", folder.split, "--close", "rain")
    assert not (folder.split / "ballots.jsonl").exists()


def test_a_key_changed_by_hand_is_found_out_and_nothing_is_closed(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=9)
    key = folder.split / "key.sealed"
    head, body = key.read_text("utf-8").splitlines()
    key.write_text(f"{head}\n{body[:50]}{'A' if body[50] != 'A' else 'B'}{body[51:]}\n", "utf-8")
    box = (folder.split / "ballots.jsonl").read_bytes()
    assert "changed by hand" in folder.refused("read", folder.split)
    assert (folder.split / "ballots.jsonl").read_bytes() == box


def test_a_missing_key_is_refused(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=9)
    (folder.split / "key.sealed").unlink()
    assert "no key" in folder.refused("read", folder.split)


def test_a_ballot_is_in_the_box_before_the_command_ends_and_a_torn_line_is_survived(folder: Folder):
    folder.plan()
    folder.ballots()
    folder.answer(right=1, of=1)
    box = folder.split / "ballots.jsonl"
    box.write_bytes(box.read_bytes() + b'{"taster": "Pi')
    folder.typed("enter", folder.split, "Pike", folder.servings()[1]["codes"][0])
    assert len(box.read_text("utf-8").splitlines()) == 3
    read = folder.json("read", folder.split, "--close", "the power failed")
    assert read["panel"]["of"] == 2
    assert any("line 2" in words for words in read["remarks"])


def test_ratings_against_a_control_are_read(folder: Folder):
    folder.plan()
    folder.ballots("--test", "difference-from-control")
    poured = folder.poured()
    plan = yaml.safe_load((folder.split / "plan.yaml").read_text("utf-8"))
    suspect = next(one["number"] for one in plan["vessels"] if one["arm"] == "A")
    for serving in folder.servings():
        rated = [f"{code}={6 if poured[code] == suspect else 1}" for code in serving["codes"]]
        assert folder.typed("enter", folder.split, serving["taster"], *rated).exit_code == 0
    read = folder.json("read", folder.split)
    assert read["panel"]["verdict"] == "shown"
    assert responsible(read, "after") > responsible(read, "before")


def test_several_rounds_are_read_by_taster(folder: Folder):
    folder.plan()
    folder.ballots("--rounds", 2)
    folder.answer(right=18, of=18)
    read = folder.json("read", folder.split)
    assert (read["panel"]["correct"], read["panel"]["of"]) == (18, 18)
    assert read["panel"]["tasters"]["tasters"] == 9


# Source of the table: the list of bad input.
BAD = [
    (("choose", "BATCH", "--tasters", 0), "at least one taster"),
    (("choose", "BATCH", "--test", "sniffing"), "one of triangle"),
    (("plan", "BATCH", "no_such_cause"), "as `faultwort split choose` lists"),
    (("plan", "BATCH", CAUSE, "warm_storage"), "search, not proof"),
    (("plan", "BATCH", CAUSE, "--volume", "5 gal"), "US gal"),
    (("plan", "BATCH", CAUSE, "--volume", "0 L"), "the volume of your batch"),
    (("plan", "BATCH", CAUSE, "--start", "soon"), "a day as 2026-09-12"),
    (("plan", "BATCH", CAUSE, "--design", "clever"), "one of isolating"),
    (("plan", "BATCH", CAUSE, "--test", "a-not-a"), "one of triangle"),
    (("check", "BATCH", "BATCH"), "the same record"),
    (("ballots", "FOLDER", "--tasters", "Wren"), "a file that exists"),
    (("enter", "FOLDER", "Wren", "123"), "no panel.yaml"),
    (("read", "FOLDER"), "a file that exists"),
]


@pytest.mark.parametrize(("words", "says"), BAD, ids=[" ".join(map(str, w)) for w, _ in BAD])
def test_what_cannot_be_is_refused_in_a_sentence(folder: Folder, words: Any, says: str):
    places = {"BATCH": folder.batch, "FOLDER": folder.split}
    said = folder.refused(*(places.get(word, word) for word in words))
    assert says in said
    assert "; wanted " in said
    assert not folder.split.exists()


def test_nothing_is_written_over(folder: Folder):
    folder.plan()
    assert "never written over" in folder.refused(
        "plan", folder.batch, CAUSE, "--out", folder.split
    )
    folder.ballots()
    again = ("ballots", folder.split, "--tasters", "Wren,Pike")
    assert "never written over" in folder.refused(*again)


def test_a_batch_under_a_stop_caution_gets_no_ballots(folder: Folder):
    folder.batch = written(folder.path, FAULTY.replace("wet cardboard", "wet cardboard and petrol"))
    assert folder.plan()["not_served_because"]
    said = folder.refused("ballots", folder.split, "--tasters", "Wren,Pike")
    assert "not served" in said
    assert not (folder.split / "key.sealed").exists()


@pytest.mark.parametrize("command", ["choose", "plan"])
def test_json_is_one_document_with_its_schema(folder: Folder, command: str):
    answer = folder.plan() if command == "plan" else folder.json("choose", folder.batch)
    assert answer["schema"] == f"faultwort/split-{command}/1"


def test_pages_fit_the_terminal(folder: Folder):
    pages = [folder.typed("choose", folder.batch)]
    pages.append(folder.typed("plan", folder.batch, CAUSE, "--seed", 7, "--out", folder.split))
    folder.ballots()
    folder.answer(right=6)
    pages.append(folder.typed("read", folder.split))
    for page in pages:
        assert page.exit_code == 0
        lines = [line for line in page.stdout.splitlines() if "/" not in line]
        assert max(len(line) for line in lines) <= 80


def test_the_beer_of_a_split_is_priced_where_a_litre_has_a_price(folder: Folder) -> None:
    choice = folder.json("choose", folder.batch, "--litre-costs", 0.9)
    assert choice["candidates"]
    for one in choice["candidates"]:
        assert one["money"] == pytest.approx(0.9 * one["litres"])


def test_the_check_of_an_undirected_panel_minds_any_difference_that_could_be_tasted(
    folder: Folder,
) -> None:
    folder.plan()
    airy = written(folder.path, arm_text("A"), "airy.yaml")
    sweet = written(folder.path, arm_text("B", final="1.022"), "sweet.yaml")
    plan = folder.split / "plan.yaml"
    text = plan.read_text("utf-8")
    spoils = []
    for test in ("2-afc", "triangle"):
        plan.write_text(re.sub(r"(?m)^test: .*", f"test: {test}", text), "utf-8")
        spoils.append(folder.json("check", airy, sweet, "--plan", plan)["spoils"])
    assert spoils[1] > spoils[0]


def test_the_choice_says_what_its_costs_are_counted_in(folder: Folder) -> None:
    page = " ".join(folder.typed("choose", folder.batch).stdout.split())
    assert "a cost of 1 is an extra brew day, 4 weeks of waiting or 20 L of beer" in page
    assert "bits for a cost of " in page


def test_the_plan_s_page_names_the_brew_day_first(folder: Folder) -> None:
    words = ("plan", folder.batch, CAUSE, "--start", "2026-07-01", "--out", folder.split)
    page = folder.typed(*words).stdout
    assert page.index("01 Jul 2026: Brew") < page.index("15 Jul 2026: Divide")
    assert "26 Aug 2026: Taste" in page
