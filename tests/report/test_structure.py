"""Every page can be listened to, zoomed, and read in weak light: checked without a browser."""

import pytest

from tests.report.paged import KINDS, pages
from tests.report.structure import contrast, faults_of, strokes, words_and_grounds

# WCAG 2.2, success criteria 1.4.3 (words) and 1.4.11 (drawings).
WORDS, DRAWN = 4.5, 3.0
every_kind = pytest.mark.parametrize("kind", KINDS)
SOUND = (
    '<html lang="en-GB"><head><title>a</title><meta name="viewport" content="width=device-width">'
    '</head><body><main><h1>a</h1><h2>b</h2><table><tr><th scope="col">c</th></tr></table>'
    '<svg role="img" aria-labelledby="t"><title id="t">d</title></svg></main></body></html>'
)


@every_kind
def test_a_page_has_no_fault_of_structure(kind: str) -> None:
    assert faults_of(pages()[kind]) == []


@every_kind
def test_words_stand_out_from_whatever_may_lie_behind_them(kind: str) -> None:
    words, grounds = words_and_grounds(pages()[kind])
    assert words and grounds
    assert [(a, b) for a in words for b in grounds if contrast(a, b) < WORDS] == []


@every_kind
def test_the_lines_of_drawings_stand_out_from_the_paper(kind: str) -> None:
    faint = [one for one in strokes(pages()[kind]) if contrast(one, "#fff") < DRAWN]
    assert faint == []


@every_kind
def test_no_page_shows_the_marks_round_what_is_to_be_typed(kind: str) -> None:
    assert "`" not in pages()[kind]


# Source of the table: WCAG 2.2's formula; black on white is its own example, #767676 and #777 are
# the greys on either side of 4.5 on white, worked by hand.
@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000", "#fff", 21.0),
        ("#fff", "#ffffff", 1.0),
        ("#767676", "#fff", 4.54),
        ("#777", "#fff", 4.48),
        ("#ff0000", "#fff", 4.00),
    ],
)
def test_the_contrast_is_that_of_the_formula(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.006)
    assert contrast(other, one) == contrast(one, other)


def test_a_sound_page_has_no_fault() -> None:
    assert faults_of(SOUND) == []


# What is broken on the sound page: (what stood there, what stands there now, the fault).
@pytest.mark.parametrize(
    ("was", "now", "fault"),
    [
        (' lang="en-GB"', "", "no language"),
        ("<title>a</title><meta", "<meta", "no title"),
        ("width=device-width", "width=980", "no viewport"),
        ("device-width", "device-width, maximum-scale=1", "no zoom"),
        ("<h1>a</h1>", "", "not one h1"),
        ("<h2>b</h2>", "<h3>b</h3>", "h1 then h3"),
        ("<h2>b</h2>", "<h1>b</h1>", "not one h1"),
        ('<th scope="col">', "<th>", "th without scope"),
        (">c<", "><", "an empty head"),
        ('<th scope="col">c</th>', "<td>c</td>", "a table without heads"),
        (' role="img"', "", "a picture without a name"),
        ('labelledby="t"', 'labelledby="u"', "a picture without a name"),
        ("<h2>b</h2>", '<h2 id="t">b</h2>', "id twice"),
        ("<h2>b</h2>", "<script></script>", "script"),
        ("<h2>b</h2>", '<p onclick="a">b</p>', "onclick runs"),
        ("<h2>b</h2>", '<a href="https://a.test/">b</a>', "href="),
        ("<main>", "<p>a</p><main>", "p outside the landmarks"),
    ],
)
def test_a_broken_page_is_found_out(was: str, now: str, fault: str) -> None:
    broken = SOUND.replace(was, now, 1)
    assert broken != SOUND
    assert any(one.startswith(fault) for one in faults_of(broken)), faults_of(broken)
