"""DMS in the beer: from the malt through boil, stand, cooling and fermentation."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.process.boil import (
    Sulfide,
    held_hot,
    precursor_half_life_minutes,
    stripping_per_minute,
)
from diagnose.process.cooling import Cooling, coolant_below


@dataclass(frozen=True)
class HotSide:
    """Everything about a wort that its DMS depends on.

    Malt and extract are in g per litre of finished wort. `boiling_c` is about 1 C less for
    every 300 m of altitude. `stand_venting` is the share of the boil's stripping that goes on
    during the stand: 0 under a lid, `stand_strip_share` without one.
    """

    lager_malt_g_per_l: float
    ale_malt_g_per_l: float
    dark_malt_g_per_l: float
    extract_g_per_l: float
    wort_ph: float
    boil_minutes: float
    boiling_c: float
    evaporation_percent_per_h: float
    stand_minutes: float
    stand_c: float
    stand_venting: float
    chill_minutes: float
    chilled_to_c: float


def precursor_in_wort_ug_per_l(hot_side: HotSide, constants: Mapping[str, float]) -> float:
    """S-methylmethionine that the grist brings, as the DMS it can make.

    Args:
        hot_side: reads the four amounts of malt and extract.
        constants: reads `smm_pale_lager_malt`, `smm_pale_ale_malt`, `smm_dark_malt`,
            `smm_extract`.

    Returns:
        Precursor [ug/L].

    Source: Fix 1999, Principles of Brewing Science (as quoted) for pale malts; dark malt and
        extract from memory. Deviation: all of it is taken to reach the kettle.
    """
    return (
        constants["smm_pale_lager_malt"] * hot_side.lager_malt_g_per_l
        + constants["smm_pale_ale_malt"] * hot_side.ale_malt_g_per_l
        + constants["smm_dark_malt"] * hot_side.dark_malt_g_per_l
        + constants["smm_extract"] * hot_side.extract_g_per_l
    )


def after_boil(hot_side: HotSide, constants: Mapping[str, float]) -> Sulfide:
    """What the wort holds when the boil ends.

    Args:
        hot_side: reads grist, pH and boil.
        constants: as for `precursor_in_wort_ug_per_l` and the functions of `boil`.

    Returns:
        Precursor and free DMS [ug/L].

    Raises:
        OutsideValidity: a pH, evaporation or length of boil beyond what the sources cover.

    Source: as for the functions of `boil`.
    """
    wort = Sulfide(precursor_in_wort_ug_per_l(hot_side, constants), 0.0)
    half_life = precursor_half_life_minutes(hot_side.boiling_c, hot_side.wort_ph, constants)
    return held_hot(
        wort,
        minutes=hot_side.boil_minutes,
        half_life_minutes=half_life,
        stripping_per_min=stripping_per_minute(hot_side.evaporation_percent_per_h, constants),
    )


def after_stand(wort: Sulfide, hot_side: HotSide, constants: Mapping[str, float]) -> Sulfide:
    """What the wort holds after the hot stand.

    Args:
        wort: what it holds when the boil ends.
        hot_side: reads stand, pH and evaporation.
        constants: as for the functions of `boil`.

    Returns:
        Precursor and free DMS [ug/L].

    Raises:
        OutsideValidity: as for `after_boil`.

    Source: Dickenson 1979, J Inst Brew (as quoted), for the decay; how much still leaves an
        open kettle is a guess (`stand_strip_share`).
    """
    half_life = precursor_half_life_minutes(hot_side.stand_c, hot_side.wort_ph, constants)
    in_boil = stripping_per_minute(hot_side.evaporation_percent_per_h, constants)
    return held_hot(
        wort,
        minutes=hot_side.stand_minutes,
        half_life_minutes=half_life,
        stripping_per_min=in_boil * hot_side.stand_venting,
    )


def after_cooling(
    wort: Sulfide, cooling: Cooling, *, wort_ph: float, constants: Mapping[str, float]
) -> Sulfide:
    """What the wort holds once it is cold; nothing is driven off while it cools.

    Args:
        wort: what it holds at the start.
        cooling: from where to where, and how long it takes.
        wort_ph: pH of the wort, 5.0 to 5.8.
        constants: as for `precursor_half_life_minutes`.

    Returns:
        What it holds at the end.

    Raises:
        OutsideValidity: as for `precursor_half_life_minutes` and `held_hot`.

    Source: Newton's law of cooling in one-minute steps or finer; Dickenson 1979 for the rate.
    """
    steps = max(20, round(cooling.minutes))
    step_minutes = cooling.minutes / steps
    for step in range(steps):
        middle_c = cooling.wort_c((step + 0.5) * step_minutes)
        half_life = precursor_half_life_minutes(middle_c, wort_ph, constants)
        wort = held_hot(
            wort, minutes=step_minutes, half_life_minutes=half_life, stripping_per_min=0.0
        )
    return wort


def dms_ug_per_l(hot_side: HotSide, constants: Mapping[str, float]) -> float:
    """DMS that malt, boil, stand and cooling leave in the beer.

    Args:
        hot_side: the whole hot side.
        constants: reads `dms_ferment_loss`, `coolant_c` and `coolant_lead_c` besides those of the
            steps.

    Returns:
        DMS in the beer [ug/L]; a ranking within a factor of two.

    Raises:
        OutsideValidity: an entry beyond what the sources cover.

    Source: Wilson, Booer 1979; Dickenson 1979; Anness, Bamforth 1982; Fix 1999 for the loss in
        fermentation (the last three as quoted). Bacteria that make DMS are not in it.
    """
    wort = after_stand(after_boil(hot_side, constants), hot_side, constants)
    cooling = Cooling(
        from_c=hot_side.stand_c if hot_side.stand_minutes > 0 else hot_side.boiling_c,
        to_c=hot_side.chilled_to_c,
        coolant_c=coolant_below(hot_side.chilled_to_c, constants),
        minutes=hot_side.chill_minutes,
    )
    cold = after_cooling(wort, cooling, wort_ph=hot_side.wort_ph, constants=constants)
    return cold.dms_ug_per_l * (1 - constants["dms_ferment_loss"] / 100)


def predict_dms_ug_per_l(*, constants: Mapping[str, float], **entries: float) -> float:
    """The same as `dms_ug_per_l`, with the fields of `HotSide` as plain numbers for `spread`.

    Args:
        constants: as for `dms_ug_per_l`.
        **entries: the fields of `HotSide`, every one.

    Returns:
        DMS in the beer [ug/L].

    Raises:
        OutsideValidity: an entry beyond what the sources cover.

    Source: as for `dms_ug_per_l`.
    """
    return dms_ug_per_l(HotSide(**entries), constants)
