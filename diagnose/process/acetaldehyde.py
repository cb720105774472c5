"""Acetaldehyde of young beer: what the yeast has not yet taken up again."""

from collections.abc import Mapping
from math import log

from diagnose.process.kinetics import log_between
from diagnose.process.trace import Numbers, Trace, off_by, total_over
from diagnose.units import HOURS_PER_DAY

_BEER_C = (-3.0, 42.0)
_COLD_C = 9.0
_WARM_C = 19.0


def acetaldehyde_left_mg_per_l(
    hours: Trace, beer_c: Trace, *, shift_c: float = 0.0, constants: Mapping[str, float]
) -> float:
    """Acetaldehyde of young beer left after a stay on healthy yeast.

    Args:
        hours: moments [h], from the peak in the first third of fermentation to the crash.
        beer_c: temperature of the beer at each moment [C], -3 to 42.
        shift_c: how far off the probe may be [C], when a range is wanted; see `trace.off_by`.
        constants: reads `acetaldehyde_peak`, `acetaldehyde_half_life_cold_d`,
            `acetaldehyde_half_life_warm_d`.

    Returns:
        Acetaldehyde [mg/L], besides any from oxidation or bacteria.

    Raises:
        OutsideValidity: a beer beyond those limits.
        ValueError: a broken history, see `trace.read_trace`.

    Source: from memory: a peak of 20 to 40 mg/L that halves in 1 to 3 days at 18 to 20 C and in
        4 to 7 days at 8 to 10 C. Deviation: read at 19 and 9 C, and on a logarithmic line
        between and beyond them.
    """
    cold = (_COLD_C, log(2) / (constants["acetaldehyde_half_life_cold_d"] * HOURS_PER_DAY))
    warm = (_WARM_C, log(2) / (constants["acetaldehyde_half_life_warm_d"] * HOURS_PER_DAY))

    def per_h(heat: Numbers) -> Numbers:
        return log_between(off_by(heat, shift_c, _BEER_C, "a beer on yeast at C"), cold, warm)

    taken_up = total_over(hours, beer_c, per_h)
    return constants["acetaldehyde_peak"] * float(2 ** (-taken_up / log(2)))
