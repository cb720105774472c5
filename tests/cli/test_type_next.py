"""Every page of a split, a panel and a supposition ends with a command that can be typed."""

import shlex
from pathlib import Path

import pytest
from typer.testing import CliRunner

from diagnose.cli.app import app
from tests.cli.running import Faultwort, written
from tests.cli.split_folder import Folder
from tests.trial.arms import CAUSE, FAULTY, arm_text

# Source of the tables: each step of a split as the README tells it, and what each state calls for.
PANELS = [
    (("size",), "panel critical"),
    (("size", "--dprime", "0.3", "--most", "20"), "panel critical"),
    (("critical", "--tasters", "9"), "panel read"),
    (("critical", "--evenings", "8,8,8"), "panel read"),
    (("critical", "--test", "a-not-a", "--tasters", "8"), "panel read"),
    (("critical", "--test", "difference-from-control", "--tasters", "8"), "panel read"),
    (("read", "--correct", "8", "--of", "9"), "split choose"),
    (("read", "--correct", "5", "--of", "9"), "panel size"),
    (("read", "--correct", "3", "--of", "3"), "panel size"),
    (("read", "--evenings", "5 of 8, - of 8"), "panel read"),
    (("read", "--test", "dfc", "--ratings", "5,4,6", "--control", "2,1,3"), "panel critical"),
]


def last_command(page: str) -> list[str]:
    """The words of the command at the end of a page, as a shell reads them."""
    typed = page.split("\nTo go on, type\n", 1)[1].strip().splitlines()
    *_, line = (one for one in typed if one.strip().startswith("faultwort"))
    program, *words = shlex.split(line)
    assert program == "faultwort"
    return words


def assert_exists(words: list[str]) -> None:
    """The command and every option of it are ones that the program has."""
    end = 2 if words[0] in ("split", "panel", "history", "batch") else 1
    helped = CliRunner(env={"COLUMNS": "200"}).invoke(app, [*words[:end], "--help"])
    assert helped.exit_code == 0, words
    options = {word for word in words[end:] if word.startswith("--")}
    assert all(option in helped.stdout for option in options), words


@pytest.mark.parametrize(("typed", "wanted"), PANELS, ids=[" ".join(t) for t, _ in PANELS])
def test_a_panel_page_ends_with_what_its_state_calls_for(
    faultwort: Faultwort, typed: tuple[str, ...], wanted: str
) -> None:
    words = last_command(faultwort("panel", *typed).out)
    assert " ".join(words[:2]) == wanted
    assert_exists(words)


def test_no_more_tasters_are_asked_for_than_there_are(faultwort: Faultwort) -> None:
    page = faultwort("panel", "size", "--dprime", "0.3", "--most", "20").out
    assert last_command(page)[-1] == "20"


def test_the_evenings_still_to_come_are_left_to_be_filled_in(faultwort: Faultwort) -> None:
    words = last_command(faultwort("panel", "read", "--evenings", "5 of 8, - of 8, - of 4").out)
    assert words[-1] == "5 of 8, RIGHT of 8, - of 4"


def test_each_step_of_a_split_leads_to_the_next(folder: Folder) -> None:
    arms = [written(folder.path, arm_text(arm), f"{arm}.yaml") for arm in "AB"]
    led = [
        last_command(folder.typed(*typed).stdout)[:2]
        for typed in (
            ("plan", folder.batch, CAUSE, "--seed", 7, "--out", folder.split),
            ("check", *arms, "--plan", folder.split),
            ("ballots", folder.split, "--tasters", "Wren,Pike", "--seed", 3),
        )
    ]
    assert led == [["split", "check"], ["split", "ballots"], ["split", "enter"]]
    codes = [one["codes"][0] for one in folder.servings()]
    entered = last_command(folder.typed("enter", folder.split, "Wren", codes[0]).stdout)
    assert (entered[1], entered[3]) == ("enter", "Pike")
    entered = last_command(folder.typed("enter", folder.split, "Pike", codes[1]).stdout)
    assert entered == ["split", "read", str(folder.split)]
    read = last_command(folder.typed("read", folder.split).stdout)
    assert read[:3] == ["split", "plan", str(folder.batch)]
    assert_exists(read)


