"""A diagnosis as a page: self-contained, escaped, in words as well as in drawings."""

import re
from functools import cache
from html import escape, unescape
from html.parser import HTMLParser
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers import Diagnosis
from diagnose.answers.background import Background
from diagnose.consult import to_show
from diagnose.report.html import OPENING, diagnosis_html
from diagnose.report.html.path_picture import path_picture
from diagnose.report.html.ranking import LEAST_NAMED, SHOWN
from diagnose.report.html.weights import weight_words
from tests.casebook.replayed import consultation_of, diagnosis_of
from tests.knowledge.shipped import rule_base

# A log with crash and packaging, three groups of words, an odd log, no log at all, no brewer.
CASES = (
    "crashed_too_soon",
    "spring_bitter",
    "two_days_without_foam",
    "one_old_pack_strong_ale",
    "double_primed_bitter",
    "a_bottle_and_one_word",
)
LOGGED = ("crashed_too_soon", "two_days_without_foam", "one_old_pack_strong_ale")
VOID = {"meta", "br", "hr", "img", "link", "input"}
some_cases = pytest.mark.parametrize("case_id", CASES)
logged_cases = pytest.mark.parametrize("case_id", LOGGED)


class Tags(HTMLParser):
    """Every tag opened, in order, and whether each was closed in turn."""

    def __init__(self) -> None:
        super().__init__()
        self.opened: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self.standing: list[str] = []
        self.faults: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_startendtag(tag, attrs)
        if tag not in VOID:
            self.standing.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.opened.append(tag)
        self.attributes += attrs

    def handle_endtag(self, tag: str) -> None:
        if not self.standing or self.standing.pop() != tag:
            self.faults.append(tag)


@cache
def shown(case_id: str, names: bool = True) -> tuple[Diagnosis, Background]:
    consultation = consultation_of(case_id)
    return to_show(rule_base(), consultation, diagnosis_of(case_id), names=names)


@cache
def page(case_id: str, names: bool = True) -> str:
    return diagnosis_html(*shown(case_id, names))


@cache
def tags(case_id: str) -> Tags:
    return tags_of(page(case_id))


def tags_of(html: str) -> Tags:
    found = Tags()
    found.feed(html)
    found.close()
    return found


def words(html: str) -> str:
    bare = re.sub(r"<(style|title|desc)\b.*?</\1>", "", html, flags=re.DOTALL)
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", bare)).split())


@some_cases
def test_every_tag_is_closed_in_its_turn(case_id: str) -> None:
    assert (tags(case_id).faults, tags(case_id).standing) == ([], [])


@some_cases
def test_there_is_no_script_and_nothing_runs(case_id: str) -> None:
    assert "script" not in tags(case_id).opened
    assert not [name for name, _ in tags(case_id).attributes if name.startswith("on")]


@some_cases
def test_nothing_is_fetched_from_anywhere(case_id: str) -> None:
    assert not re.search(r"https?:|//|@import|<link|<img|<iframe", page(case_id))
    targets = [v for name, v in tags(case_id).attributes if name in ("href", "src", "xlink:href")]
    assert all(target is not None and target.startswith("#") for target in targets)


@some_cases
def test_every_link_and_label_leads_to_an_id_that_is_there_once(case_id: str) -> None:
    found = tags(case_id).attributes
    ids = [value for name, value in found if name == "id"]
    wanted = {str(value)[1:] for name, value in found if name == "href"}
    wanted |= {one for name, v in found if name == "aria-labelledby" for one in str(v).split()}
    assert len(ids) == len(set(ids))
    assert wanted <= set(ids)


@some_cases
def test_the_same_input_gives_the_same_bytes(case_id: str) -> None:
    consultation = consultation_of(case_id)
    again = to_show(rule_base(), consultation, diagnosis_of(case_id), names=True)
    assert diagnosis_html(*again) == page(case_id)


@some_cases
def test_the_page_begins_as_all_of_ours_do(case_id: str) -> None:
    assert page(case_id).startswith(OPENING)
    assert 'name="generator"' in OPENING


