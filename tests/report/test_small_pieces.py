"""Bars, odds, chances and hanging lines, by table and by law."""

import sys
from io import BytesIO, StringIO, TextIOWrapper

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console
from rich.text import Text

from diagnose.answers import ChangedChance, ChangedGroup, chance_words, lower_first, percent
from diagnose.report.strips import BAR_CELLS, PAGE_COLUMNS, bar, hanging, odds_words, terminal
from diagnose.report.what_if_page import SHOWN, rows_shown
from tests.report.printed import printed, widest

chances = st.floats(0.0, 1.0)
plain_words = st.lists(st.text("abcdefghij", min_size=1, max_size=12), min_size=1, max_size=40)


# Source of the table: 10^(decibans / 10), worked by hand.
@pytest.mark.parametrize(
    ("decibans", "words"),
    [
        (0.0, "x1.0"),
        (1.0, "x1.3"),
        (3.0, "x2.0"),
        (4.0, "x2.5"),
        (5.0, "x3"),
        (9.0, "x8"),
        (10.0, "x10"),
        (20.0, "x100"),
        (-1.0, "/1.3"),
        (-3.0, "/2.0"),
        (-9.0, "/8"),
        (-20.0, "/100"),
    ],
)
def test_a_weight_is_said_as_what_it_does_to_the_odds(decibans: float, words: str) -> None:
    assert odds_words(decibans) == words


@given(st.floats(0.01, 25.0))
def test_a_weight_against_divides_by_what_one_for_multiplies_by(decibans: float) -> None:
    assert odds_words(-decibans)[1:] == odds_words(decibans)[1:]


# Source of the table: the floors named beside the words, read by hand.
@pytest.mark.parametrize(
    ("chance", "words"),
    [
        (0.0, "very unlikely, under 1 %"),
        (0.049, "unlikely, 5 %"),
        (0.05, "unlikely, 5 %"),
        (0.15, "possible, 15 %"),
        (0.35, "about even, 35 %"),
        (0.549, "likely, 55 %"),
        (0.55, "likely, 55 %"),
        (0.75, "very likely, 75 %"),
        (0.95, "almost certain, 95 %"),
        (1.0, "almost certain, over 99 %"),
    ],
)
def test_a_chance_is_said_in_a_word_with_its_number(chance: float, words: str) -> None:
    assert chance_words(chance) == words


@given(chances)
def test_a_percentage_is_never_nought_or_a_hundred(chance: float) -> None:
    assert percent(chance).removeprefix("under ").removeprefix("over ") not in ("0 %", "100 %")


@given(chances, chances)
def test_a_higher_chance_never_reads_as_a_lower_percentage(one: float, other: float) -> None:
    order = ["under 1 %", *(f"{number} %" for number in range(1, 100)), "over 99 %"]
    low, high = sorted((one, other))
    assert order.index(percent(low)) <= order.index(percent(high))


@given(chances)
def test_a_bar_is_as_long_as_its_share(share: float) -> None:
    drawn = bar(share, Console(file=StringIO()))
    assert len(drawn) == BAR_CELLS
    assert abs(drawn.count("█") - share * BAR_CELLS) <= 0.5


@given(st.text())
def test_lowering_the_first_letter_leaves_the_rest(sentence: str) -> None:
    assert lower_first(sentence)[1:].endswith(sentence[1:])


@given(plain_words, st.integers(40, 120), st.integers(0, 8), st.text("ab:", max_size=10))
def test_a_hanging_line_keeps_its_words_and_its_column(
    words: list[str], columns: int, indent: int, mark: str
) -> None:
    page = printed(lambda c: hanging(c, mark, " ".join(words), indent), columns)
    lines = page.splitlines()
    start = indent + len(mark) + 1
    assert widest(page) <= columns
    assert " ".join(line[start:] for line in lines).split() == words
    assert all(line[:start].strip() == "" for line in lines[1:])


def test_a_page_is_never_wider_than_reads_well() -> None:
    assert terminal(200).width == PAGE_COLUMNS
    assert terminal(60).width == 60


def test_a_sign_that_the_terminal_cannot_show_becomes_a_question_mark(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    raw = BytesIO()
    monkeypatch.setattr(sys, "stdout", TextIOWrapper(raw, encoding="ascii"))
    terminal(80).print(Text("Märzen № 2"))
    sys.stdout.flush()
    assert raw.getvalue() == b"M?rzen ? 2\n"


def test_a_suspect_that_a_supposition_clears_keeps_its_line_among_the_first() -> None:
    # Judgement: what falls is told like what rises. Chances made up.
    def chance(name: str, was: float, now: float) -> ChangedChance:
        return ChangedChance(id=name, name=name, was=was, responsible=now)

    rest = [chance(f"rest {at}", 0.03, 0.09 - at / 100) for at in range(SHOWN)]
    group = ChangedGroup(
        descriptors=("stale",),
        names=("stale",),
        causes=(*rest, chance("cleared", 0.13, 0.004)),
        expected_here=chance("expected", 0.0, 0.0),
        not_in_rule_base=chance("unknown", 0.1, 0.2),
    )
    named = [one.name for one in rows_shown(group)][:SHOWN]
    assert (named[-1], len(named)) == ("cleared", SHOWN)
