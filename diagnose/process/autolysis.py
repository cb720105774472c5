"""Yeast contact: how long the beer has stood on its yeast, counted at 20 C."""

from collections.abc import Mapping

from diagnose.process.kinetics import q10_speed
from diagnose.process.trace import Numbers, Trace, off_by, total_over
from diagnose.units import HOURS_PER_DAY

_BEER_C = (-3.0, 42.0)
_REFERENCE_C = 20.0


def yeast_contact_days_at_20c(
    hours: Trace, beer_c: Trace, *, shift_c: float = 0.0, constants: Mapping[str, float]
) -> float:
    """How many days on the yeast at 20 C a history is worth.

    Args:
        hours: moments [h], from pitching to the day the beer left its yeast.
        beer_c: temperature of the beer at each moment [C], -3 to 42.
        shift_c: how far off the probe may be [C], when a range is wanted; see `trace.off_by`.
        constants: reads `autolysis_q10`.

    Returns:
        Equivalent days [d at 20 C], for a shallow home vessel.

    Raises:
        OutsideValidity: a beer beyond those limits.
        ValueError: a broken history, see `trace.read_trace`.

    Source: common practice, no source: doubled for 10 C more. No published rate was found; Chen,
        Jamieson, Van Gheluwe 1980, J Am Soc Brew Chem 38:13 gives the direction only.
    """

    def per_h(heat: Numbers) -> Numbers:
        heat = off_by(heat, shift_c, _BEER_C, "a beer on yeast at C")
        return q10_speed(heat, reference_c=_REFERENCE_C, q10=constants["autolysis_q10"])

    return total_over(hours, beer_c, per_h) / HOURS_PER_DAY
