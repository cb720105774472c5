"""Staling: how old a beer is, counted at 20 C."""

from collections.abc import Mapping

from diagnose.process.kinetics import q10_speed
from diagnose.process.trace import Numbers, Trace, off_by, total_over
from diagnose.units import HOURS_PER_DAY

_STORE_C = (-5.0, 45.0)
_REFERENCE_C = 20.0


def storage_days_at_20c(
    hours: Trace, store_c: Trace, *, shift_c: float = 0.0, constants: Mapping[str, float]
) -> float:
    """How many days at 20 C a storage history is worth.

    Args:
        hours: moments [h]; the same moment twice is a step in temperature.
        store_c: temperature of the store at each moment [C], -5 to 45.
        shift_c: how far off the thermometer may be [C], when a range is wanted; see `trace.off_by`.
        constants: reads `staling_q10`.

    Returns:
        Equivalent days [d at 20 C].

    Raises:
        OutsideValidity: a store beyond those limits.
        ValueError: a broken history, see `trace.read_trace`.

    Source: Bamforth, Lentini 2009, in Beer: A Quality Perspective, 85-109 (as quoted): two to
        three times faster for 10 C more. The trade's rule "3 days at 32 C, 30 at 22 C, 300 at
        3 C" cannot be met by one such factor and is not used.
    """

    def per_h(heat: Numbers) -> Numbers:
        heat = off_by(heat, shift_c, _STORE_C, "a store at C")
        return q10_speed(heat, reference_c=_REFERENCE_C, q10=constants["staling_q10"])

    return total_over(hours, store_c, per_h) / HOURS_PER_DAY
