"""DMS in the kettle: its precursor falls apart while an open boil drives the DMS off."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import exp, log

from diagnose.process.validity import require_within

WORT_PH = (5.0, 5.8)
_HOT_WORT_C = (0.0, 105.0)
EVAPORATION = (0.0, 40.0)
_HARDEST = 20.0
_MINUTES = (0.0, 48 * 60.0)

# Which constant holds the evaporation when no volumes were logged, by the record's words.
EVAPORATION_BY_LID = {
    "partly": "boil_evaporation_lid_partly",
    "on": "boil_evaporation_lid_on",
}
EVAPORATION_BY_VIGOUR = {"rolling": "boil_evaporation_home", "weak": "boil_evaporation_weak"}
EVAPORATION_UNSAID = "boil_evaporation_unsaid"
USUAL_PH = "boil_ph_usual"


@dataclass(frozen=True)
class Sulfide:
    """What the wort holds: precursor (as the DMS it can make) and free DMS, both [ug/L]."""

    precursor_ug_per_l: float
    dms_ug_per_l: float


def evaporation_percent_per_h(volume_before_l: float, volume_after_l: float, hours: float) -> float:
    """How much of the kettle boils off in an hour.

    Args:
        volume_before_l: volume at the start of the boil [L].
        volume_after_l: volume at its end [L], both hot or both cold.
        hours: length of the boil [h], above zero.

    Returns:
        Evaporation [% of the starting volume per hour].

    Raises:
        OutsideValidity: no boil, or more wort after it than before.

    Source: definition.
    """
    require_within(hours, (1e-6, 24.0), "a boil of h")
    require_within(volume_after_l, (0.0, volume_before_l), "a volume after the boil of L")
    return 100 * (volume_before_l - volume_after_l) / volume_before_l / hours


def usual_evaporation(lid: object, vigour: object) -> str:
    """Which constant holds the evaporation of a boil whose volumes were not noted.

    Args:
        lid: "on", "partly" or "off"; anything else counts as not noted.
        vigour: "rolling" or "weak"; anything else counts as not noted.

    Returns:
        The id of the constant [% of the starting volume per hour]. A lid decides by itself.

    Source: common practice, no source.
    """
    by_lid = EVAPORATION_BY_LID.get(str(lid))
    return by_lid or EVAPORATION_BY_VIGOUR.get(str(vigour), EVAPORATION_UNSAID)


def volume_after_l(*, before_l: float, percent_per_h: float, hours: float) -> float:
    """What a boil leaves in the kettle.

    Args:
        before_l: volume at the start [L].
        percent_per_h: evaporation [% of the starting volume per hour].
        hours: length of the boil [h].

    Returns:
        Volume at the end [L]; nothing where all would have boiled off.

    Source: definition.
    """
    return before_l * max(1.0 - percent_per_h / 100.0 * hours, 0.0)


def precursor_half_life_minutes(
    wort_c: float, wort_ph: float, constants: Mapping[str, float]
) -> float:
    """How long half of the S-methylmethionine in hot wort takes to fall apart.

    Args:
        wort_c: temperature of the wort [C], 0 to 105.
        wort_ph: pH of the wort, read cool, 5.0 to 5.8.
        constants: reads `smm_thalf_ph52`, `smm_thalf_ph55`, `smm_doubling_dt` and
            `smm_half_life_scale`, which is 1 and carries the spread between laboratories.

    Returns:
        Half-life [min].

    Raises:
        OutsideValidity: a temperature or pH beyond those limits.

    Source: Dickenson 1979, J Inst Brew; Anness, Bamforth 1982, J Inst Brew (as quoted): 38 min
        at pH 5.2 and 32.5 min at pH 5.5 in the boil, doubled for 6 C less. Deviation: between
        and beyond the two the logarithm runs straight.
    """
    require_within(wort_c, _HOT_WORT_C, "a hot wort at C")
    require_within(wort_ph, WORT_PH, "a boil at pH")
    at_52, at_55 = constants["smm_thalf_ph52"], constants["smm_thalf_ph55"]
    in_the_boil = at_52 * exp((wort_ph - 5.2) / 0.3 * log(at_55 / at_52))
    in_the_boil *= constants["smm_half_life_scale"]
    return in_the_boil * float(2 ** ((100 - wort_c) / constants["smm_doubling_dt"]))


def stripping_per_minute(evaporation_percent_per_h: float, constants: Mapping[str, float]) -> float:
    """How fast an open boil drives free DMS off.

    Args:
        evaporation_percent_per_h: evaporation [%/h], 0 to 40; more than 20 counts as 20.
        constants: reads `dms_strip_per_evap`.

    Returns:
        Rate [1/min].

    Raises:
        OutsideValidity: an evaporation beyond those limits.

    Source: Wilson, Booer 1979, J Inst Brew 85: 0.18 /min at 17 %/h. Deviation: taken to grow in
        step with evaporation, which is an assumption.
    """
    require_within(evaporation_percent_per_h, EVAPORATION, "an evaporation per hour of %")
    return constants["dms_strip_per_evap"] * min(evaporation_percent_per_h, _HARDEST)


def held_hot(
    wort: Sulfide, *, minutes: float, half_life_minutes: float, stripping_per_min: float
) -> Sulfide:
    """What the wort holds after some time at one temperature.

    Args:
        wort: what it holds at the start.
        minutes: time [min].
        half_life_minutes: half-life of the precursor at this temperature [min].
        stripping_per_min: rate at which free DMS leaves [1/min]; 0 under a tight lid.

    Returns:
        What it holds at the end.

    Raises:
        OutsideValidity: less than no time, or more than two days.

    Source: two first-order steps in a row, solved exactly; first principles.
    """
    require_within(minutes, _MINUTES, "a hot wort for min")
    decay = log(2) / half_life_minutes
    left = wort.precursor_ug_per_l * exp(-decay * minutes)
    stays = exp(-stripping_per_min * minutes)
    gap = (stripping_per_min - decay) * minutes
    # (1 - e^-gap)/gap without a division by zero where both steps run equally fast.
    share = (1 - exp(-gap)) / gap if abs(gap) > 1e-6 else 1 - gap / 2
    made = wort.precursor_ug_per_l * decay * minutes * exp(-decay * minutes) * share
    return Sulfide(left, wort.dms_ug_per_l * stays + made)
