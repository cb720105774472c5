"""The charts of a history say the same as the tables and sentences beneath them."""

import re
from html import unescape

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers.history_looking import Trend
from diagnose.answers.history_page import Charted, HappenedLine
from diagnose.consult.history_page_charts import ANY_FLAW, MEASURES, charts_shown
from diagnose.consult.history_trend import DIFFERENCES, trend_of_measure
from diagnose.report.html import history_html
from diagnose.report.html.history_axes import LEFT, RIGHT, numbered, panel_over, ticks
from diagnose.report.html.history_chart import SHOWN, tasted_panel, trend_picture, values_panel
from diagnose.report.html.history_trend_part import trend_part
from diagnose.units.scales import scales_of
from tests.history.statistics.brewers import BUTTERY, brew
from tests.knowledge.shipped import rule_base
from tests.report.paged import brews, history

CHARTS = {one.trend.of: one for one in history().charts}
MEASURED = [one for one in CHARTS.values() if one.trend.kind == "measure"]
every_measure = pytest.mark.parametrize("charted", MEASURED, ids=lambda one: one.trend.of)
every_chart = pytest.mark.parametrize("charted", CHARTS.values(), ids=lambda one: one.trend.of)
# A drawing is rounded to a tenth of its unit.
DRAWN = 0.06


def picture_of(charted: Charted) -> str:
    return trend_picture(charted.trend, scales_of(charted.trend.unit), "k")


def marks(svg: str, panel_top: float, panel_bottom: float) -> list[tuple[float, float]]:
    """Where the batches are drawn on one panel, from left to right."""
    dots = re.findall(r'<circle cx="([\d.]+)" cy="([\d.]+)"', svg)
    diamonds = re.findall(r'<path class="odd" d="M([\d.]+) ([\d.]+) ', svg)
    found = [(float(x), float(y)) for x, y in dots]
    found += [(float(x), float(y) + 6.0) for x, y in diamonds]
    return sorted(one for one in found if panel_top - 1 <= one[1] <= panel_bottom + 1)


def cells(html: str) -> list[list[str]]:
    """The rows of the last table of a part, as plain words."""
    body = html.rsplit("<tbody>", maxsplit=1)[-1]
    rows = re.findall(r"<tr>(.*?)</tr>", body, re.DOTALL)
    return [[plain(cell) for cell in re.findall(r"<t[hd].*?</t[hd]>", row)] for row in rows]


def plain(html: str) -> str:
    return unescape(re.sub(r"<[^>]+>", " ", html)).strip()


def first_number(words: str) -> float:
    found = re.search(r"-?[\d.]+", words)
    assert found is not None, words
    return float(found[0])


@every_measure
def test_every_batch_is_drawn_where_the_table_says_it_is(charted: Charted) -> None:
    panel, rows = values_panel(charted.trend), cells(trend_part(charted, 1))
    drawn = marks(picture_of(charted), panel.top, panel.bottom)
    assert len(drawn) == len(rows) == len(charted.trend.points)
    for row, (_, y) in zip(rows, drawn, strict=True):
        assert panel.y(first_number(row[2])) == pytest.approx(
            y, abs=0.05 * _per_unit(panel) + DRAWN
        )


def _per_unit(panel) -> float:
    return abs(panel.y(1.0) - panel.y(0.0))


@every_chart
def test_the_table_has_the_numbers_of_the_points(charted: Charted) -> None:
    rows = cells(trend_part(charted, 1))
    sums = {"measure": 4, "flaw": 3}[charted.trend.kind]
    for number, (row, point) in enumerate(zip(rows, charted.trend.points, strict=True), start=1):
        assert row[0] == str(number)
        assert str(point.brewed_on) in row[1]
        if point.above is not None:
            assert first_number(row[sums]) == pytest.approx(point.above, abs=0.051)
        if charted.trend.kind == "measure":
            assert first_number(row[2]) == pytest.approx(point.value, abs=0.051)
            assert all(mark in row[2] for mark in point.marks)
        else:
            assert (row[2] == "flawed") == bool(point.value)


def test_flawed_batches_are_drawn_as_diamonds_and_clean_ones_as_dots() -> None:
    charted = CHARTS[BUTTERY[0]] if BUTTERY[0] in CHARTS else CHARTS[ANY_FLAW]
    panel = tasted_panel(charted.trend)
    drawn = marks(picture_of(charted), panel.top, panel.bottom)
    values = [point.value for point in charted.trend.points]
    assert [y for _, y in drawn] == pytest.approx([panel.y(value) for value in values], abs=DRAWN)
    assert picture_of(charted).count('class="odd"') == sum(values)


@every_measure
def test_odd_batches_alone_have_a_mark_of_their_own(charted: Charted) -> None:
    odd = [point for point in charted.trend.points if point.marks]
    assert picture_of(charted).count('class="odd"') == len(odd)


