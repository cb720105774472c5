"""Where the batches and figures of a chart come to lie on its drawing."""

import math
from collections.abc import Iterable
from dataclasses import dataclass

WIDTH = 340
LEFT, RIGHT = 48.0, 300.0
_MOST_TICKS = 5
_MOST_NUMBERS = 9
_STEPS = (1.0, 2.0, 5.0, 10.0)


@dataclass(frozen=True)
class Panel:
    """One strip of a chart, over the batches: its place on the sheet [px] and its figures."""

    top: float
    bottom: float
    low: float
    high: float
    count: int

    def x(self, place: int) -> float:
        """Where a batch lies, by its place from 0 on."""
        return LEFT + (place + 0.5) / self.count * (RIGHT - LEFT)

    def edge(self, place: int) -> float:
        """Where the strip of a batch begins."""
        return LEFT + place / self.count * (RIGHT - LEFT)

    def y(self, value: float) -> float:
        """Where a figure lies."""
        share = (value - self.low) / (self.high - self.low)
        return self.bottom - share * (self.bottom - self.top)


def panel_over(
    values: Iterable[float], height: tuple[float, float], count: int, *, margin: float = 0.06
) -> Panel:
    """A panel that holds these figures, with a margin as a share of their span.

    Args:
        values: all that is to be drawn.
        height: top and bottom [px].
        count: how many batches there are.
        margin: room above and below.
    """
    known = list(values)
    low, high = min(known), max(known)
    room = (high - low) * margin or max(abs(high), 1.0) * 0.05
    return Panel(height[0], height[1], low - room, high + room, count)


def ticks(panel: Panel) -> list[float]:
    """Round figures that lie on the panel, a few of them."""
    rough = (panel.high - panel.low) / _MOST_TICKS
    size = 10.0 ** math.floor(math.log10(rough))
    step = next(one * size for one in _STEPS if one * size >= rough * (1.0 - 1e-9))
    first, last = math.ceil(panel.low / step - 1e-9), math.floor(panel.high / step + 1e-9)
    return [number * step for number in range(first, last + 1)]


def numbered(count: int) -> list[int]:
    """The places whose number stands below a chart of so many batches."""
    step = next(one for one in (1, 2, 5, 10, 20, 50) if count / one <= _MOST_NUMBERS)
    return [place for place in range(count) if place == 0 or (place + 1) % step == 0]
