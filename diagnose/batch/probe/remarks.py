"""What a brewer should know about the readings themselves: flags, odd dates, floats, uploads."""

from collections.abc import Mapping

import numpy as np

from diagnose.batch.probe.log import (
    Flag,
    FloatArray,
    IntArray,
    Note,
    Role,
    Series,
    counted,
    good,
)
from diagnose.batch.probe.middle import median
from diagnose.batch.probe.parts import plain

# Judgement: a clock may be a day ahead by its zone; a logger that lost its clock starts at 1970
# or 2000.
AHEAD_S = 86_400.0
EARLIEST_CREDIBLE_S = 1_262_304_000.0  # 2010-01-01
# Judgement: half of the readings sharing a time with the one before means uploads in bundles.
BUNDLED_SHARE = 0.5
# Common practice: gas and yeast lift a float during the first day; below two points it is noise.
LIFT_S = 86_400.0
LIFT_SG = 0.002
# Judgement: as long as this without change, a whole series tells nothing.
LEAST_FOR_FLAT = 24
_MOVING: tuple[Role, ...] = ("beer_temperature", "air_temperature", "gravity", "pressure")
_SAYS: dict[Flag, str] = {
    "sentinel": "fault value",
    "out_of_range": "impossible value",
    "spike": "spike",
    "stuck": "further reading",
}


def remark_series(
    role: Role, series: Series, *, times_s: FloatArray, lines: IntArray
) -> tuple[Note, ...]:
    """Notes on one series: each kind of flag with its first line, a flat line, a lifted float."""
    notes = []
    for kind, says in _SAYS.items():
        marked = np.flatnonzero(series.flags[kind])
        if marked.size:
            text = f"{plain(role)}: {counted(marked.size, says)}, left out of the measures"
            if kind == "stuck":
                text += ": one value for over a day, as from a stuck sensor"
            notes.append(Note("warn", text, int(lines[marked[0]])))
    values = good(series)
    kept = np.isfinite(values)
    said = values if kept.all() else values[kept]
    if said.size >= LEAST_FOR_FLAT and np.ptp(said) == 0 and role in _MOVING:
        text = f"{plain(role)} never changes: {said[0]:g} {series.unit} throughout"
        notes.append(Note("warn", text, int(lines[0])))
    if not said.size:
        notes.append(Note("warn", f"{plain(role)} has no usable reading"))
    if role == "gravity":
        notes.extend(_lifted_float(values, times_s, lines))
    return tuple(notes)


def remark_times(times_s: FloatArray, lines: IntArray, now_s: float) -> tuple[Note, ...]:
    """Notes on the times: in the future, long before any such log, or shared by many readings."""
    notes = []
    ahead = np.flatnonzero(times_s > now_s + AHEAD_S)
    if ahead.size:
        rows = counted(ahead.size, "row")
        text = f"{rows} lay in the future: clock, zone or order of day and month is off"
        notes.append(Note("warn", text, int(lines[ahead[0]])))
    lost = np.flatnonzero(times_s < EARLIEST_CREDIBLE_S)
    if lost.size:
        text = f"{counted(lost.size, 'row')} bore a date before 2010, as when a clock is lost"
        notes.append(Note("warn", text, int(lines[lost[0]])))
    shared = np.diff(times_s) == 0
    if shared.size and shared.mean() >= BUNDLED_SHARE:
        text = "many readings share a time: they were uploaded in bundles, so minutes are not exact"
        notes.append(Note("info", text))
    return tuple(notes)


def remark_parts(series: Mapping[Role, Series]) -> tuple[Note, ...]:
    """A note when there is air or a set point, but nothing from the beer itself."""
    if "beer_temperature" in series or not {"air_temperature", "set_point"} & set(series):
        return ()
    text = "no column is the beer's own temperature; air and set point do not stand in for it"
    return (Note("warn", text),)


def _lifted_float(values: FloatArray, times_s: FloatArray, lines: IntArray) -> list[Note]:
    """A rise within the first day that is followed by a fall below the start."""
    kept: slice | IntArray = slice(None)
    if not np.isfinite(values).all():
        kept = np.flatnonzero(np.isfinite(values))
    said, times, places = values[kept], times_s[kept], lines[kept]
    if said.size < 3:
        return []
    first_day = int(np.searchsorted(times, times[0] + LIFT_S, side="right"))
    top = int(said[:first_day].argmax())
    start = median(said[:3]) if top >= 3 else float(said[0])
    lift = float(said[top]) - start
    if lift < LIFT_SG or said[-1] >= start:
        return []
    text = f"gravity rises by {lift:.3f} on day one before it falls: gas and yeast lift a float"
    return [Note("info", text, int(places[top]))]