@some_cases
def test_headings_go_down_one_step_at_a_time_from_one_title(case_id: str) -> None:
    levels = [int(tag[1]) for tag in tags(case_id).opened if re.fullmatch("h[1-6]", tag)]
    assert levels.count(1) == 1
    assert levels[0] == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


@some_cases
def test_the_landmarks_are_there_once_each(case_id: str) -> None:
    counts = [tags(case_id).opened.count(one) for one in ("header", "main", "footer", "nav")]
    assert counts == [1, 1, 1, 1]
    assert '<html lang="en-GB">' in page(case_id)


@some_cases
def test_every_suspect_that_may_be_behind_it_is_named(case_id: str) -> None:
    text = words(page(case_id))
    for group in shown(case_id)[0].faults:
        rest = [one for one in group.causes[SHOWN:] if one.responsible >= LEAST_NAMED]
        missing = [c.name for c in (*group.causes[:SHOWN], *rest) if c.name not in text]
        assert missing == []


@some_cases
def test_the_verdict_the_odd_entries_and_the_rule_base_are_said(case_id: str) -> None:
    diagnosis, text = shown(case_id)[0], words(page(case_id))
    assert diagnosis.verdict_text in text
    assert f"Rule base {diagnosis.rules.version}" in text
    assert [odd.text for odd in diagnosis.odd_entries if odd.text not in text] == []


@some_cases
def test_cautions_come_in_full_and_the_loud_ones_before_the_verdict(case_id: str) -> None:
    diagnosis, text = shown(case_id)[0], words(page(case_id))
    verdict = text.index(" Verdict ")
    for line in diagnosis.cautions:
        assert (text.index(line.text) < verdict) == (line.level != "note")


@some_cases
def test_every_drawing_has_a_name_and_a_twin_in_words(case_id: str) -> None:
    html = page(case_id)
    figures = re.findall(r"<figure>(.*?)</figure>", html, re.DOTALL)
    assert len(figures) == html.count('role="img"') >= 1
    for figure in figures:
        assert re.search(r'role="img" aria-labelledby="\S+-title \S+-desc"', figure)
        assert "in words:</p><ul><li>" in figure.split("<figcaption>")[1]


@some_cases
def test_every_way_of_the_first_suspect_is_told_in_words(case_id: str) -> None:
    diagnosis, background = shown(case_id)
    text = words(page(case_id)).casefold()
    for group in diagnosis.faults:
        for _, compound, word in group.causes[0].paths:
            names = background.names
            assert re.search(
                rf"\u2192 {re.escape(names[compound].casefold())} \u2192 [^\u2192]*"
                rf"{re.escape(names[word].casefold())}",
                text,
            )


@logged_cases
def test_the_marks_and_the_band_of_a_log_are_told_in_words(case_id: str) -> None:
    trace = shown(case_id)[1].trace
    assert trace is not None
    assert trace.yeast is not None
    text = words(page(case_id).split("<figcaption>")[-1])
    assert [m.name for m in trace.marks if f"{m.name.capitalize()} {m.when}" not in text] == []
    assert f"ferments well, {trace.yeast.low_c:.1f} C (" in text


def test_yeast_band_crash_and_packaging_are_shaded_each_in_its_own_way() -> None:
    diagnosis, background = shown("crashed_too_soon")
    assert background.trace is not None
    marks = tuple(
        mark.model_copy(update={"hours": background.trace.hours - 10}) if place == 2 else mark
        for place, mark in enumerate(background.trace.marks)
    )
    trace = background.trace.model_copy(update={"marks": marks})
    html = diagnosis_html(diagnosis, background.model_copy(update={"trace": trace}))
    assert [html.count(f'fill="{how}"') for how in ("#ddd", "url(#hatched)", "url(#dotted)")] == [
        1,
        1,
        1,
    ]


