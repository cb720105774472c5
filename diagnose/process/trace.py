"""Temperature histories: a rate that depends on temperature, added up over a trace."""

from collections.abc import Callable

import numpy as np
import numpy.typing as npt

from diagnose.process.validity import require_within

Trace = npt.ArrayLike
Numbers = npt.NDArray[np.float64]


def read_trace(hours: Trace, temperature_c: Trace) -> tuple[Numbers, Numbers]:
    """A temperature history as two arrays.

    Args:
        hours: moments [h], never falling; the same moment twice is a step in temperature.
        temperature_c: temperature at each moment [C].

    Returns:
        Both as arrays of floats of one shape (n,), n >= 1.

    Raises:
        ValueError: shapes differ, nothing there, time runs backward, or a gap is left as NaN.
    """
    moments = np.atleast_1d(np.asarray(hours, dtype=np.float64))
    heat = np.atleast_1d(np.asarray(temperature_c, dtype=np.float64))
    if moments.shape != heat.shape or moments.ndim != 1 or moments.size == 0:
        raise ValueError(f"found traces of {moments.shape} and {heat.shape}; wanted one length")
    if not (np.isfinite(moments).all() and np.isfinite(heat).all()):
        raise ValueError("found a gap in the trace; wanted it bridged or the trace cut")
    if (np.diff(moments) < 0).any():
        raise ValueError("found a trace that runs backward; wanted it in order of time")
    return moments, heat


def off_by(heat_c: Numbers, shift_c: float, limits: tuple[float, float], what: str) -> Numbers:
    """A history as it would be if every reading were off by so much.

    Args:
        heat_c: temperatures as they were read [C].
        shift_c: how far off they may be [C]; what that carries past a limit stays at the limit.
        limits: lowest and highest temperature the source covers [C].
        what: the history in a brewer's words with its unit last, such as "a store at C".

    Returns:
        Temperatures [C], in the shape of `heat_c`.

    Raises:
        OutsideValidity: the readings themselves lie beyond a limit.
    """
    for edge in (float(heat_c.min()), float(heat_c.max())):
        require_within(edge, limits, what)
    return np.clip(heat_c + shift_c, *limits)


def added_up(hours: Numbers, rate_per_h: Numbers) -> float:
    """The total a changing rate comes to.

    Args:
        hours: moments [h], shape (n,), never falling.
        rate_per_h: the rate at each moment [1/h], shape (n,), above zero.

    Returns:
        Rate times time, summed [-].

    Source: between two moments the rate is taken to change exponentially (logarithmic mean),
        which is exact for a Q10 law while the temperature moves in a straight line; so a
        coarse log of a slow drift gives the same answer as a fine one. First principles.
    """
    before, after = rate_per_h[:-1], rate_per_h[1:]
    growth = np.log(after / before)
    # Close to 1 the quotient loses its digits; there the plain mean is right to 1e-9.
    flat = np.abs(growth) < 1e-4
    mean = np.where(flat, (before + after) / 2, (after - before) / np.where(flat, 1.0, growth))
    return float(np.sum(mean * np.diff(hours)))


def total_over(
    hours: Trace, temperature_c: Trace, rate_per_h: Callable[[Numbers], Numbers]
) -> float:
    """The total that a temperature-driven rate comes to over a history.

    Args:
        hours: moments [h], as for `read_trace`.
        temperature_c: temperature at each moment [C].
        rate_per_h: rate [1/h] for an array of temperatures [C].

    Returns:
        Rate times time, summed over the history [-]; 0 for a single moment.

    Raises:
        ValueError: as for `read_trace`.
    """
    moments, heat = read_trace(hours, temperature_c)
    return added_up(moments, rate_per_h(heat))


def mean_c(hours: Trace, temperature_c: Trace) -> float:
    """The mean temperature of a history, each stretch counted by its length.

    Args:
        hours: moments [h], as for `read_trace`.
        temperature_c: temperature at each moment [C].

    Returns:
        Mean [C]; for a history of no length, the mean of its readings.

    Raises:
        ValueError: as for `read_trace`.
    """
    moments, heat = read_trace(hours, temperature_c)
    length = float(moments[-1] - moments[0])
    if length == 0:
        return float(heat.mean())
    return float(np.sum((heat[1:] + heat[:-1]) / 2 * np.diff(moments))) / length


def cut_trace(
    hours: Trace, temperature_c: Trace, *, start_h: float, end_h: float
) -> tuple[Numbers, Numbers]:
    """The part of a history between two moments, with the ends interpolated.

    Args:
        hours: moments [h], as for `read_trace`.
        temperature_c: temperature at each moment [C].
        start_h: first moment wanted [h].
        end_h: last moment wanted [h].

    Returns:
        Moments [h] and temperatures [C] of the part that both the history and the wanted
        stretch cover.

    Raises:
        ValueError: as for `read_trace`, or the stretch lies outside the history.
    """
    moments, heat = read_trace(hours, temperature_c)
    first, last = max(start_h, float(moments[0])), min(end_h, float(moments[-1]))
    if first > last:
        raise ValueError(f"found no reading between {start_h:g} and {end_h:g} h; wanted some")
    inside = (moments > first) & (moments < last)
    # A step that falls on an edge counts from its inner side; looked up backward for the end.
    at_start = np.interp(first, moments, heat)
    at_end = np.interp(-last, -moments[::-1], heat[::-1])
    return (
        np.concatenate(([first], moments[inside], [last])),
        np.concatenate(([at_start], heat[inside], [at_end])),
    )