def test_the_synthetic_history_has_an_odd_batch_and_two_levels() -> None:
    trend = MEASURED[0].trend
    assert any(point.marks for point in trend.points)
    assert len({point.centre for point in trend.points}) == 2


@every_measure
def test_every_level_is_told_in_words_with_the_batches_it_holds_for(charted: Charted) -> None:
    words = plain(trend_part(charted, 1))
    told = re.findall(r"Batches (\d+) to (\d+): level (-?[\d.]+)", words)
    spans = [(int(first), int(last)) for first, last, _ in told]
    assert spans[0][0] == 1 and spans[-1][1] == len(charted.trend.points)
    for first, last, level in told:
        centres = {round(one.centre, 1) for one in charted.trend.points[int(first) - 1 : int(last)]}
        assert centres == {float(level)}


def test_a_temperature_is_told_in_both_scales_and_a_difference_without_the_32() -> None:
    temperature, difference = MEASURED
    assert (temperature.difference, difference.difference) == (False, True)
    assert "18.1\u00a0C (65\u00a0F)" in trend_part(temperature, 1)
    assert "0.5\u00a0C (0.9\u00a0F)" in trend_part(difference, 1)


def test_measures_that_are_differences_are_those_whose_names_compare() -> None:
    in_c = [one for one in rule_base().measures.values() if one.unit == "C"]
    compared = {one.id for one in in_c if "against" in one.name or "fall" in one.name}
    assert compared == DIFFERENCES


# Source of the table: the definitions of the scales, worked by hand.
@pytest.mark.parametrize(
    ("unit", "difference", "value", "words"),
    [
        ("C", False, 20.0, "20.0 C (68 F)"),
        ("C", True, 20.0, "20.0 C (36.0 F)"),
        ("SG", False, 1.048, "1.048 (11.9 P)"),
        ("volumes", False, 2.4, "2.40 volumes (4.7 g/L)"),
        ("g/L", False, 7.489, "7.49 g/L (1.00 oz/US gal)"),
        ("-", False, 0.5, "0.5"),
        ("h", False, 12.0, "12 h"),
    ],
)
def test_a_figure_stands_in_both_systems_where_there_are_two(
    unit: str, difference: bool, value: float, words: str
) -> None:
    assert scales_of(unit, difference=difference).both(value) == words


def long_trend() -> Trend:
    count = SHOWN + 15
    some = [brew(n, False, {"pitch_c": (18.0 + n % 3,) * 3}) for n in range(count)]
    return trend_of_measure(rule_base(), some, "pitch_c")


def test_a_long_history_is_drawn_by_its_latest_batches_and_says_so() -> None:
    trend = long_trend()
    html = trend_part(Charted(trend=trend, difference=False), 1)
    assert f"the latest {SHOWN} of {SHOWN + 15}" in html
    assert len(cells(html)) == SHOWN
    assert cells(html)[-1][1].startswith(str(trend.points[-1].brewed_on))


def test_without_a_wish_the_measures_that_differ_are_charted() -> None:
    some = brews()
    found = charts_shown(rule_base(), some, ([BUTTERY], []), [], [])
    assert [one.trend.of for one in found if one.trend.kind == "flaw"] == [ANY_FLAW]
    assert 1 <= len([one for one in found if one.trend.kind == "measure"]) <= MEASURES


@pytest.mark.parametrize("count", [0, 1])
def test_too_few_batches_give_no_chart(count: int) -> None:
    assert charts_shown(rule_base(), brews()[:count], ([], []), [], []) == ()


def test_what_was_done_is_drawn_with_the_number_it_has_in_the_list() -> None:
    part = history_html(history()).split('<div id="done">')[1].split('<div id="contrasts">')[0]
    lines = re.findall(r"<li>(\S+): ", part)
    assert lines == [one.on for one in history().happened]
    assert all(f'text-anchor="middle">{number}</text>' in part for number in (1, 2))


def test_an_event_without_a_day_is_told_and_not_drawn() -> None:
    told = history().model_copy(
        update={"happened": (HappenedLine(on="", kind="event", words="a new hose"),)}
    )
    assert "no date: a new hose" in history_html(told)


@given(
    st.lists(st.floats(-1e4, 1e4), min_size=1, max_size=20),
    st.integers(1, 300),
)
def test_what_is_drawn_lies_on_its_panel(values: list[float], count: int) -> None:
    panel = panel_over(values, (10.0, 90.0), count)
    assert all(10.0 <= panel.y(value) <= 90.0 for value in (*values, *ticks(panel)))
    assert all(LEFT < panel.x(place) < RIGHT for place in range(count))


@given(st.integers(1, 60))
def test_the_numbers_below_a_chart_begin_with_the_first_batch_and_are_few(count: int) -> None:
    places = numbered(count)
    assert places[0] == 0 and places[-1] < count
    assert len(places) <= 10
