"""`history show --html`: the whole history, and one batch, as a page in a file."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.consult.history_names import numbered_people
from tests.cli.running import written
from tests.history.stores import WITH_A_LOG, record
from tests.report.structure import faults_of

KEY = "house-pale-2026-05-02"
FILTERED = "christmas-ale-2025-10-04"
PEOPLE = ("Wren", "Tansy", "Juniper", "Marsh")
WORDS = "Wren says buttery, no sourness"


@pytest.fixture
def kept(history, tmp_path):
    """Two batches, one with a log; people named in every place that can hold a name."""
    text = record(
        tastings=f"[{{who: Wren Marsh, words: '{WORDS}'}}, {{who: may, words: a hint of butter}}]",
        fermentation="{vessel: Juniper's bucket}",
        equipment="{changes: [{when: 2026-04-30, what: tap lent by Tansy}]}",
    )
    pale = written(tmp_path, text, "wren_pale.yaml")
    assert history("add", pale, WITH_A_LOG).code == 0
    said = (
        ("verdict", KEY, "under_pitched", "--words", "so says Tansy"),
        ("tasting", KEY, "still buttery", "--who", "Juniper"),
        ("event", "hose from Juniper", "--on", "2026-04-01"),
        ("instrument", "Wren's thermometer", "--reads", "72 F", "--true", "67 F"),
    )
    for typed in said:
        assert history(*typed).code == 0, typed
    return history


def page_of(history, file, *typed):
    outcome = history("show", *typed, "--html", file)
    assert (outcome.code, outcome.err) == (0, "")
    return file.read_text("utf-8")


def words_of(page: str) -> str:
    return " ".join(re.sub(r"<style.*?</style>|<[^>]+>", " ", page, flags=re.DOTALL).split())


def test_the_whole_history_is_one_page_with_every_batch(kept, tmp_path):
    page = page_of(kept, tmp_path / "page.html")
    words = words_of(page)
    assert faults_of(page) == []
    assert "2 batches, brewed 2025-10-04 to 2026-05-02" in words
    assert "christmas-ale" in words and "house-pale" in words
    assert "Too little living yeast" in words


def test_a_batch_is_a_page_with_its_record_its_tastings_and_both_systems(kept, tmp_path):
    page = page_of(kept, tmp_path / "page.html", KEY)
    words = words_of(page)
    assert faults_of(page) == []
    assert "still buttery" in words and "a hint of butter" in words
    assert "18.9 C (66 F)" in words


def test_the_log_of_a_batch_is_drawn(kept, tmp_path):
    page = page_of(kept, tmp_path / "page.html", FILTERED)
    assert 'id="trace-title"' in page and "ferments well" in page


@pytest.mark.parametrize("typed", [(), (KEY,), (FILTERED,)])
def test_without_names_nobody_is_named(kept, tmp_path, typed):
    page = page_of(kept, tmp_path / "page.html", *typed, "--without-names")
    assert [name for name in PEOPLE if name.casefold() in page.casefold()] == []


@pytest.mark.parametrize("as_json", [(), ("--json",)])
def test_a_batch_on_the_terminal_can_be_shown_without_names(kept, as_json):
    out = kept("show", KEY, "--without-names", *as_json).out
    assert [name for name in PEOPLE if name.casefold() in out.casefold()] == []
    assert "person 1" in out


def test_with_names_the_page_has_them(kept, tmp_path):
    page = page_of(kept, tmp_path / "page.html", KEY)
    assert all(name in page for name in ("Wren Marsh", "Juniper"))


def test_the_same_store_gives_the_same_bytes(kept, tmp_path):
    assert page_of(kept, tmp_path / "a.html") == page_of(kept, tmp_path / "b.html")


def test_a_page_is_written_over_an_earlier_one_and_over_nothing_else(kept, tmp_path):
    mine = written(tmp_path, "my own notes", "mine.html")
    assert kept("show", "--html", mine).code == 2
    assert mine.read_text("utf-8") == "my own notes"
    page = tmp_path / "page.html"
    assert page_of(kept, page) != page_of(kept, page, KEY)


def test_filters_leave_batches_out(kept, tmp_path):
    words = words_of(page_of(kept, tmp_path / "page.html", "--since", "2026-01-01"))
    assert "1 batch, brewed 2026-05-02" in words and "christmas" not in words


# What is asked for and cannot be had, and what is said of it.
@pytest.mark.parametrize(
    ("typed", "said"),
    [
        (("--html", "{page}", "--flaw", "xyzzy"), "a flavour, such as 'buttery'"),
        (("--html", "{page}", "--measure", "nothing"), "--measure: found 'nothing'"),
        (("--html", "{page}", "--since", "May"), "--since: found 'May'"),
        ((), "--html FILE for a page of them all"),
    ],
)
def test_what_cannot_be_shown_is_said_in_one_sentence(kept, tmp_path, typed, said):
    outcome = kept("show", *(one.format(page=tmp_path / "page.html") for one in typed))
    assert (outcome.code, outcome.err.count("\n")) == (2, 1)
    assert said in outcome.err
    assert not (tmp_path / "page.html").exists()


def test_the_whole_history_is_json_too(kept):
    answer = kept("show", "--json").json
    assert answer["schema"] == "faultwort/history-page/1"
    assert [one["key"] for one in answer["batches"]] == [FILTERED, KEY]


def test_an_empty_history_is_a_page_that_says_what_to_do(history, tmp_path):
    assert history("add", written(tmp_path, record(), "pale.yaml")).code == 0
    assert history("undo", KEY).code == 0
    page = page_of(history, tmp_path / "page.html")
    assert "No batch is in it." in words_of(page) and faults_of(page) == []


# Source of the table: a tasting that says neither what is wrong nor that nothing is counts as none.
@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("buttery", "1 flawed, 0 clean, 0 not tasted"),
        ("nothing wrong", "0 flawed, 1 clean, 0 not tasted"),
        ("glorpish", "0 flawed, 0 clean, 1 not tasted"),
    ],
)
def test_batches_are_counted_as_the_charts_count_them(history, tmp_path, words, told):
    text = record(tastings=f"[{{who: Wren, words: {words}}}]")
    assert history("add", written(tmp_path, text, "pale.yaml")).code == 0
    assert told in words_of(page_of(history, tmp_path / "page.html"))


def test_a_withdrawn_batch_says_so(kept, tmp_path):
    assert kept("undo", KEY).code == 0
    assert "It is withdrawn" in words_of(page_of(kept, tmp_path / "page.html", KEY))


names = st.lists(st.text("abcABC ", min_size=1, max_size=8).map(str.strip).filter(bool), max_size=5)


@given(names, st.text("abcABC -_'", max_size=30))
def test_no_name_is_left_as_a_word_of_its_own(people, words):
    cleaned = numbered_people(people)(words)
    left = re.split(r"[\W_]+", cleaned.casefold())
    assert not {name.casefold() for name in people if " " not in name} & set(left)


def test_two_people_stay_two():
    clean = numbered_people(["Wren Marsh", "Tansy"])
    assert clean("wren's can, Tansy's can") == "person 1's can, person 2's can"
    assert clean("wren-marsh-pale, wren_log.csv") == "person 1-pale, person 1_log.csv"
    assert clean("Wrenford") == "Wrenford"
