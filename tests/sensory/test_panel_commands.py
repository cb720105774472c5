"""`panel size`, `panel critical` and `panel read` as typed."""

import json
import re

import pytest
from scipy import stats
from typer.testing import CliRunner, Result

from diagnose.cli.panel import panel_app
from diagnose.consult.panel_reading import ReadAsked, read_panel
from diagnose.errors import UnusableInput
from diagnose.sensory import METHODS, SHOWN

RUNNER = CliRunner(env={"COLUMNS": "80"})
MISSED = (
    "not shown; a difference half the tasters could taste would still be missed about one time "
    "in three"
)


def _typed(*words: str) -> Result:
    return RUNNER.invoke(panel_app, list(words))


def _json(*words: str):
    return json.loads(_typed(*words, "--json").stdout)


def _page(*words: str) -> str:
    done = _typed(*words)
    assert done.exit_code == 0, done.exception
    return done.stdout


def _flowing(text: str) -> str:
    return re.sub(r"\s+", " ", text)


# Source of the table: the issue's text; each command with the schema it promises.
COMMANDS = [
    (("size",), "panel-size"),
    (("size", "--dprime", "1"), "panel-size"),
    (("size", "--test", "a-not-a", "--dprime", "1.5", "--most", "12"), "panel-size"),
    (("critical", "--tasters", "9"), "panel-critical"),
    (("critical", "--evenings", "8,8,8"), "panel-critical"),
    (("critical", "--test", "a-not-a", "--tasters", "8"), "panel-critical"),
    (("critical", "--test", "difference-from-control", "--tasters", "8"), "panel-critical"),
    (("read", "--correct", "5", "--of", "9"), "panel-read"),
    (("read", "--correct", "9", "--of", "9"), "panel-read"),
    (("read", "--each", "3,2,4 of 4"), "panel-read"),
    (("read", "--test", "2-afc-two-sided", "--each", "3 of 4, 0 of 4"), "panel-read"),
    (("read", "--evenings", "5 of 8, 3 of 8, - of 8"), "panel-read"),
    (("read", "--evenings", "- of 8"), "panel-read"),
    (
        ("read", "--test", "a-not-a", "--correct", "10", "--of", "20", "--false-alarms", "3 of 20"),
        "panel-read",
    ),
    (("read", "--test", "dfc", "--ratings", "5,4,6", "--control", "2,1,3"), "panel-read"),
]
EACH = pytest.mark.parametrize(
    ("words", "schema"), COMMANDS, ids=[" ".join(w) for w, _ in COMMANDS]
)


@EACH
def test_a_command_prints_one_json_document_with_its_schema(words, schema):
    assert _json(*words)["schema"] == f"faultwort/{schema}/1"


@EACH
def test_a_page_fits_eighty_columns(words, schema):
    # A command stands on one line, however long, so that it can be copied.
    lines = [line for line in _page(*words).splitlines() if not line.startswith("  faultwort ")]
    assert max(map(len, lines)) <= 80


def test_five_of_nine_is_read_as_the_issue_asks():
    assert _json("read", "--test", "triangle", "--correct", "5", "--of", "9")["says"] == MISSED


def test_the_page_says_it_too():
    page = _flowing(_page("read", "--test", "triangle", "--correct", "5", "--of", "9"))
    assert MISSED in page.replace("Not shown", "not shown")


def test_no_page_takes_silence_for_proof():
    page = _page("read", "--correct", "5", "--of", "9")
    assert "not shown is not 'no difference'" in page


def test_a_p_below_what_is_worth_printing_is_said_so():
    assert "p under 0.001" in _page("read", "--correct", "30", "--of", "30")


def test_fewer_right_than_luck_points_to_the_key():
    assert "check the key" in _page("read", "--correct", "4", "--of", "30")


def test_a_perfect_score_has_an_open_end():
    assert _json("read", "--correct", "9", "--of", "9")["dprime"]["high"] is None


def test_twelve_tasters_are_named_as_no_better_than_nine():
    poor = _json("size", "--alpha", "0.05", "--discriminators", "0.5")["poor"]
    assert {"answers": 12, "better": 9} in poor


def test_the_first_and_the_safe_size_are_told_apart():
    answer = _json("size", "--alpha", "0.1", "--power", "0.8", "--discriminators", "0.5")
    assert (answer["first"], answer["safe"]) == (12, 14)


def test_a_size_beyond_the_panel_says_what_else_would_help():
    offers = " ".join(_json("size", "--dprime", "1", "--most", "30")["what_else_helps"])
    assert "paired test (2-AFC): 19 answers" in offers and "rounds by 30 tasters" in offers


def test_a_size_within_the_panel_needs_no_other_help():
    assert _json("size", "--dprime", "3")["what_else_helps"] == []


def test_no_size_is_named_without_a_word_on_alcohol():
    (caution,) = _json("size")["cautions"]
    assert "36 glasses" in caution and "drives" in caution and "Local guidance" in caution


def test_the_limits_of_three_evenings_keep_the_risk():
    answer = _json("critical", "--evenings", "8,8,8")
    assert [line["least_correct"] for line in answer["lines"]] == [6, 9, 12]
    assert answer["exact_alpha"] <= 0.1


def test_a_limit_that_does_not_exist_is_none():
    answer = _json("critical", "--test", "duo-trio", "--tasters", "3")
    assert answer["lines"][0]["least_correct"] is None


def test_an_evening_that_shows_a_difference_ends_the_tasting():
    answer = _json("read", "--evenings", "7 of 8, - of 8")
    assert (answer["verdict"], "stop here" in answer["says"]) == ("shown", True)


