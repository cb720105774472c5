"""The charts of a history, each with its sentences and with a table of the same numbers."""

from html import escape
from itertools import groupby

from diagnose.answers.history_looking import Trend, TrendPoint
from diagnose.answers.history_page import Charted
from diagnose.answers.trend_scales import trend_scales
from diagnose.report.html.history_chart import shown_points, trend_picture
from diagnose.report.html.parts import capital
from diagnose.report.html.quantities import unbroken
from diagnose.report.html.tables import batch_cell, table
from diagnose.report.sheets.frame import items, section, text
from diagnose.units.scales import Scales, scales_of

_MEASURE_HEAD = ("No.", "Batch", "Value", "Change", "Sums")
_FLAW_HEAD = ("No.", "Batch", "Tasted", "Sum")


def trend_part(charted: Charted, number: int) -> str:
    """One chart with its twin.

    Args:
        charted: the trend.
        number: of the chart on its page.
    """
    trend = charted.trend
    scales = trend_scales(trend)
    caption = text("In words:") + items(map(capital, (*trend.says, *_lines(trend, scales))))
    figure = (
        f"<figure>{trend_picture(trend, scales, f'chart{number}')}"
        f"<figcaption>{text(_key(trend))}{caption}</figcaption></figure>"
    )
    rows = [
        _row(trend, scales, place, point)
        for place, point in enumerate(shown_points(trend), start=1)
    ]
    head = _FLAW_HEAD if trend.kind == "flaw" else _MEASURE_HEAD
    fixes = [f"{fix.on}, {fix.words}: {fix.says}." for fix in trend.fixes]
    held = f"<h3>Did it hold?</h3>{items(fixes)}" if fixes else ""
    return section(_title(trend), figure + held + table(_caption(trend), head, rows))


def _title(trend: Trend) -> str:
    if trend.kind == "flaw":
        return f"How often: {trend.of}"
    return capital(trend.of)


def _caption(trend: Trend) -> str:
    left = len(trend.points) - len(shown_points(trend))
    latest = f", the latest {len(shown_points(trend))} of {len(trend.points)}" if left else ""
    return f"{_title(trend)}, batch by batch{latest}"


def _key(trend: Trend) -> str:
    """What the marks mean."""
    if trend.kind == "flaw":
        return (
            "Diamond on a line: flawed. Dot: clean. Dotted line: the share that is flawed. Below: "
            "what the flawed batches add up to; dashed: from where on the fault is common."
        )
    odd = "; diamond: an odd one" if any(one.marks for one in shown_points(trend)) else ""
    limits = "; dashed: the limits" if any(one.low is not None for one in trend.points) else ""
    return (
        f"Dot: a batch{odd}. Dotted: the level{limits}. Below: by how much each batch differs from "
        "the one before, and what the departures from the level add up to, upwards and downwards."
    )


def _lines(trend: Trend, scales: Scales) -> list[str]:
    """The lines of the chart, in both systems of units where there are two."""
    found = _stretches(trend, scales)
    if trend.range_high is not None:
        jumps = scales_of(trend.unit, difference=True)
        found.append(f"A change of more than {jumps.both(trend.range_high)} is a jump.")
    if trend.sum_limit is not None and trend.kind == "measure":
        found.append(f"A sum beyond {trend.sum_limit:.3g} spreads either way is a drift.")
    elif trend.sum_limit is not None:
        found.append(f"A sum beyond {trend.sum_limit:.3g} says that the fault is common.")
    return found


def _stretches(trend: Trend, scales: Scales) -> list[str]:
    """The level and the limits of every stretch, by the numbers of its batches."""
    found, first = [], 1
    for _, run in groupby(shown_points(trend), key=lambda one: (one.centre, one.low, one.high)):
        some = list(run)
        last = first + len(some) - 1
        found.append(f"Batches {first} to {last}: {_level(trend, some[0], scales)}.")
        first = last + 1
    return found


def _level(trend: Trend, point: TrendPoint, scales: Scales) -> str:
    if trend.kind == "flaw":
        return f"{100 * point.centre:.0f} % flawed"
    level = f"level {scales.both(point.centre)}"
    if point.low is None or point.high is None:
        return f"{level}, too few for limits"
    return f"{level}, limits {scales.between(point.low, point.high)}"


def _row(trend: Trend, scales: Scales, place: int, point: TrendPoint) -> tuple[str, ...]:
    batch = batch_cell(point.key, point.brewed_on)
    if trend.kind == "flaw":
        told = "<strong>flawed</strong>" if point.value else "clean"
        return (str(place), batch, told, _number(point.above))
    value = escape(unbroken(scales.both(point.value)))
    odd = f"<br><strong>{escape(', '.join(point.marks))}</strong>" if point.marks else ""
    below = None if point.below is None else -point.below
    sums = f"{_number(point.above)}, {_number(below)}"
    return (str(place), batch, value + odd, _change(point, trend), sums)


def _change(point: TrendPoint, trend: Trend) -> str:
    if point.jump is None:
        return "\u2013"
    return escape(unbroken(scales_of(trend.unit, difference=True).both(point.jump)))


def _number(value: float | None) -> str:
    # A sum just below nought would read "-0.0".
    return "\u2013" if value is None else f"{round(value, 1) + 0.0:.1f}"
