"""Where the hours and temperatures of a trace come to lie on its drawing."""

import math
from dataclasses import dataclass

from diagnose.answers.background import Mark, Trace

LEFT, RIGHT, TOP, BOTTOM = 34.0, 300.0, 58.0, 222.0
# A mark beyond the log stretches the drawing by no more than this part of the log.
STRETCH = 0.25
MARGIN = 0.06
_DAY_STEPS = (0.25, 0.5, 1, 2, 5, 7, 14, 28, 56, 112, 365)
_DEGREE_STEPS = (1, 2, 5, 10, 20)
_MOST_TICKS = 7


@dataclass(frozen=True)
class Axes:
    """The span of both axes: hours after the first reading, and degrees."""

    first_h: float
    last_h: float
    low_c: float
    high_c: float
    step_c: float

    def x(self, hours: float) -> float:
        """Where a moment lies."""
        return LEFT + (hours - self.first_h) / (self.last_h - self.first_h) * (RIGHT - LEFT)

    def y(self, beer_c: float) -> float:
        """Where a temperature lies."""
        share = (beer_c - self.low_c) / (self.high_c - self.low_c)
        return BOTTOM - share * (BOTTOM - TOP)

    def shows(self, hours: float) -> bool:
        """Whether a moment lies on the drawing."""
        return self.first_h <= hours <= self.last_h


def axes_of(trace: Trace) -> Axes:
    """The axes that hold the whole trace, the yeast's band and every mark near the log."""
    reach = STRETCH * trace.hours
    near = [m.hours for m in trace.marks if -reach <= m.hours <= trace.hours + reach]
    degrees = [beer_c for piece in trace.pieces for beer_c in piece.beer_c]
    if trace.yeast:
        degrees += [trace.yeast.low_c, trace.yeast.high_c]
    low, high = min(degrees), max(degrees)
    step = _step(high - low, _DEGREE_STEPS)
    below = math.floor(low / step) * step
    above = max(math.ceil(high / step) * step, below + step)
    # Room behind the last mark, so that the shading which begins there is seen.
    last = max(trace.hours, *(hours + MARGIN * trace.hours for hours in near), 0.0)
    return Axes(min(0.0, *near, 0.0), last, below, above, step)


def _step(span: float, steps: tuple[float, ...]) -> float:
    return next((step for step in steps if span / step <= _MOST_TICKS), steps[-1])


def ticks_c(axes: Axes) -> list[float]:
    """The temperatures with a line."""
    count = round((axes.high_c - axes.low_c) / axes.step_c)
    return [axes.low_c + number * axes.step_c for number in range(count + 1)]


def ticks_days(axes: Axes) -> list[float]:
    """The days with a number, counted from the first reading."""
    step = _step((axes.last_h - axes.first_h) / 24, _DAY_STEPS)
    first, last = math.ceil(axes.first_h / 24 / step), math.floor(axes.last_h / 24 / step)
    return [number * step for number in range(first, last + 1)]


def mark_at(trace: Trace, name: str) -> Mark | None:
    """The mark called `name`, where it lies on the drawing."""
    axes = axes_of(trace)
    return next((m for m in trace.marks if m.name == name and axes.shows(m.hours)), None)


def end_of_crash(trace: Trace, axes: Axes) -> float | None:
    """Until when [h] the drawn crash goes: the packaging or the end; None without one."""
    crashed, packaged = mark_at(trace, "crashed"), mark_at(trace, "packaged")
    if crashed is None:
        return None
    if packaged and packaged.hours > crashed.hours:
        return packaged.hours
    return axes.last_h