# Source: counted by hand over both evenings, 8 answers each at a share of 1/3 + 2/3 x 0.5 = 2/3.
def test_what_evenings_would_miss_is_the_chance_of_no_limit_met():
    first, second = (
        one["least_correct"] for one in _json("critical", "--evenings", "8,8")["lines"]
    )
    chances = stats.binom.pmf(range(9), 8, 2 / 3)
    missed = sum(
        one * other
        for right, one in enumerate(chances)
        for more, other in enumerate(chances)
        if right < first and right + more < second
    )
    found = _json("read", "--evenings", "3 of 8, 3 of 8", "--discriminators", "0.5")["missed"]
    assert found == pytest.approx(missed)


def test_evenings_still_to_come_leave_it_open():
    assert _json("read", "--evenings", "4 of 8, - of 8")["verdict"] == "going_on"


def test_evenings_all_tasted_are_read_to_the_end():
    answer = _json("read", "--evenings", "3 of 8, 3 of 8")
    assert (answer["verdict"], "would still be missed" in answer["says"]) == ("not_shown", True)


def test_tasters_in_a_file_are_read_like_tasters_typed(tmp_path):
    path = tmp_path / "tasters.csv"
    path.write_text("taster,right,answers\na,3,4\nb, 2 of 4  # cold\nx4; 4; 4\n", "utf-8")
    assert _json("read", "--replicates", str(path)) == _json("read", "--each", "3,2,4 of 4")


def test_a_line_of_such_a_file_that_cannot_be_read_is_named(tmp_path):
    path = tmp_path / "tasters.csv"
    path.write_text("a,3,4\nb,some\n", "utf-8")
    done = _typed("read", "--replicates", str(path))
    assert isinstance(done.exception, UnusableInput)
    assert f"{path}:2: found 'b,some'; wanted right answers" in str(done.exception)


# Source of the table: the issue's list of bad input, and its relatives.
BAD = [
    ("read --correct 10 --of 9", "correct: found 10 right of 9; wanted no more right answers"),
    ("read --correct 0 --of 0", "tasters: found 0; wanted at least one taster"),
    ("read --correct -1 --of 5", "correct: found -1; wanted 0 or more right answers"),
    ("read --correct 5", "wanted --correct and --of"),
    ("read --test pentagon --correct 5 --of 9", "test: found 'pentagon'; wanted one of triangle"),
    ("read --correct 5 --of 9 --alpha 1", "alpha: found 1; wanted a risk"),
    ("read --correct 5 --of 9 --discriminators 1.5", "discriminators: found 1.5"),
    ("read --each 3,x", "--each: found '3,x'; wanted counts"),
    ("read --each 5,3of4", "correct: found 5 right of 4"),
    ("read --correct 1 --of 4 --each 3,1of4", "counts that agree"),
    ("read --evenings 9of8", "correct: found 9 right of 8"),
    ("read --evenings -of8,3of8", "those still to come ('-') last"),
    ("read --evenings 3", "--evenings: found '3'; wanted"),
    ("read --test a-not-a --correct 5 --of 9", "--false-alarms '3 of 20'"),
    ("read --test dfc --ratings 3,4", "--control of the blind control"),
    ("read --test dfc --ratings 3,4 --control 1", "one of each from every taster"),
    ("read --test dfc --ratings 3,b --control 1,2", "--ratings: found '3,b'"),
    ("size --alpha 1", "alpha: found 1"),
    ("size --power 1", "power: found 1"),
    ("size --power nan", "power: found nan"),
    ("size --dprime 0", "dprime: found 0"),
    ("size --dprime 1 --discriminators 0.5", "either --dprime or --discriminators"),
    ("size --most 0", "tasters: found 0"),
    ("size --test dfc", "for ratings plan 8 tasters or more"),
    ("size --test a-not-a", "wanted --dprime"),
    ("critical --tasters 0", "tasters: found 0"),
    ("critical", "either --tasters or --evenings"),
    ("critical --tasters 9 --evenings 8,8", "either --tasters or --evenings"),
    ("critical --evenings 8,x", "--evenings: found '8,x'"),
    ("critical --test 2-afc-two-sided --evenings 8,8", "a one-sided test"),
    ("critical --test dfc --evenings 8,8", "for tasting over several evenings"),
]


@pytest.mark.parametrize(("words", "said"), BAD, ids=[words for words, _ in BAD])
def test_bad_input_is_one_clear_sentence(words, said):
    done = _typed(*words.split(" "))
    assert isinstance(done.exception, UnusableInput)
    assert said in str(done.exception) and "\n" not in str(done.exception)


@pytest.mark.parametrize("test", METHODS)
def test_what_is_shown_is_never_said_to_fit_nobody_or_nothing(test: str):
    # Source: the definition of the verdict; the intervals allow less luck than it does.
    for answers in (2, 3, 5, 9, 14, 24):
        for right in range(answers + 1):
            told = read_panel(ReadAsked(test, right, answers))
            fits = f"{told.dprime.says}; {told.able.says}"
            denies = "fit no difference" in fits or "fit nobody" in fits
            assert not (denies and told.verdict in SHOWN), (right, answers)


def test_six_of_nine_are_shown_and_leave_open_how_few_can_tell():
    page = _flowing(_page("read", "--correct", "6", "--of", "9"))
    assert "Shown; luck alone" in page
    assert "up to 89 % of tasters able to tell; how few it may be they leave open" in page


def test_what_is_not_shown_is_not_said_to_fit_a_difference_alone():
    page = _flowing(_page("read", "--correct", "2", "--of", "2"))
    assert "luck may give them too" in page
