"""Spikes: readings far from the median of their neighbours, however wild the neighbours are."""

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from diagnose.batch.probe.log import BoolArray, FloatArray
from diagnose.batch.probe.middle import median, medians

# Judgement: eleven readings see past a bump of five; four scaled deviations leave noise alone.
HALF_WINDOW = 5
DEVIATIONS = 4.0
# The median absolute deviation of normal noise is its standard deviation divided by this.
NORMAL_SCALE = 1.4826
# How many windows are worked on at once, to keep the memory of a year's log small.
BLOCK = 100_000
# No window is longer, so that each lies in two neighbouring pieces.
PIECE = 64
# Judgement: a bump that decays is out after so many further looks.
FURTHER_PASSES = 4


def hampel_spikes(values: FloatArray, *, floor: float) -> BoolArray:
    """Readings more than four scaled median absolute deviations from the median around them.

    Near the ends the window shrinks, so that it stays even on both sides: a steady rise or fall
    never counts as a spike. The first and last reading have no two sides and are left alone here.

    Args:
        values: readings in their order, without NaN.
        floor: the least deviation that counts, in the unit of the values.

    Source: Hampel F.R. (1974) The influence curve and its role in robust estimation, JASA
        69:383-393 (from memory). The floor is ours: a probe that reads in steps has no deviation.
    """
    spikes = np.zeros(values.size, dtype=np.bool_)
    for half in range(1, HALF_WINDOW):
        if values.size >= 2 * half + 1:
            ends = np.array([half, values.size - 1 - half])
            windows = np.stack([values[at - half : at + half + 1] for at in ends])
            spikes[ends] = _stands_out(windows, floor)
    inner = values.size - 2 * HALF_WINDOW
    for start in range(0, max(inner, 0), BLOCK):
        if _is_calm(values[start : start + BLOCK + 2 * HALF_WINDOW], floor):
            continue
        stop = min(start + BLOCK, inner)
        part = values[start : stop + 2 * HALF_WINDOW]
        windows = sliding_window_view(part, 2 * HALF_WINDOW + 1)
        wide = np.flatnonzero(_ranges(part) > floor)
        spikes[start + HALF_WINDOW + wide] = _stands_out(windows[wide], floor)
    return spikes


def repeated_hampel(values: FloatArray, *, floor: float) -> BoolArray:
    """Spikes found one behind another: a large one hides smaller ones beside it until it is out.

    Args:
        values: readings in their order, without NaN.
        floor: the least deviation that counts, in the unit of the values.
    """
    spikes = hampel_spikes(values, floor=floor)
    if not spikes.any():
        return spikes
    for _ in range(FURTHER_PASSES):
        left = np.flatnonzero(~spikes)
        found = hampel_spikes(values[left], floor=floor)
        if not found.any():
            break
        spikes[left[found]] = True
    return spikes


def bumps(values: FloatArray, *, floor: float, apart: int) -> BoolArray:
    """Readings of a bump too wide for the filter, which sees it among every so many readings.

    Args:
        values: readings in their order, without NaN.
        floor: what a reading beside a bump's top deviates by to belong to it; the top deviates by
            four of these.
        apart: how many readings a bump has at least.
    """
    result = np.zeros(values.size, dtype=np.bool_)
    some = values[::apart]
    for at in np.flatnonzero(hampel_spikes(some, floor=DEVIATIONS * floor)):
        usual = median(some[max(at - HALF_WINDOW, 0) : at + HALF_WINDOW + 1])
        around = slice(max((at - 1) * apart + 1, 0), (at + 1) * apart)
        result[around] |= np.abs(values[around] - usual) > floor
    return result


def _is_calm(values: FloatArray, floor: float) -> bool:
    """Whether neighbours differ so little over any stretch that no window can hold a spike."""
    pieces = values[: values.size // PIECE * PIECE].reshape(-1, PIECE)
    rest = values[values.size // PIECE * PIECE :]
    high, low = pieces.max(axis=1, initial=-np.inf), pieces.min(axis=1, initial=np.inf)
    high, low = np.append(high, rest.max(initial=-np.inf)), np.append(low, rest.min(initial=np.inf))
    ranges = np.maximum(high[1:], high[:-1]) - np.minimum(low[1:], low[:-1])
    return bool(ranges.size) and bool((ranges <= floor).all())


def _ranges(values: FloatArray) -> FloatArray:
    """The range within each full window: where it is below the floor, nothing can stand out.

    Windows of two, four and eight readings are put together from narrower ones.
    """
    high = low = values
    for width in (1, 2, 4):
        high = np.maximum(high[:-width], high[width:])
        low = np.minimum(low[:-width], low[width:])
    rest = 2 * HALF_WINDOW + 1 - 8
    return np.maximum(high[:-rest], high[rest:]) - np.minimum(low[:-rest], low[rest:])


def end_spikes(
    values: FloatArray, times_s: FloatArray, *, floor: float, longest_step_s: float
) -> BoolArray:
    """A first or last reading that leaps from five steady neighbours faster than beer can move.

    Args:
        values: readings in their order, without NaN.
        times_s: their times [s].
        floor: the least leap that counts; the neighbours must agree within it.
        longest_step_s: the longest time to the neighbour that makes a leap incredible [s].
    """
    spikes = np.zeros(values.size, dtype=np.bool_)
    if values.size < HALF_WINDOW + 1:
        return spikes
    first, last = values[1 : HALF_WINDOW + 1], values[-HALF_WINDOW - 1 : -1]
    steps = (times_s[1] - times_s[0], times_s[-1] - times_s[-2])
    for at, near, step_s in ((0, first, steps[0]), (-1, last, steps[1])):
        steady = np.ptp(near) <= floor and step_s <= longest_step_s
        spikes[at] = steady and abs(values[at] - median(near)) > DEVIATIONS * floor
    return spikes


def _stands_out(windows: FloatArray, floor: float) -> BoolArray:
    """For each window (rows), whether its middle reading is a spike."""
    middle = windows[:, windows.shape[1] // 2]
    usual = medians(windows)
    spread = medians(np.abs(windows - usual[:, None]))
    limit = np.maximum(DEVIATIONS * NORMAL_SCALE * spread, floor)
    return np.asarray(np.abs(middle - usual) > limit, dtype=np.bool_)
