"""A trend as a drawing: the values with their limits, the jumps, and the sums."""

from collections.abc import Iterator, Sequence

from diagnose.answers.history_looking import Trend, TrendPoint
from diagnose.report.html.history_axes import RIGHT, Panel, panel_over
from diagnose.report.html.history_strokes import (
    DASHED,
    DOTTED,
    diamond,
    dot,
    frame_of,
    joined,
    line,
    numbers_below,
    picture,
    scale_of,
    steps,
    words_at,
)
from diagnose.units.scales import Scales, scales_of

# As many batches as can be told apart on a telephone.
SHOWN = 60
_VALUES, _JUMPS, _SUMS = (20.0, 150.0), (178.0, 224.0), (252.0, 306.0)
_TASTED, _TASTED_SUMS = (20.0, 70.0), (98.0, 152.0)
_BELOW = 36.0
_PLAIN = Scales("")


def shown_points(trend: Trend) -> tuple[TrendPoint, ...]:
    """The points that are drawn: the latest, as many as there is room for."""
    return trend.points[-SHOWN:]


def values_panel(trend: Trend) -> Panel:
    """The panel of the values of a measure."""
    points = shown_points(trend)
    known = [at for p in points for at in (p.value, p.low, p.high) if at is not None]
    return panel_over(known, _VALUES, len(points))


def trend_picture(trend: Trend, scales: Scales, key: str) -> str:
    """The chart of a trend as inline SVG, narrow enough for a telephone.

    Args:
        trend: what to draw.
        scales: the scales of its unit.
        key: what its ids begin with.
    """
    if trend.kind == "flaw":
        panels, sums = [*_tasted(trend)], _sums(trend, _TASTED_SUMS)
    else:
        panels, sums = [*_values(trend, scales), *_jumps(trend)], _sums(trend, _SUMS)
    lowest = (_TASTED_SUMS if trend.kind == "flaw" else _SUMS)[1]
    return picture(key, f"{trend.of}, batch by batch", lowest + _BELOW, (*panels, *sums))


def _values(trend: Trend, scales: Scales) -> Iterator[str]:
    points, panel = shown_points(trend), values_panel(trend)
    yield words_at(2, panel.top - 7, f"each batch{_in_units(scales)}")
    if scales.other:
        yield words_at(RIGHT + 4, panel.top - 7, scales.other)
    yield frame_of(panel) + scale_of(panel, scales)
    yield steps(panel, [one.low for one in points], DASHED)
    yield steps(panel, [one.high for one in points], DASHED)
    yield steps(panel, [one.centre for one in points], DOTTED)
    yield joined(panel, [one.value for one in points])
    for place, one in enumerate(points):
        mark = diamond if one.marks else dot
        yield mark(panel.x(place), panel.y(one.value))


def _in_units(scales: Scales) -> str:
    return f", {scales.unit}" if scales.unit else ""


def _jumps(trend: Trend) -> Iterator[str]:
    jumps = [one.jump for one in shown_points(trend)]
    limit = trend.range_high
    known = [0.0, *(one for one in (*jumps, limit) if one is not None)]
    scales = scales_of(trend.unit, difference=True)
    panel = panel_over(known, _JUMPS, len(jumps))
    yield words_at(2, panel.top - 7, f"from the batch before{_in_units(scales)}")
    yield frame_of(panel) + scale_of(panel, scales)
    if limit is not None:
        # The limit is that of the latest stretch; earlier ones had their own.
        start = len(jumps) - min(trend.stretch, len(jumps))
        yield steps(panel, [*[None] * start, *[limit] * (len(jumps) - start)], DASHED)
    yield joined(panel, jumps)


def _sums(trend: Trend, height: tuple[float, float]) -> Iterator[str]:
    points = shown_points(trend)
    above = [one.above for one in points]
    below = [None if one.below is None else -one.below for one in points]
    ends = _sum_limits(trend)
    known = [0.0, *ends, *(one for one in (*above, *below) if one is not None)]
    panel = panel_over(known, height, len(points))
    what = "sum of the evidence" if trend.kind == "flaw" else "sums of the drift, in spreads"
    yield words_at(2, panel.top - 7, what)
    yield frame_of(panel) + scale_of(panel, _PLAIN)
    yield from (steps(panel, [end] * len(points), DASHED) for end in ends)
    yield joined(panel, above) + joined(panel, below)
    yield numbers_below(panel, "number of the batch in the table")


def _sum_limits(trend: Trend) -> Sequence[float]:
    if trend.sum_limit is None:
        return ()
    both = (trend.sum_limit, -trend.sum_limit)
    return both[:1] if trend.kind == "flaw" else both


def tasted_panel(trend: Trend) -> Panel:
    """The panel of the batches that were tasted: 0 is clean, 1 is flawed."""
    return panel_over((0.0, 1.0), _TASTED, len(shown_points(trend)), margin=0.2)


def _tasted(trend: Trend) -> Iterator[str]:
    points, panel = shown_points(trend), tasted_panel(trend)
    yield words_at(2, panel.top - 7, "each batch, and the share that is flawed")
    yield frame_of(panel)
    for value, word, share in ((0.0, "clean", "0 %"), (0.5, "", "50 %"), (1.0, "flawed", "100 %")):
        y = panel.y(value) + 4
        yield words_at(44, y, word, "end") + words_at(RIGHT + 4, y, share)
    yield steps(panel, [one.centre for one in points], DOTTED)
    for place, one in enumerate(points):
        x = panel.x(place)
        if one.value:
            yield line((x, panel.y(one.value)), (x, panel.bottom))
        mark = diamond if one.value else dot
        yield mark(x, panel.y(one.value))
