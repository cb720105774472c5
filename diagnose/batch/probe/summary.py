"""One part of a log in a few numbers."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from diagnose.batch.probe.log import Flag, ProbeLog, Role
from diagnose.batch.probe.spans import mean_between, trace, usual_interval


@dataclass(frozen=True)
class ProbeSummary:
    """One part of a log in a few numbers; times in [s since 1970, UTC], readings in `unit`.

    `count` are the rows of the log, `usable` the readings that measures may use; the rest speak
    of the usable ones alone and are None when there are too few.
    """

    role: Role
    unit: str
    count: int
    usable: int
    start_s: float | None
    end_s: float | None
    interval_s: float | None
    longest_gap_s: float | None
    longest_gap_start_s: float | None
    lowest: float | None
    highest: float | None
    mean: float | None
    flags: Mapping[Flag, int]


def summarise(log: ProbeLog, role: Role) -> ProbeSummary | None:
    """One part of a log in a few numbers, or None when the log does not have it.

    The mean is over time, so that a stretch with many readings weighs no more than one with few.
    """
    if role not in log.series:
        return None
    series = log.series[role]
    times, values = trace(log, role)
    some = values.size > 0
    start_s, end_s = (float(times[0]), float(times[-1])) if some else (None, None)
    mean = None
    if start_s is not None and end_s is not None:
        mean = mean_between(log, role, start_s=start_s, end_s=end_s)
    steps = np.diff(times)
    widest = int(steps.argmax()) if steps.size else 0
    return ProbeSummary(
        role=role,
        unit=series.unit,
        count=series.values.size,
        usable=values.size,
        start_s=start_s,
        end_s=end_s,
        interval_s=usual_interval(times) if steps.size and steps.max() > 0 else None,
        longest_gap_s=float(steps[widest]) if steps.size else None,
        longest_gap_start_s=float(times[widest]) if steps.size else None,
        lowest=float(values.min()) if some else None,
        highest=float(values.max()) if some else None,
        mean=mean,
        flags={kind: int(marked.sum()) for kind, marked in series.flags.items()},
    )
