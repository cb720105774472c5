"""Means, hours and peaks over a span of time: by the clock, not by the number of readings."""

from typing import NamedTuple

import numpy as np

from diagnose.batch.probe.log import FloatArray, ProbeLog, Role, good
from diagnose.batch.probe.middle import median

# Judgement: a line between two readings is trusted over three usual intervals, and over two hours
# in any case, because litres of beer move slowly.
BRIDGED_INTERVALS = 3.0
BRIDGED_AT_LEAST_S = 7200.0


class Trace(NamedTuple):
    """The usable readings of one part: times [s, UTC] and values, without the flagged ones."""

    times_s: FloatArray
    values: FloatArray


def trace(log: ProbeLog, role: Role) -> Trace:
    """The usable readings of one part, empty when the log has none."""
    if role not in log.series:
        return Trace(np.empty(0), np.empty(0))
    values = good(log.series[role])
    kept = np.isfinite(values)
    return Trace(log.times_utc_s[kept], values[kept])


def usual_interval(times_s: FloatArray) -> float:
    """The median time [s] between readings, NaN below two; readings of one moment count once."""
    steps = np.diff(times_s)
    steps = steps[steps > 0]
    return median(steps) if steps.size else float("nan")


def longest_bridge(times_s: FloatArray) -> float:
    """The longest time [s] between two readings over which a line between them is trusted."""
    interval = usual_interval(times_s)
    return float(np.fmax(BRIDGED_INTERVALS * interval, BRIDGED_AT_LEAST_S))


def mean_between(log: ProbeLog, role: Role, *, start_s: float, end_s: float) -> float | None:
    """The mean over the covered time of a span.

    Args:
        log: the log.
        role: the part, such as "beer_temperature".
        start_s: start of the span [s since 1970, UTC].
        end_s: its end [s].

    Returns:
        in the unit of the series; None when no reading covers any of the span.
    """
    readings = trace(log, role)
    pieces = _pieces(readings, start_s, end_s)
    covered_hours = float(pieces.hours.sum())
    if covered_hours > 0:
        middles = (pieces.first + pieces.last) / 2
        return float((middles * pieces.hours).sum() / covered_hours)
    inside = (readings.times_s >= start_s) & (readings.times_s <= end_s)
    return float(readings.values[inside].mean()) if inside.any() else None


def coverage(log: ProbeLog, start_s: float, end_s: float, *, role: Role | None = None) -> float:
    """The share of a span over which the log knows something.

    Args:
        log: the log.
        start_s: start of the span [s since 1970, UTC].
        end_s: its end [s].
        role: look at one part alone; otherwise a usable reading of any part counts.

    Returns:
        0 to 1; gaps longer than three usual intervals, and than two hours, are not covered.
    """
    if end_s <= start_s:
        return 0.0
    roles = [role] if role is not None else list(log.series)
    times = [trace(log, one).times_s for one in roles]
    every = np.sort(np.concatenate(times)) if times else np.empty(0)
    pieces = _pieces(Trace(every, np.zeros(every.size)), start_s, end_s)
    return min(1.0, float(pieces.hours.sum()) * 3600.0 / (end_s - start_s))


class _Pieces(NamedTuple):
    """Straight pieces of a trace inside a span: their lengths [h] and the values at both ends."""

    hours: FloatArray
    first: FloatArray
    last: FloatArray


def _pieces(readings: Trace, start_s: float, end_s: float) -> _Pieces:
    """The pieces between neighbouring readings, cut to the span; no piece bridges a big gap."""
    times, values = readings
    if times.size < 2:
        return _Pieces(np.empty(0), np.empty(0), np.empty(0))
    lengths = np.diff(times)
    begin, finish = np.maximum(times[:-1], start_s), np.minimum(times[1:], end_s)
    kept = (lengths <= longest_bridge(times)) & (finish > begin)
    slopes = np.diff(values)[kept] / lengths[kept]
    first = values[:-1][kept] + slopes * (begin - times[:-1])[kept]
    last = values[:-1][kept] + slopes * (finish - times[:-1])[kept]
    return _Pieces((finish - begin)[kept] / 3600.0, first, last)
