"""Readings that are no readings: fault values, impossible values, spikes and stuck sensors."""

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from diagnose.batch.probe.hampel import HALF_WINDOW, bumps, end_spikes, repeated_hampel
from diagnose.batch.probe.log import BoolArray, Flag, FloatArray, IntArray, Role, Series
from diagnose.batch.probe.lookup import extremes, one_of
from diagnose.batch.probe.middle import median

# Common practice: what sensors and loggers write for a fault, wherever it stands. -196.6 F is
# -127 C.
ALWAYS_FAULTS = (-127.0, -196.6, 9999.0, -9999.0, -999.0, 32767.0, -32768.0, 65535.0)
# 999 is a fault unless gravities are written in thousandths, where 999 is 0.999.
FAULT_UNLESS_THOUSANDS = 999.0
# Common practice: a digital probe says 85 C after a power cut, a lost one 0; both can be true.
PERHAPS_C = (0.0, 85.0)
# Judgement: a reading of 0 or 85 is a fault when its neighbours are this far away.
FAR = {"C": 10.0, "SG": 0.020}
# Judgement: no beer, wort or brewery air is outside these limits.
POSSIBLE: dict[Role, tuple[float, float]] = {
    "beer_temperature": (-10.0, 110.0),
    "air_temperature": (-40.0, 60.0),
    "set_point": (-10.0, 110.0),
    "gravity": (0.980, 1.200),
    "pressure": (-1.0, 10.0),
}
# Judgement: leaps below these are nothing a brewer would call a spike.
SPIKE_FLOOR: dict[Role, float] = {
    "beer_temperature": 1.0,
    "air_temperature": 1.0,
    "gravity": 0.004,
    "pressure": 0.2,
}
# Judgement: a litre of beer takes longer than this to change by four floors.
LONGEST_LEAP_S = 3600.0
# What moves as slowly as the beer itself; the air of a cabinet may leap and come back.
SLOW: tuple[Role, ...] = ("beer_temperature", "gravity")
# How many steps tell how often a logger writes.
ENOUGH_STEPS = 1000
# Judgement: a day and 24 readings without the least change is no reading when the probe
# resolves fine steps and otherwise changes at one reading in five.
STUCK_S = 86_400.0
STUCK_SAMPLES = 24
FINE_STEP: dict[Role, float] = {
    "beer_temperature": 0.25,
    "air_temperature": 0.25,
    "gravity": 0.0005,
}
LIVELY_SHARE = 0.2
# Judgement: the finest step of a series, but for one move in twenty.
FINEST = 0.05


@dataclass(frozen=True, eq=False)
class Readings:
    """One part's numbers by time: as written, in `unit`, and when they were logged [s]."""

    role: Role
    unit: str
    raw: FloatArray
    values: FloatArray
    times_s: FloatArray


def examine(readings: Readings, repeated_hour: BoolArray) -> Series:
    """The series with every flag set.

    Args:
        readings: the numbers.
        repeated_hour: rows inside the hour that the clocks pass twice.
    """
    missing = np.isnan(readings.values)
    sentinel = _sentinels(readings)
    outside = _outside(readings) & ~sentinel
    sound = ~(missing | sentinel | outside)
    flags: dict[Flag, BoolArray] = {
        "missing": missing,
        "sentinel": sentinel,
        "spike": _spikes(readings, sound),
        "stuck": _stuck(readings, sound),
        "repeated_hour": repeated_hour.copy(),
        "out_of_range": outside,
    }
    return Series(readings.unit, readings.values, flags)


def _sentinels(readings: Readings) -> BoolArray:
    """Fault values, and zeros and 85s that their neighbours do not lead up to."""
    raw, values, unit = readings.raw, readings.values, readings.unit
    span = extremes(raw)
    faults = one_of(raw, ALWAYS_FAULTS, span=span)
    thousands = unit == "SG" and bool(np.any((raw > 900.0) & (raw < 999.0) | (raw > 1000.0)))
    if not thousands:
        faults |= one_of(raw, (FAULT_UNLESS_THOUSANDS,), span=span)
    if unit not in FAR:
        return faults
    perhaps = one_of(raw, (0.0,), span=span)
    if unit == "C":
        perhaps |= one_of(values, PERHAPS_C, within=1e-6)
    if not perhaps.any():
        return faults
    known = np.isfinite(values) & ~faults
    return faults | _far_from_neighbours(np.where(known, values, np.nan), perhaps & known, unit)


