"""Esters and fusel alcohols: how much a warm start makes against a cool one."""

from diagnose.process.trace import Trace, cut_trace, mean_c
from diagnose.process.validity import require_within

_BEER_C = (4.0, 42.0)
EARLY_HOURS = 72.0

# Which constant holds the slope, by what is made.
SLOPE_BY_COMPOUND = {
    "ethyl_acetate": "etoac_slope",
    "isoamyl_acetate": "iaa_slope",
    "fusel_alcohol": "fusel_slope",
}


def early_beer_c(hours: Trace, beer_c: Trace) -> float:
    """Mean temperature of the beer in the first three days.

    Args:
        hours: moments since pitching [h].
        beer_c: temperature inside the beer at each moment [C].

    Returns:
        Mean [C] over the part of the first 72 h that the history covers.

    Raises:
        ValueError: a broken history, or none of it in the first 72 h.

    Source: common practice, no source: esters and fusels are made while the yeast grows.
    """
    return mean_c(*cut_trace(hours, beer_c, start_h=0.0, end_h=EARLY_HOURS))


def relative_load(
    *,
    early_beer_c: float,
    reference_c: float,
    slope_percent_per_c: float,
) -> float:
    """How much of an ester or alcohol is made against a start at another temperature.

    Args:
        early_beer_c: mean temperature of the beer in the first 72 h [C], 4 to 42.
        reference_c: the start it is compared with [C], 4 to 42.
        slope_percent_per_c: growth per degree [%/C], see `SLOPE_BY_COMPOUND`.

    Returns:
        Load [-]; 1 at the reference. Direction and rough size only.

    Raises:
        OutsideValidity: a temperature beyond those limits.

    Source: ethyl acetate 12.5 to 21.5 mg/L from 10 to 25 C as quoted in a thread; Kucharczyk,
        Tuszynski 2018, J Inst Brew, doi 10.1002/jib.491 for the direction; the slopes of
        isoamyl acetate and fusel alcohols are from memory.
    """
    for beer_c in (early_beer_c, reference_c):
        require_within(beer_c, _BEER_C, "an early beer at C")
    return float((1 + slope_percent_per_c / 100) ** (early_beer_c - reference_c))


def slope_percent_per_c(cold: float, warm: float, difference_c: float) -> float:
    """The growth per degree behind two amounts some degrees apart.

    Args:
        cold: amount when cold [any unit], above zero.
        warm: amount when warm [the same unit], above zero.
        difference_c: degrees between the two [C].

    Returns:
        Growth [%/C].

    Source: compound growth, definition.
    """
    return 100 * (float((warm / cold) ** (1 / difference_c)) - 1)
