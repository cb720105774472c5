"""The probe log of a batch as a trace to draw: readings, the marks on it, the yeast's band."""

from datetime import UTC, datetime

import numpy as np

from diagnose.answers.background import Mark, Trace, TraceDays, TracePiece, YeastBand
from diagnose.batch import Moment, resolved, timeline_of
from diagnose.batch.moments import zone_of
from diagnose.batch.probe import ProbeLog, Role, trace
from diagnose.batch.probe import Trace as Readings
from diagnose.batch.probe.log import FloatArray
from diagnose.batch.probe.spans import longest_bridge
from diagnose.consult.gathering import Consultation
from diagnose.units import HOURS_PER_DAY, SECONDS_PER_HOUR

# So many slices of time keep their coolest and warmest reading: finer than a page can show.
SLICES = 300
MOST_ROWS = 14
_ROLES: tuple[tuple[Role, str], ...] = (
    ("beer_temperature", "beer"),
    ("air_temperature", "air around it"),
)


def trace_of(consultation: Consultation) -> Trace | None:
    """The temperatures of the probe log; None where there is no log or it holds none.

    Args:
        consultation: the batch with its log.
    """
    log = consultation.log
    found = _readings(log) if log is not None else None
    if log is None or found is None:
        return None
    what, readings = found
    yeast = _band(consultation)
    hours = (readings.times_s - readings.times_s[0]) / SECONDS_PER_HOUR
    return Trace(
        file=log.name.replace("\\", "/").rsplit("/", 1)[-1],
        what=what,
        first=_clock(consultation, readings.times_s[0]),
        last=_clock(consultation, readings.times_s[-1]),
        hours=float(hours[-1]),
        pieces=tuple(_pieces(hours, readings)),
        days=tuple(_days(hours, readings.values)),
        marks=tuple(_marks(consultation, float(readings.times_s[0]))),
        yeast=yeast,
        in_band=_in_band(consultation, readings, yeast) if yeast and what == "beer" else None,
    )


def _readings(log: ProbeLog) -> tuple[str, Readings] | None:
    for role, what in _ROLES:
        readings = trace(log, role)
        if readings.times_s.size > 1 and readings.times_s[-1] > readings.times_s[0]:
            return what, readings
    return None


def _band(consultation: Consultation) -> YeastBand | None:
    yeast = consultation.beer.yeast
    if yeast is None:
        return None
    band = yeast.ferments_c
    return YeastBand(name=yeast.name, low_c=band.low, high_c=band.high)


def _clock(consultation: Consultation, seconds: float, form: str = "%b %Y, %H:%M") -> str:
    """A moment as the record's zone writes it; the day stands first, without a zero."""
    zone = zone_of(consultation.batch.record.zone)
    when = datetime.fromtimestamp(float(seconds), tz=UTC).astimezone(zone)
    return f"{when.day} {when.strftime(form)}"


def _pieces(hours: FloatArray, readings: Readings) -> list[TracePiece]:
    """The readings cut where the log has a gap, and thinned to what a page can show."""
    bridge_h = longest_bridge(readings.times_s) / SECONDS_PER_HOUR
    kept = _thinned(hours, readings.values)
    # A gap lies between neighbours of the whole log; thinning alone must not make one.
    gaps = np.flatnonzero(np.diff(hours) > bridge_h) + 1
    part_of = np.searchsorted(gaps, kept, side="right")
    return [
        TracePiece(
            hours=tuple(np.round(hours[kept[part_of == part]], 3).tolist()),
            beer_c=tuple(np.round(readings.values[kept[part_of == part]], 2).tolist()),
        )
        for part in np.unique(part_of)
    ]


def _thinned(hours: FloatArray, values: FloatArray) -> "np.ndarray[tuple[int], np.dtype[np.int64]]":
    """Places of the readings to draw: the coolest and warmest of each slice, first and last."""
    slices = np.minimum((hours / hours[-1] * SLICES).astype(np.int64), SLICES - 1)
    coldest_first = np.lexsort((values, slices))
    starts = np.flatnonzero(np.diff(slices[coldest_first], prepend=-1))
    ends = np.append(starts[1:], hours.size) - 1
    ends_of_log = np.array([0, hours.size - 1])
    return np.unique(np.concatenate([coldest_first[starts], coldest_first[ends], ends_of_log]))


def _days(hours: FloatArray, values: FloatArray) -> list[TraceDays]:
    """Coolest, mean and warmest for every day, or for as many days as keep the table short."""
    step = int(np.ceil((hours[-1] / HOURS_PER_DAY + 1e-9) / MOST_ROWS))
    rows = (hours / (HOURS_PER_DAY * step)).astype(np.int64)
    lines = []
    for row in np.unique(rows):
        some = values[rows == row]
        first, last = int(row) * step + 1, (int(row) + 1) * step
        lines.append(
            TraceDays(
                days=f"{first}" if step == 1 else f"{first} to {last}",
                low_c=float(some.min()),
                mean_c=float(some.mean()),
                high_c=float(some.max()),
            )
        )
    return lines


def _marks(consultation: Consultation, start_s: float) -> list[Mark]:
    record = consultation.batch.record
    pitched = record.pitch.when if isinstance(record.pitch.when, Moment) else record.brewed
    moments = {
        "pitched": pitched,
        "crashed": record.fermentation.crashed,
        "packaged": record.packaging.when,
    }
    marks = []
    for name, moment in moments.items():
        when = resolved(record, moment)
        if when is None or not isinstance(moment, Moment):
            continue
        # Noon stands for a day that was written without a time.
        form = "%b" if moment.whole_day else "%b %H:%M"
        clock = _clock(consultation, when.timestamp(), form)
        marks.append(
            Mark(name=name, hours=(when.timestamp() - start_s) / SECONDS_PER_HOUR, when=clock)
        )
    return marks


def _in_band(consultation: Consultation, readings: Readings, yeast: YeastBand) -> float | None:
    """The share of the readings between pitching and the crash that lie in the band."""
    times = timeline_of(consultation.batch.record)
    start = times.pitched.timestamp() if times.pitched else readings.times_s[0]
    end = times.crashed or times.packaged
    until = end.timestamp() if end else readings.times_s[-1]
    fermenting = (readings.times_s >= start) & (readings.times_s <= until)
    if not fermenting.any():
        return None
    some = readings.values[fermenting]
    return float(((some >= yeast.low_c) & (some <= yeast.high_c)).mean())
