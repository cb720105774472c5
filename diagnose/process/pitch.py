"""Yeast at pitching: how many cells are alive, and how many are needed."""

from collections.abc import Mapping
from math import log

import numpy as np

from diagnose.process.kinetics import equivalent_time, log_between
from diagnose.process.validity import require_within
from diagnose.units import HOURS_PER_MONTH, HOURS_PER_WEEK

# Beyond this the loss runs away: 90 % in a month at 40 C, ten times what these rates give.
DRY_C = (-25.0, 30.0)
LIQUID_C = (-2.0, 30.0)
_FRIDGE_C = 4.0
_ROOM_C = 20.0
_MONTHS_PER_YEAR = 12.0
WEEKS_PER_MONTH = HOURS_PER_MONTH / HOURS_PER_WEEK


def living_from_dry_billion(
    yeast_g: float, *, age_months: float, stored_c: float, constants: Mapping[str, float]
) -> float:
    """Living cells in dry yeast.

    Args:
        yeast_g: dry yeast [g].
        age_months: since packing [months].
        stored_c: temperature of the store [C], -25 to 30.
        constants: reads `dry_cells_per_g`, `dry_loss_year_4c`, `dry_loss_year_20c`.

    Returns:
        Living cells [billion].

    Raises:
        OutsideValidity: a store or an age beyond what the source covers.

    Source: practitioner posts (yearly losses at 4 and 20 C, cells per gram). Deviation: read
        between the two on a logarithmic scale, and below 4 C on the same line.
    """
    require_within(stored_c, DRY_C, "dry yeast kept at C")
    require_within(age_months, (0.0, 120.0), "yeast in months of")
    cold = (_FRIDGE_C, _loss_rate(constants["dry_loss_year_4c"]))
    warm = (_ROOM_C, _loss_rate(constants["dry_loss_year_20c"]))
    per_year = float(log_between(np.array([stored_c]), cold, warm)[0])
    alive = float(np.exp(-per_year * age_months / _MONTHS_PER_YEAR))
    return yeast_g * constants["dry_cells_per_g"] * alive


def living_from_liquid_billion(
    packed_billion: float, *, age_months: float, stored_c: float, constants: Mapping[str, float]
) -> float:
    """Living cells left in a liquid pack.

    Args:
        packed_billion: living cells when packed [billion].
        age_months: since packing [months].
        stored_c: temperature of the store [C], -2 to 30.
        constants: reads `liquid_loss_month`, `liquid_yeast_q10`.

    Returns:
        Living cells [billion].

    Raises:
        OutsideValidity: a store or an age beyond what the source covers.

    Source: practitioner posts: 20 to 25 % a month at 4 C by custom, fresh packs nearer 10 %. How
        much faster it goes when warm is a guess (`liquid_yeast_q10`).
    """
    months = _months_in_the_fridge(age_months, stored_c, constants)
    return packed_billion * float((1 - constants["liquid_loss_month"] / 100) ** months)


def living_from_slurry_billion(
    slurry_ml: float, *, age_weeks: float, stored_c: float, constants: Mapping[str, float]
) -> float:
    """Living cells in thick slurry from an earlier batch.

    Args:
        slurry_ml: thick, settled yeast [mL].
        age_weeks: since it was harvested [weeks].
        stored_c: temperature of the store [C], -2 to 30.
        constants: reads `slurry_cells_per_ml`, `slurry_loss_week`, `liquid_yeast_q10`.

    Returns:
        Living cells [billion].

    Raises:
        OutsideValidity: a store or an age beyond what the source covers.

    Source: common practice, no source.
    """
    months = _months_in_the_fridge(age_weeks / WEEKS_PER_MONTH, stored_c, constants)
    alive = (1 - constants["slurry_loss_week"] / 100) ** (months * WEEKS_PER_MONTH)
    return slurry_ml * constants["slurry_cells_per_ml"] * float(alive)


def cells_needed_billion(volume_l: float, extract_p: float, rate_million_per_ml_p: float) -> float:
    """Cells that a wort needs.

    Args:
        volume_l: wort [L], above zero.
        extract_p: its extract [degrees Plato], above 0 and up to 30.
        rate_million_per_ml_p: `pitch_ale` or `pitch_lager` [million cells per mL and degree].

    Returns:
        Living cells wanted [billion].

    Raises:
        OutsideValidity: no wort, or one beyond 1 to 30 degrees Plato.

    Source: the trade's rule as quoted from Fix by practitioners.
    """
    require_within(volume_l, (0.01, 1e6), "a batch of L")
    require_within(extract_p, (1.0, 30.0), "a wort of degrees Plato")
    return rate_million_per_ml_p * volume_l * extract_p


def pitch_ratio(
    *,
    living_billion: float,
    volume_l: float,
    extract_p: float,
    rate_million_per_ml_p: float,
) -> float:
    """Living cells pitched over cells needed.

    Args:
        living_billion: living cells [billion].
        volume_l: wort [L], above zero.
        extract_p: its extract [degrees Plato], 1 to 30.
        rate_million_per_ml_p: as for `cells_needed_billion`.

    Returns:
        Ratio [-]; 1 is just enough.

    Raises:
        OutsideValidity: as for `cells_needed_billion`.

    Source: definition.
    """
    return living_billion / cells_needed_billion(volume_l, extract_p, rate_million_per_ml_p)


def _loss_rate(loss_percent: float) -> float:
    return -log(1 - loss_percent / 100)


def _months_in_the_fridge(
    age_months: float, stored_c: float, constants: Mapping[str, float]
) -> float:
    require_within(stored_c, LIQUID_C, "liquid yeast kept at C")
    require_within(age_months, (0.0, 60.0), "yeast in months of")
    q10 = constants["liquid_yeast_q10"]
    return equivalent_time(age_months, kept_c=stored_c, counted_at_c=_FRIDGE_C, q10=q10)
