"""Three rows of boxes with arrows between them: cause, compounds, descriptors."""

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from textwrap import wrap

WIDTH = 340
_LINE, _PAD, _GAP, _ARROW = 14.0, 7.0, 8.0, 30.0
_LETTER = 6.3  # width of a letter at the size of the text, on the generous side


@dataclass(frozen=True)
class Box:
    """A box with its lines of text."""

    name: str
    lines: tuple[str, ...]
    left: float
    top: float
    width: float
    height: float

    @property
    def middle(self) -> float:
        """Where arrows come in and go out."""
        return self.left + self.width / 2


def path_picture(cause: str, ways: Sequence[tuple[str, str]], key: str) -> str:
    """The drawing as inline SVG, narrow enough for a telephone.

    Args:
        cause: its name.
        ways: compound and descriptor of each way, by name.
        key: what its ids begin with, not used by another drawing of the page.
    """
    compounds = tuple(dict.fromkeys(compound for compound, _ in ways))
    words = tuple(dict.fromkeys(word for _, word in ways))
    top = _row((cause,), 1.0)
    middle = _row(compounds, top[0].top + top[0].height + _ARROW)
    bottom = _row(words, middle[0].top + middle[0].height + _ARROW)
    lower = {box.name: box for box in bottom}
    arrows = [_arrow(top[0], box, key) for box in middle]
    arrows += [
        _arrow(box, lower[word], key)
        for box in middle
        for word in dict.fromkeys(word for compound, word in ways if compound == box.name)
    ]
    height = bottom[0].top + bottom[0].height + 1
    inside = "".join(arrows) + "".join(map(_drawn, (*top, *middle, *bottom)))
    return (
        f'<svg viewBox="0 0 {WIDTH} {height:.0f}" role="img" '
        f'aria-labelledby="{key}-title {key}-desc">'
        f'<title id="{key}-title">{escape(f"The way from {cause} to the glass")}</title>'
        f'<desc id="{key}-desc">Cause above, compounds in the middle, flavours below; '
        f"in words beneath the drawing.</desc>{_head(key)}{inside}</svg>"
    )


def _row(names: Sequence[str], top: float) -> tuple[Box, ...]:
    width = (WIDTH - 2 - _GAP * (len(names) - 1)) / len(names)
    letters = int((width - 2 * _PAD) / _LETTER)
    lines = [tuple(wrap(name, letters)) for name in names]
    height = max(map(len, lines)) * _LINE + 2 * _PAD
    return tuple(
        Box(name, some, 1 + place * (width + _GAP), top, width, height)
        for place, (name, some) in enumerate(zip(names, lines, strict=True))
    )


def _head(key: str) -> str:
    return (
        f'<defs><marker id="{key}-head" viewBox="0 0 8 8" refX="7" refY="4" markerWidth="8" '
        'markerHeight="8" orient="auto"><path d="M0 0 L8 4 L0 8 Z"/></marker></defs>'
    )


def _arrow(start: Box, end: Box, key: str) -> str:
    # Arrows leave a wide box above the box they point to, so that they do not cross it.
    inner = min(max(end.middle, start.left + 10), start.left + start.width - 10)
    leave = inner if start.width > 2 * end.width else start.middle
    return (
        f'<line x1="{leave:.1f}" y1="{start.top + start.height:.1f}" x2="{end.middle:.1f}" '
        f'y2="{end.top - 1:.1f}" stroke="#000" stroke-width="1.5" marker-end="url(#{key}-head)"/>'
    )


def _drawn(box: Box) -> str:
    first = box.top + (box.height - len(box.lines) * _LINE) / 2 + 10.5
    lines = "".join(
        f'<text x="{box.middle:.1f}" y="{first + number * _LINE:.1f}" font-size="12" '
        f'text-anchor="middle">{escape(line)}</text>'
        for number, line in enumerate(box.lines)
    )
    return (
        f'<rect x="{box.left:.1f}" y="{box.top:.1f}" width="{box.width:.1f}" '
        f'height="{box.height:.1f}" rx="4" fill="#fff" stroke="#000"/>{lines}'
    )