def _far_from_neighbours(values: FloatArray, perhaps: BoolArray, unit: str) -> BoolArray:
    """Doubtful readings whose nearest other readings, before and after, are both far away.

    A side without any other reading agrees with the doubt: a column of nothing but zeros is a
    lost sensor.
    """
    others = np.flatnonzero(np.isfinite(values) & ~perhaps)
    at = np.flatnonzero(perhaps)
    result = np.zeros(values.size, dtype=np.bool_)
    if not others.size:
        result[at] = True
        return result
    after = np.searchsorted(others, at)
    before_gap = np.abs(values[others[np.maximum(after - 1, 0)]] - values[at])
    after_gap = np.abs(values[others[np.minimum(after, others.size - 1)]] - values[at])
    before_gap[after == 0] = np.inf
    after_gap[after == others.size] = np.inf
    result[at] = (before_gap > FAR[unit]) & (after_gap > FAR[unit])
    return result


def _outside(readings: Readings) -> BoolArray:
    low, high = POSSIBLE.get(readings.role, (-np.inf, np.inf))
    lowest, highest = extremes(readings.values)
    if lowest >= low and highest <= high:
        return np.zeros(readings.values.size, dtype=np.bool_)
    return np.asarray((readings.values < low) | (readings.values > high), dtype=np.bool_)


def _spikes(readings: Readings, sound: BoolArray) -> BoolArray:
    result = np.zeros(sound.size, dtype=np.bool_)
    if readings.role not in SPIKE_FLOOR:
        return result
    floor = SPIKE_FLOOR[readings.role]
    kept, times = _sound_ones(readings, sound)
    ends = end_spikes(kept, times, floor=floor, longest_step_s=LONGEST_LEAP_S)
    found = repeated_hampel(kept, floor=floor) | ends
    if readings.role in SLOW:
        for apart in _bump_widths(times):
            found |= bumps(kept, floor=floor, apart=apart)
    result[sound] = found
    return result


def _bump_widths(times_s: FloatArray) -> list[int]:
    """How many readings bumps have that are too wide for the filter, and shorter than a leap."""
    steps = np.diff(times_s[:ENOUGH_STEPS])
    steps = steps[steps > 0]
    interval_s = median(steps) if steps.size else LONGEST_LEAP_S
    widest = int(LONGEST_LEAP_S / (HALF_WINDOW * interval_s))
    widths = [HALF_WINDOW]
    while widths[-1] * HALF_WINDOW < widest:
        widths.append(widths[-1] * HALF_WINDOW)
    return [*widths, widest] if widest > HALF_WINDOW else []


def _stuck(readings: Readings, sound: BoolArray) -> BoolArray:
    """Repeats of one exact value for over a day, in a series that is otherwise fine and lively.

    The first reading of such a run was still a reading; only its repeats are flagged.
    """
    result = np.zeros(sound.size, dtype=np.bool_)
    kept, times = _sound_ones(readings, sound)
    if readings.role not in FINE_STEP or kept.size < STUCK_SAMPLES:
        return result
    if not _stands_still(kept):
        return result
    starts, ends = _runs(kept)
    lengths = ends - starts + 1
    long = (times[ends] - times[starts] > STUCK_S) & (lengths >= STUCK_SAMPLES)
    inside = np.repeat(long, lengths)
    steps = np.abs(np.diff(kept))[~(inside[1:] & inside[:-1])]
    moves = steps[steps > 0]
    if not moves.size or moves.size < LIVELY_SHARE * steps.size:
        return result
    if float(np.quantile(moves, FINEST)) <= FINE_STEP[readings.role]:
        inside[starts] = False
        result[sound] = inside
    return result


def _stands_still(values: FloatArray) -> bool:
    """Whether one value may be repeated as often as in a stuck sensor: a quick look beforehand.

    So long a run holds two neighbours of every so many places, and all between them.
    """
    apart = STUCK_SAMPLES // 2
    alike = np.flatnonzero(values[:-apart:apart] == values[apart::apart]) * apart
    between = sliding_window_view(values, apart + 1)[alike]
    return bool((between == between[:, :1]).all(axis=1).any())


def _sound_ones(readings: Readings, sound: BoolArray) -> tuple[FloatArray, FloatArray]:
    """The sound values and their times [s]; no copies where all are sound."""
    if sound.all():
        return readings.values, readings.times_s
    return readings.values[sound], readings.times_s[sound]


def _runs(values: FloatArray) -> tuple[IntArray, IntArray]:
    """The first and last places of every run of equal values."""
    changes = np.flatnonzero(np.diff(values) != 0)
    starts = np.concatenate(([0], changes + 1)).astype(np.int64)
    ends = np.concatenate((changes, [values.size - 1])).astype(np.int64)
    return starts, ends
