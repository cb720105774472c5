"""The mash: how fermentable the wort comes out, and whether the malt can convert it."""

from collections.abc import Mapping

import numpy as np

from diagnose.process.validity import require_within

MASH_C = (60.0, 80.0)
_NODES_C = (65.0, 70.0, 75.0, 80.0)


def mash_attenuation_percent(mash_c: float, constants: Mapping[str, float]) -> float:
    """Apparent attenuation of a wort from one long rest, with lager yeast.

    Args:
        mash_c: temperature of the rest [C], 60 to 80.
        constants: reads `aa_65c`, `aa_70c`, `aa_75c`, `aa_80c`.

    Returns:
        Apparent attenuation [%]; flat from 60 to 65 C, around the optimum of 62.5 C.

    Raises:
        OutsideValidity: a rest beyond those limits.

    Source: one set of laboratory mashes (Chandrasekhar, as quoted in a blog of 2014), read
        straight between its points; Hamilton, Lewis 1974, MBAA Tech Q 11:31 for the optimum.
        Deviation: a rest at 60 to 62 C converts slowly, which is left to the mash time.
    """
    require_within(mash_c, MASH_C, "a mash at C")
    at_nodes = [constants[f"aa_{node:.0f}c"] for node in _NODES_C]
    return float(np.interp(mash_c, _NODES_C, at_nodes))


def grist_correction_points(
    *,
    mash_minutes: float,
    dextrin_malt_percent: float,
    sugar_percent: float,
    constants: Mapping[str, float],
) -> float:
    """What a short mash, dextrin malt and sugar do to the attenuation.

    Args:
        mash_minutes: length of the rest [min], above zero; nothing is gained past an hour.
        dextrin_malt_percent: crystal or dextrin malt in the grist [%], 0 to 60.
        sugar_percent: sugar in the extract [%], 0 to 60.
        constants: reads `aa_half_hour_loss`, `aa_per_10_dextrin`, `aa_per_10_sugar`.

    Returns:
        Change [points of apparent attenuation].

    Raises:
        OutsideValidity: a share or a rest beyond those limits.

    Source: common practice, no source.
    """
    require_within(mash_minutes, (15.0, 24 * 60.0), "a mash of min")
    require_within(dextrin_malt_percent, (0.0, 60.0), "a share of crystal malt of %")
    require_within(sugar_percent, (0.0, 60.0), "a share of sugar of %")
    missing_half_hours = max(0.0, 60.0 - mash_minutes) / 30.0
    return (
        constants["aa_half_hour_loss"] * missing_half_hours
        + constants["aa_per_10_dextrin"] * dextrin_malt_percent / 10
        + constants["aa_per_10_sugar"] * sugar_percent / 10
    )


def expected_attenuation_percent(
    *,
    yeast_percent: float,
    mash_c: float,
    correction_points: float,
    constants: Mapping[str, float],
) -> float:
    """Apparent attenuation to expect of a yeast in a given wort.

    Args:
        yeast_percent: what the yeast family does in an ordinary wort [%].
        mash_c: temperature of the main rest [C], 60 to 80.
        correction_points: from `grist_correction_points` [points], else 0.
        constants: reads `ordinary_mash_c` besides those of `mash_attenuation_percent`.

    Returns:
        Apparent attenuation [%]; good to four points.

    Raises:
        OutsideValidity: a rest beyond what the source covers.

    Source: the curve of `mash_attenuation_percent`. Deviation: only its shape is used, scaled
        to the yeast family at an ordinary mash, since it was measured with one lager yeast.
    """
    here = mash_attenuation_percent(mash_c, constants)
    ordinary = mash_attenuation_percent(constants["ordinary_mash_c"], constants)
    return yeast_percent * here / ordinary + correction_points


def diastatic_power_lintner(
    malts: Mapping[str, tuple[float, float]],
) -> float:
    """Mean enzyme power of what is in the mash.

    Args:
        malts: for each malt its mass [kg] and its power [degrees Lintner].

    Returns:
        Mean power [degrees Lintner].

    Raises:
        OutsideValidity: no malt.

    Source: Oxford Companion to Beer 2012; weighted mean as on shop pages.
    """
    total_kg = sum(mass_kg for mass_kg, _ in malts.values())
    require_within(total_kg, (1e-6, 1e6), "a mash with malt of kg")
    return sum(mass_kg * power for mass_kg, power in malts.values()) / total_kg


def lintner_from_windisch_kolbach(units_wk: float) -> float:
    """Enzyme power on the Lintner scale from the Windisch-Kolbach scale.

    Args:
        units_wk: power [Windisch-Kolbach units].

    Returns:
        Power [degrees Lintner].

    Source: Oxford Companion to Beer 2012.
    """
    return (units_wk + 16) / 3.5
