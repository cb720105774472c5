"""The strokes that charts of a history are drawn with; told apart without colour."""

from collections.abc import Iterable, Sequence
from html import escape
from itertools import groupby

from diagnose.report.html.history_axes import LEFT, RIGHT, Panel, numbered, ticks
from diagnose.units.scales import Scales

THIN, DASHED, DOTTED = "", "5 3", "1.5 2.5"


def words_at(x: float, y: float, words: str, anchor: str = "") -> str:
    """Words of the size of the page."""
    place = f' text-anchor="{anchor}"' if anchor else ""
    return f'<text x="{x:.1f}" y="{y:.1f}" font-size="12"{place}>{escape(words)}</text>'


def line(start: tuple[float, float], end: tuple[float, float], dashes: str = THIN) -> str:
    """A line, dashed or dotted where that is said."""
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return (
        f'<line x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{end[0]:.1f}" y2="{end[1]:.1f}" '
        f'stroke="#000"{dashed}/>'
    )


def frame_of(panel: Panel) -> str:
    """The frame of a panel."""
    return (
        f'<rect x="{LEFT}" y="{panel.top:.1f}" width="{RIGHT - LEFT:.1f}" '
        f'height="{panel.bottom - panel.top:.1f}" fill="none" stroke="#777"/>'
    )


def scale_of(panel: Panel, scales: Scales) -> str:
    """Figures at the sides: one system on the left, the other on the right."""
    drawn = ""
    marks = ticks(panel)
    step = marks[1] - marks[0] if len(marks) > 1 else 1.0
    for value in marks:
        y = panel.y(value) + 4
        drawn += words_at(LEFT - 4, y, short(value, step), "end")
        if scales.other:
            drawn += words_at(RIGHT + 4, y, scales.other_figure(value))
    return drawn


def short(value: float, step: float) -> str:
    """A figure with as many decimals as its scale needs."""
    decimals = max(0, next((n for n in range(6) if abs(round(step, n) - step) < 1e-9), 6))
    text = f"{value:.{decimals}f}"
    return text.removeprefix("-") if float(text) == 0 else text


def steps(panel: Panel, levels: Sequence[float | None], dashes: str) -> str:
    """A level that holds for a stretch of batches, a line for each stretch."""
    drawn, place = "", 0
    for level, run in groupby(levels):
        end = place + len(list(run))
        if level is not None:
            y = panel.y(level)
            drawn += line((panel.edge(place), y), (panel.edge(end), y), dashes)
        place = end
    return drawn


def joined(panel: Panel, values: Sequence[float | None], dashes: str = THIN) -> str:
    """The values joined by a line, with a gap where one is not known."""
    drawn, place = "", 0
    for known, run in groupby(values, key=lambda value: value is not None):
        some = list(run)
        if known:
            points = " ".join(_at(panel, place + at, value) for at, value in enumerate(some))
            dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
            drawn += f'<polyline points="{points}" fill="none" stroke="#000"{dashed}/>'
        place += len(some)
    return drawn


def _at(panel: Panel, place: int, value: float | None) -> str:
    return f"{panel.x(place):.1f},{panel.y(value or 0.0):.1f}"


def dot(x: float, y: float) -> str:
    """A batch."""
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="2.4"/>'


def diamond(x: float, y: float) -> str:
    """A batch that is odd: larger, open, and of another shape."""
    return (
        f'<path class="odd" d="M{x:.1f} {y - 6:.1f} L{x + 6:.1f} {y:.1f} L{x:.1f} {y + 6:.1f} '
        f'L{x - 6:.1f} {y:.1f} Z" fill="#fff" stroke="#000" stroke-width="1.6"/>'
    )


def numbers_below(panel: Panel, what: str) -> str:
    """The numbers of the batches below a panel, and what they are."""
    below = "".join(
        words_at(panel.x(place), panel.bottom + 14, str(place + 1), "middle")
        for place in numbered(panel.count)
    )
    return below + words_at((LEFT + RIGHT) / 2, panel.bottom + 29, what, "middle")


def picture(key: str, title: str, height: float, inside: Iterable[str]) -> str:
    """The whole drawing with its name.

    Args:
        key: what its ids begin with, not used by another drawing of the page.
        title: what is drawn.
        height: of the sheet [px].
        inside: what is on it.
    """
    return (
        f'<svg viewBox="0 0 340 {height:.0f}" role="img" '
        f'aria-labelledby="{key}-title {key}-desc"><title id="{key}-title">{escape(title)}</title>'
        f'<desc id="{key}-desc">The same in words, and batch by batch, beneath the drawing.</desc>'
        f"{''.join(inside)}</svg>"
    )