def test_a_gap_in_the_log_is_a_gap_in_the_line() -> None:
    trace = shown("crashed_too_soon")[1].trace
    assert trace is not None
    assert len(trace.pieces) == 2
    assert page("crashed_too_soon").count("<polyline") == 2


@logged_cases
def test_thinning_keeps_the_coolest_and_the_warmest_reading(case_id: str) -> None:
    trace = shown(case_id)[1].trace
    assert trace is not None
    degrees = [beer_c for piece in trace.pieces for beer_c in piece.beer_c]
    assert min(degrees) == pytest.approx(min(day.low_c for day in trace.days), abs=0.01)
    assert max(degrees) == pytest.approx(max(day.high_c for day in trace.days), abs=0.01)


def test_a_record_without_a_log_says_so() -> None:
    assert "No probe log lies beside this record." in words(page("spring_bitter"))


@some_cases
def test_temperatures_and_volumes_stand_in_both_systems(case_id: str) -> None:
    for line in shown(case_id)[1].figures:
        assert re.search(r" (C|L|mL) \(\S+ (F|US gal|US qt|US fl oz)\)|\d to ", line.both)
        assert line.both in words(page(case_id))


def test_the_page_with_names_has_them() -> None:
    assert all(name in words(page("spring_bitter")) for name in ("Wren", "Tansy"))


@pytest.mark.parametrize("name", ["Wren", "Tansy"])
def test_without_names_no_name_is_left_anywhere(name: str) -> None:
    assert name.casefold() not in page("spring_bitter", names=False).casefold()


def test_without_names_tasters_are_told_apart_by_number() -> None:
    text = words(page("spring_bitter", names=False))
    assert text.index("taster 1: \u201cclove") < text.index("taster 2: \u201cthin")


@given(said=st.text(min_size=1, max_size=40))
def test_what_a_taster_said_never_becomes_a_tag(said: str) -> None:
    diagnosis, background = shown("spring_bitter")
    hostile = f"<script>{said}</script><img src=x onerror=y>"
    tasting = background.tastings[0].model_copy(update={"words": hostile, "who": hostile})
    changed = background.model_copy(
        update={"tastings": (tasting,), "brewer": hostile, "brewed": hostile}
    )
    odd = {"batch": hostile, "not_understood": (hostile,), "doubts": (hostile,), "beer": hostile}
    html = diagnosis_html(diagnosis.model_copy(update=odd), changed)
    assert "<script" not in html
    assert "<img" not in html
    assert escape(hostile) in html


@given(decibans=st.floats(-60, 60))
def test_a_weight_in_words_takes_the_side_of_its_sign(decibans: float) -> None:
    said = weight_words(decibans)
    assert ("against it" in said) == (decibans < 0)
    assert "decibans)" in said


@pytest.mark.parametrize(
    ("decibans", "said"),
    [  # Source: 10 log10 of the odds ratio; the words are judgement.
        (10.0, "strongly for it: odds times 10 (10 decibans)"),
        (-10.0, "strongly against it: odds divided by 10 (10 decibans)"),
        (3.0, "somewhat for it: odds times 2.0 (3 decibans)"),
        (0.5, "slightly for it: odds times 1.1 (0.5 decibans)"),
        (20.0, "very strongly for it: odds times 100 (20 decibans)"),
    ],
)
def test_a_weight_is_said_with_its_odds_and_its_decibans(decibans: float, said: str) -> None:
    assert weight_words(decibans) == said


@given(
    st.lists(
        st.tuples(st.sampled_from("abc"), st.sampled_from(["short", "a very long name of it"])),
        min_size=1,
        max_size=6,
    )
)
def test_a_drawn_path_has_a_box_for_every_name_and_stays_on_its_sheet(
    ways: list[tuple[str, str]],
) -> None:
    svg = path_picture("cause", ways, "k")
    boxes = re.findall(r'<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)"', svg)
    assert len(boxes) == 1 + len({a for a, _ in ways}) + len({b for _, b in ways})
    assert all(float(left) + float(width) <= 340 for left, width in boxes)
