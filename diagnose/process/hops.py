"""Hop ageing: how much of the alpha acid is left."""

from collections.abc import Mapping
from math import exp, log, log10

from diagnose.process.validity import require_within

STORE_C = (-40.0, 25.0)
_COLDEST_C = -20.0
_HALF_A_YEAR_DAYS = 180.0
_REFERENCE_C = 20.0

# Which constant holds the package factor, by the record's word for the pack.
PACK_FACTOR = {
    "vacuum foil": "hop_sf_vacuum_barrier",
    "airtight": "hop_sf_airtight",
    "open": "hop_sf_open",
}


def loss_rate_per_day(half_year_loss_percent: float) -> float:
    """How fast a hop loses alpha acid, from what it loses in half a year.

    Args:
        half_year_loss_percent: loss in 180 days at 20 C in the open [%], 0 to 95.

    Returns:
        Rate [1/d].

    Raises:
        OutsideValidity: a loss beyond those limits.

    Source: Garetz 1994, Brewing Techniques 2(1). The printed formula divides by 100 times the
        loss; it must be 100 minus the loss, and is so here.
    """
    require_within(half_year_loss_percent, (0.0, 95.0), "a loss in half a year of %")
    return -log(1 - half_year_loss_percent / 100) / _HALF_A_YEAR_DAYS


def cold_factor(stored_c: float, constants: Mapping[str, float]) -> float:
    """How much a cold store slows the loss.

    Args:
        stored_c: temperature of the store [C], -40 to 25; colder than -20 counts as -20.
        constants: reads `hop_halving_dt`.

    Returns:
        Speed against 20 C [-].

    Raises:
        OutsideValidity: a store beyond those limits.

    Source: Garetz 1994, Brewing Techniques 2(1): halved for every 15 C less.
    """
    require_within(stored_c, STORE_C, "a hop store at C")
    counted_c = max(stored_c, _COLDEST_C)
    return float(2 ** ((counted_c - _REFERENCE_C) / constants["hop_halving_dt"]))


def alpha_left_percent(
    *,
    days: float,
    stored_c: float,
    pack_factor: float,
    half_year_loss_percent: float,
    constants: Mapping[str, float],
) -> float:
    """Share of the alpha acid on the label that is still there.

    Args:
        days: age of the hops [d].
        stored_c: temperature of the store [C], -40 to 25.
        pack_factor: how fast in this pack against the open air [-], see `PACK_FACTOR`.
        half_year_loss_percent: keeping quality of the variety [%]: `hop_loss6_good`,
            `hop_loss6_typical` or `hop_loss6_poor`.
        constants: as for `cold_factor`.

    Returns:
        Alpha acid left [% of what there was]; says nothing about aroma.

    Raises:
        OutsideValidity: a store, loss or age beyond what the source covers.

    Source: Garetz 1994, Brewing Techniques 2(1), after Skinner et al 1977, J Inst Brew 83:290
        and Green 1978, J Inst Brew 84:312.
    """
    require_within(days, (0.0, 3650.0), "hops of days")
    per_day = loss_rate_per_day(half_year_loss_percent) * cold_factor(stored_c, constants)
    return 100 * exp(-per_day * pack_factor * days)


def loss_from_index_percent(storage_index: float, constants: Mapping[str, float]) -> float:
    """Alpha and beta acid lost, from the hop storage index.

    Args:
        storage_index: absorbance at 275 over that at 325 nm [-], 0.2 to 2.5.
        constants: reads `hsi_slope`, `hsi_fresh_constant`.

    Returns:
        Loss [%]; below zero for hops fresher than the index's own zero.

    Raises:
        OutsideValidity: an index beyond those limits.

    Source: Nickerson, Likens 1979, J Am Soc Brew Chem 37:184.
    """
    require_within(storage_index, (0.2, 2.5), "a storage index of")
    return constants["hsi_slope"] * log10(storage_index / constants["hsi_fresh_constant"])