def test_a_pair_that_was_brewed_is_tasted_before_another_is_planned(folder: Folder) -> None:
    typed = ("plan", folder.batch, CAUSE, "--seed", 7, "--pairs", 2, "--out", folder.split)
    folder.typed(*typed)
    folder.suspect_at(0.2)
    folder.ballots()
    folder.answer(9)
    said = folder.json("read", folder.split)["type_next"]
    assert shlex.split(said)[1:4] == ["split", "ballots", str(folder.split)]
    assert said.endswith("--pair 2")
    other = folder.ballots("--pair", 2)
    assert (folder.split / "pair-2" / "plan.yaml").is_file()
    assert str(folder.split / "pair-2") in other["type_next"]


# Source of the table: judgement; nobody should pour what the check warned of without being told.
@pytest.mark.parametrize(
    ("kept", "said"), [(None, "not compared yet"), ("28 C", "said not to taste"), ("", "")]
)
def test_ballots_say_what_stands_against_the_arms(
    folder: Folder, kept: str | None, said: str
) -> None:
    folder.plan()
    if kept is not None:
        first = written(folder.path, arm_text("A"), "a.yaml")
        second = arm_text("B", kept=kept) if kept else arm_text("B")
        folder.typed("check", first, written(folder.path, second, "b.yaml"), "--plan", folder.split)
    told = folder.ballots()["arms"]
    assert said in told and bool(said) == bool(told)


def test_the_reading_says_how_to_keep_it(folder: Folder) -> None:
    kept = shlex.split(folder.read(9, share=0.2)["keep"])
    assert kept[1:3] == ["history", "split"] and kept[-1] == str(folder.split)


def test_the_reading_tells_its_meaning_before_its_figures(folder: Folder) -> None:
    folder.read(9)
    page = folder.typed("read", folder.split).stdout
    places = [page.index(words) for words in ("Now known", "Next", "In figures", "Bayes factor")]
    assert places == sorted(places)


def test_a_panel_that_asked_by_name_is_not_told_to(folder: Folder) -> None:
    told = folder.read(6)
    assert "2-AFC" in told["panel"]["name"]
    assert "by name" not in " ".join(told["next"])
    assert "written down before" not in " ".join(told["panel"]["remarks"])


# Source of the table: what the reading says in words for each of these counts.
@pytest.mark.parametrize(
    ("right", "share", "wanted"),
    [(9, 0.9, "history split"), (9, 0.2, "split plan"), (0, 0.05, "split choose")],
)
def test_a_reading_ends_with_what_it_calls_for(
    folder: Folder, right: int, share: float, wanted: str
) -> None:
    assert f"faultwort {wanted}" in folder.read(right, share=share)["type_next"]


def test_arms_that_are_not_fit_are_compared_again_and_not_served(folder: Folder) -> None:
    folder.plan()
    first = written(folder.path, arm_text("A"), "a.yaml")
    spoilt = written(folder.path, arm_text("B", kept="28 C"), "b.yaml")
    words = last_command(folder.typed("check", first, spoilt, "--plan", folder.split).stdout)
    assert words[:2] == ["split", "check"]


def test_a_beer_that_is_not_served_leads_to_no_panel(folder: Folder) -> None:
    folder.batch = written(folder.path, FAULTY.replace("wet cardboard", "wet cardboard and petrol"))
    assert last_command(folder.typed("choose", folder.batch).stdout)[0] == "diagnose"
    folder.plan()
    arms = [written(folder.path, arm_text(arm), f"{arm}.yaml") for arm in "AB"]
    words = last_command(folder.typed("check", *arms, "--plan", folder.split).stdout)
    assert words[0] == "diagnose"


def test_a_supposition_ends_with_the_questions_about_the_record(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    batch = written(tmp_path, FAULTY)
    page = faultwort("diagnose", batch, "--suppose", "storage at 4 C").out
    assert last_command(page) == ["ask", str(batch)]


# Source of the table: signs that a shell takes for its own.
@pytest.mark.parametrize("said", ["it's sour", 'a "sour" note', "sour, $5 worth"])
def test_the_words_typed_come_back_as_they_were(faultwort: Faultwort, said: str) -> None:
    page = faultwort("diagnose", "--taste", said, "--suppose", "butter").out
    assert last_command(page) == ["diagnose", "--taste", said]
