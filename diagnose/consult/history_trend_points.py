"""The points of a chart, each held against the lines of its own stretch.

A change of level parts a series into stretches. Limits over all of it would lie between two
levels and call half of the steady batches odd, so each stretch has its own.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from diagnose.answers.history_looking import TrendPoint
from diagnose.history.brews import Brew
from diagnose.history.statistics.changes import Change
from diagnose.history.statistics.charts import Cusum, Individuals, cusum, individuals


@dataclass(frozen=True)
class Stretch:
    """The batches between two changes of level, the first of which is at `start`.

    Without `limits` there is no target to drift from either, and the sums are empty.
    """

    start: int
    values: tuple[float, ...]
    chart: Individuals
    limits: bool
    sums: Cusum

    @property
    def drift(self) -> int | None:
        """Place in the whole series of the first signal of a drift."""
        return None if self.sums.signal is None else self.start + self.sums.signal


def stretches_drawn(
    values: Sequence[float], places: Sequence[int], figures: Mapping[str, float]
) -> tuple[Stretch, ...]:
    """The stretches of a series that changes its level before these places.

    Args:
        values: the series, in the unit of the measure.
        places: of the first value of each new level, in order.
        figures: as for `individuals` and `cusum`.
    """
    edges = (0, *places, len(values))
    return tuple(_stretch(start, values[start:end], figures) for start, end in pairwise(edges))


def _stretch(start: int, values: Sequence[float], figures: Mapping[str, float]) -> Stretch:
    chart = individuals(values, figures)
    limits = math.isfinite(chart.high) and chart.spread > 0.0
    scaled = [(value - chart.centre) / chart.spread for value in values] if limits else []
    return Stretch(start, tuple(values), chart, limits, cusum(scaled, figures))


def points_of(series: Sequence[Brew], drawn: Sequence[Stretch]) -> tuple[TrendPoint, ...]:
    """One point for each batch of a measure's series."""
    return tuple(point for one in drawn for point in _points(series, one))


def _points(series: Sequence[Brew], one: Stretch) -> Iterator[TrendPoint]:
    chart = one.chart
    marks = {
        "beyond the limits": chart.outside,
        "a jump": chart.jumps,
        "long on one side": chart.one_sided,
    }
    for place, value in enumerate(one.values):
        brew = series[one.start + place]
        yield TrendPoint(
            key=brew.key,
            brewed_on=brew.brewed_on,
            value=value,
            jump=abs(value - one.values[place - 1]) if place else None,
            centre=chart.centre,
            low=known_end(chart.low),
            high=known_end(chart.high),
            above=one.sums.above[place] if one.limits else None,
            below=one.sums.below[place] if one.limits else None,
            marks=tuple(mark for mark, places in marks.items() if place in places),
        )


def flaw_points(
    series: Sequence[Brew],
    flawed: Sequence[bool],
    sums: Sequence[float],
    changes: Sequence[Change],
) -> tuple[TrendPoint, ...]:
    """One point for each batch of a flaw's series, 1 for flawed and 0 for clean."""
    edges = (0, *(one.place for one in changes), len(flawed))
    shares = [
        sum(flawed[start:end]) / (end - start)
        for start, end in pairwise(edges)
        for _ in range(start, end)
    ]
    return tuple(
        TrendPoint(
            key=brew.key,
            brewed_on=brew.brewed_on,
            value=float(bad),
            jump=None,
            centre=share,
            low=None,
            high=None,
            above=total,
            below=None,
            marks=(),
        )
        for brew, bad, share, total in zip(series, flawed, shares, sums, strict=True)
    )


def known_end(end: float) -> float | None:
    """A limit, or None where it is not known."""
    return end if math.isfinite(end) else None
