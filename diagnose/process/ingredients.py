"""Malt extract and malt: how far through their keeping time they are."""

from collections.abc import Mapping

from diagnose.process.kinetics import equivalent_time
from diagnose.process.validity import require_within

STORE_C = (-25.0, 45.0)
_REFERENCE_C = 20.0
_MONTHS = (0.0, 240.0)

# Which constant holds the keeping time, by what the ingredient is.
SHELF_BY_KIND = {
    "liquid extract": "lme_shelf_months",
    "dry extract": "dme_shelf_months",
    "whole malt": "whole_malt_months",
    "crushed malt": "crushed_malt_months",
    "roasted malt": "roast_malt_months",
}


def months_at_20c(months: float, stored_c: float, constants: Mapping[str, float]) -> float:
    """How many months at 20 C a stay of malt extract is worth.

    Args:
        months: length of the stay [months].
        stored_c: temperature of the store [C], -25 to 45.
        constants: reads `extract_q10`.

    Returns:
        Equivalent months [months at 20 C].

    Raises:
        OutsideValidity: a store or a length beyond those limits.

    Source: Q10 of 3 (2 to 4) from memory; the growth of furans in beer (Ferreira et al 2022,
        LWT 154:112688) would imply 4.5.
    """
    require_within(stored_c, STORE_C, "a store at C")
    require_within(months, _MONTHS, "an age in months of")
    return equivalent_time(
        months, kept_c=stored_c, counted_at_c=_REFERENCE_C, q10=constants["extract_q10"]
    )


def extract_age_fraction(
    *,
    months_sealed: float,
    months_open: float,
    stored_c: float,
    shelf_months: float,
    constants: Mapping[str, float],
) -> float:
    """How far through its keeping time a malt extract is.

    Args:
        months_sealed: from packing to opening [months].
        months_open: from opening to use [months].
        stored_c: temperature of the store [C], -25 to 45.
        shelf_months: keeping time of the sealed pack [months], see `SHELF_BY_KIND`.
        constants: reads `extract_open_wear`, `extract_q10`.

    Returns:
        Age over keeping time [-]; 1 is the end of the shelf life.

    Raises:
        OutsideValidity: a store or a length beyond those limits, or no keeping time.

    Source: keeping times from an association page and a maker's literature (as quoted) and
        Palmer, How to Brew; the faster wear once opened is common practice.
    """
    require_within(shelf_months, (0.1, 240.0), "a keeping time in months of")
    counted = months_sealed + constants["extract_open_wear"] * months_open
    return months_at_20c(counted, stored_c, constants) / shelf_months


def malt_age_fraction(months: float, shelf_months: float) -> float:
    """How far through its keeping time a malt is.

    Args:
        months: age [months].
        shelf_months: keeping time when dry and below 32 C [months], see `SHELF_BY_KIND`.

    Returns:
        Age over keeping time [-].

    Raises:
        OutsideValidity: an age below zero or beyond twenty years, or no keeping time.

    Source: an association page (as quoted); in a trial over 12 months heat and moisture told
        most (2014, J Inst Brew, doi 10.1002/jib.144), but no rate by temperature is given, so
        none is used.
    """
    require_within(months, _MONTHS, "an age in months of")
    require_within(shelf_months, (0.1, 240.0), "a keeping time in months of")
    return months / shelf_months


def liquid_for_dry_kg(dry_extract_kg: float, constants: Mapping[str, float]) -> float:
    """Liquid extract that does the work of an amount of dry extract.

    Args:
        dry_extract_kg: dry extract [kg].
        constants: reads `dme_solids`, `lme_solids`.

    Returns:
        Liquid extract [kg].

    Source: solids of 97 % and 80 % as makers state them.
    """
    return dry_extract_kg * constants["dme_solids"] / constants["lme_solids"]
