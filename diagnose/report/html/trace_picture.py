"""A temperature trace as inline SVG: shadings told apart without colour, both scales."""

from html import escape

from diagnose.answers.background import Trace, TracePiece
from diagnose.report.html.trace_axes import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Axes,
    axes_of,
    end_of_crash,
    mark_at,
    ticks_c,
    ticks_days,
)
from diagnose.units.conversions import fahrenheit_from_celsius

_WIDTH, _HEIGHT = 340, 256
_DEFS = (
    '<defs><pattern id="hatched" width="6" height="6" patternUnits="userSpaceOnUse" '
    'patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="6" stroke="#777"/></pattern>'
    '<pattern id="dotted" width="6" height="6" patternUnits="userSpaceOnUse">'
    '<circle cx="3" cy="3" r="1" fill="#777"/></pattern></defs>'
)
# Names of marks stand in rows of their own above the drawing, so that near ones stay apart.
_ROWS = {"pitched": 14.0, "packaged": 30.0, "crashed": 46.0}


def trace_picture(trace: Trace) -> str:
    """The drawing, narrow enough for a telephone.

    Args:
        trace: what to draw.
    """
    axes = axes_of(trace)
    inside = (
        _DEFS
        + _yeast(trace, axes)
        + _stages(trace, axes)
        + _degrees(axes)
        + _days(axes)
        + "".join(_line(piece, axes) for piece in trace.pieces)
        + _marks(trace, axes)
    )
    return (
        f'<svg viewBox="0 0 {_WIDTH} {_HEIGHT}" role="img" '
        'aria-labelledby="trace-title trace-desc">'
        f'<title id="trace-title">{escape(f"Temperature of the {trace.what} over time")}</title>'
        '<desc id="trace-desc">In words, and day by day, beneath the drawing.</desc>'
        f"{inside}</svg>"
    )


def _yeast(trace: Trace, axes: Axes) -> str:
    if trace.yeast is None:
        return ""
    top, bottom = axes.y(trace.yeast.high_c), axes.y(trace.yeast.low_c)
    edges = "".join(
        f'<line x1="{LEFT}" x2="{RIGHT}" y1="{y:.1f}" y2="{y:.1f}" stroke="#000" '
        'stroke-dasharray="4 3" stroke-width="0.8"/>'
        for y in (top, bottom)
    )
    return _block((LEFT, RIGHT), (top, bottom), "#ddd") + edges


def _stages(trace: Trace, axes: Axes) -> str:
    """The crash and the time in the package."""
    shaded = ""
    crashed, packaged = mark_at(trace, "crashed"), mark_at(trace, "packaged")
    end = end_of_crash(trace, axes)
    if crashed and end is not None:
        span = (axes.x(crashed.hours), axes.x(end))
        shaded += _block(span, (TOP, BOTTOM), "url(#hatched)")
    if packaged:
        span = (axes.x(packaged.hours), RIGHT)
        shaded += _block(span, (TOP, BOTTOM), "url(#dotted)")
    return shaded


def _block(span: tuple[float, float], height: tuple[float, float], fill: str) -> str:
    (left, right), (top, bottom) = span, height
    return (
        f'<rect x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" '
        f'height="{bottom - top:.1f}" fill="{fill}"/>'
    )


def _degrees(axes: Axes) -> str:
    """Both scales: Celsius on the left, Fahrenheit on the right."""
    lines = ""
    for c in ticks_c(axes):
        y = axes.y(c)
        f = fahrenheit_from_celsius(c)
        lines += (
            f'<line x1="{LEFT}" x2="{RIGHT}" y1="{y:.1f}" y2="{y:.1f}" stroke="#777" '
            f'stroke-width="0.4"/>{_text(LEFT - 4, y + 4, f"{c:.0f}", "end")}'
            f"{_text(RIGHT + 4, y + 4, f'{f:.0f}')}"
        )
    return lines + _text(LEFT - 4, TOP - 8, "C", "end") + _text(RIGHT + 4, TOP - 8, "F")


def _days(axes: Axes) -> str:
    numbers = "".join(
        f'<line x1="{axes.x(day * 24):.1f}" x2="{axes.x(day * 24):.1f}" y1="{BOTTOM}" '
        f'y2="{BOTTOM + 4}" stroke="#000"/>'
        f"{_text(axes.x(day * 24), BOTTOM + 16, f'{day:g}', 'middle')}"
        for day in ticks_days(axes)
    )
    middle = (LEFT + RIGHT) / 2
    frame = (
        f'<rect x="{LEFT}" y="{TOP}" width="{RIGHT - LEFT}" height="{BOTTOM - TOP}" '
        'fill="none" stroke="#000"/>'
    )
    return frame + numbers + _text(middle, BOTTOM + 31, "days after the first reading", "middle")


def _line(piece: TracePiece, axes: Axes) -> str:
    points = " ".join(
        f"{axes.x(hours):.1f},{axes.y(beer_c):.1f}"
        for hours, beer_c in zip(piece.hours, piece.beer_c, strict=True)
    )
    return f'<polyline points="{points}" fill="none" stroke="#000" stroke-width="1.6"/>'


def _marks(trace: Trace, axes: Axes) -> str:
    drawn = ""
    for mark in trace.marks:
        if not axes.shows(mark.hours):
            continue
        x, y = axes.x(mark.hours), _ROWS[mark.name]
        words = f"{mark.name} {mark.when}"
        late = x > (LEFT + RIGHT) / 2
        drawn += (
            f'<line x1="{x:.1f}" x2="{x:.1f}" y1="{y - 10:.1f}" y2="{BOTTOM}" stroke="#000" '
            'stroke-dasharray="2 2"/>'
        )
        drawn += _text(x - 4, y, words, "end") if late else _text(x + 4, y, words)
    return drawn


def _text(x: float, y: float, words: str, anchor: str = "") -> str:
    place = f' text-anchor="{anchor}"' if anchor else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="12"{place}>{escape(words)}</text>'
