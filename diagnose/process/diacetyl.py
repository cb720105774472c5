"""Diacetyl: how far its precursor has gone while the yeast was there to clear up."""

from collections.abc import Mapping
from math import log2

import numpy as np

from diagnose.process.kinetics import arrhenius_speed
from diagnose.process.trace import Numbers, Trace, off_by, total_over
from diagnose.process.validity import require_within

_BEER_C = (-3.0, 70.0)
_REFERENCE_C = 20.0


def precursor_half_life_hours(beer_c: float, constants: Mapping[str, float]) -> float:
    """How long half of the diacetyl precursor (alpha-acetolactate) takes to go.

    Args:
        beer_c: temperature of the beer [C], -3 to 70, at the pH of beer.
        constants: reads `aal_thalf_20c`, `aal_ea`, `gas_constant`.

    Returns:
        Half-life [h].

    Raises:
        OutsideValidity: a beer below -3 C or above 70 C.

    Source: first-order decay by the Arrhenius law, rate from memory (no rate table could be
        opened); good to a factor of two, so rank by it and do not read mg/L off it.
    """
    return float(1 / _half_lives_per_h(np.array([beer_c]), constants)[0])


def half_lives_passed(
    hours: Trace, beer_c: Trace, *, shift_c: float = 0.0, constants: Mapping[str, float]
) -> float:
    """Half-lives of the diacetyl precursor that a stretch of time comes to.

    Args:
        hours: moments [h], from the end of the gravity fall to crash or packaging.
        beer_c: temperature of the beer at each moment [C], -3 to 70.
        shift_c: how far off the probe may be [C], when a range is wanted; see `trace.off_by`.
        constants: as for `precursor_half_life_hours`.

    Returns:
        Half-lives passed [-]; 0 for no time at all.

    Raises:
        OutsideValidity: a beer below -3 C or above 70 C.
        ValueError: a broken history, see `trace.read_trace`.

    Source: as for `precursor_half_life_hours`.
    """

    def per_h(heat: Numbers) -> Numbers:
        return _half_lives_per_h(off_by(heat, shift_c, _BEER_C, "a beer at C"), constants)

    return total_over(hours, beer_c, per_h)


def precursor_left_mg_per_l(start_mg_per_l: float, half_lives: float) -> float:
    """Precursor left after some half-lives.

    Args:
        start_mg_per_l: precursor at the start [mg/L].
        half_lives: half-lives passed [-].

    Returns:
        Precursor left [mg/L].

    Source: first-order decay, definition.
    """
    return start_mg_per_l * float(0.5**half_lives)


def diacetyl_to_come_mg_per_l(half_lives: float, constants: Mapping[str, float]) -> float:
    """Diacetyl that the precursor left would still turn into, once the yeast is gone.

    Args:
        half_lives: half-lives passed with yeast since the gravity stopped [-].
        constants: reads `aal_classic`, `aal_to_diacetyl_mass`.

    Returns:
        Diacetyl [mg/L] on top of what is there.

    Source: start from Food Biochemistry and Food Processing, 2nd ed 2012, chapter 33; yield
        from atomic masses. Deviation: all of the precursor is taken to turn, none is lost.
    """
    left_mg_per_l = precursor_left_mg_per_l(constants["aal_classic"], half_lives)
    return diacetyl_from_precursor_mg_per_l(left_mg_per_l, constants)


def diacetyl_from_precursor_mg_per_l(
    precursor_mg_per_l: float, constants: Mapping[str, float]
) -> float:
    """Diacetyl that an amount of precursor makes.

    Args:
        precursor_mg_per_l: alpha-acetolactic acid [mg/L].
        constants: reads `aal_to_diacetyl_mass`.

    Returns:
        Diacetyl [mg/L].

    Source: molar masses (132.1 to 86.1).
    """
    return constants["aal_to_diacetyl_mass"] * precursor_mg_per_l


def rest_hours_needed(
    start_mg_per_l: float, beer_c: float, constants: Mapping[str, float]
) -> float:
    """How long the beer must stay on yeast until too little precursor is left to matter.

    Args:
        start_mg_per_l: precursor when the gravity stopped [mg/L], above zero.
        beer_c: temperature of the rest [C], -3 to 70.
        constants: reads `diacetyl_limit` besides those of `precursor_half_life_hours`.

    Returns:
        Hours [h]; 0 when there is too little to begin with.

    Raises:
        OutsideValidity: a beer below -3 C or above 70 C, or no precursor.

    Source: limit of 0.10 mg/L from MEBAK B-420.21.111; rate from memory.
    """
    require_within(start_mg_per_l, (1e-9, 10.0), "a start with precursor of mg/L")
    to_come = diacetyl_from_precursor_mg_per_l(start_mg_per_l, constants)
    half_lives = max(0.0, log2(to_come / constants["diacetyl_limit"]))
    return half_lives * precursor_half_life_hours(beer_c, constants)


def converted_percent(minutes: float, half_life_minutes: float) -> float:
    """How much of the precursor a warm hold turns into diacetyl.

    Args:
        minutes: length of the hold [min].
        half_life_minutes: half-life at its temperature [min].

    Returns:
        Converted [%].

    Source: first-order decay, definition.
    """
    return 100 * (1 - float(0.5 ** (minutes / half_life_minutes)))


def _half_lives_per_h(beer_c: Numbers, constants: Mapping[str, float]) -> Numbers:
    for edge in (float(beer_c.min()), float(beer_c.max())):
        require_within(edge, _BEER_C, "a beer at C")
    speed = arrhenius_speed(
        beer_c,
        reference_c=_REFERENCE_C,
        energy_kj_per_mol=constants["aal_ea"],
        constants=constants,
    )
    return speed / constants["aal_thalf_20c"]
