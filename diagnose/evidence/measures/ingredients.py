"""Measures of how old the ingredients were, and of the dry hops."""

from datetime import datetime

from diagnose.batch import NotLogged, hours_between, resolved
from diagnose.batch.ingredients import Fermentable, Hop, Kept
from diagnose.evidence.facts import (
    BATCH_VOLUME,
    Facts,
    band_of,
    band_times,
    covered,
    days_text,
    point,
    sum_of,
)
from diagnose.evidence.finding import Finding, NumberFinding
from diagnose.process import Band
from diagnose.process.hops import PACK_FACTOR, alpha_left_percent
from diagnose.process.hops import STORE_C as HOP_STORE_C
from diagnose.process.ingredients import SHELF_BY_KIND
from diagnose.process.ingredients import STORE_C as EXTRACT_STORE_C
from diagnose.process.ingredients import extract_age_fraction as fraction_of
from diagnose.units import HOURS_PER_DAY, HOURS_PER_MONTH, Field, Reading, show

_USUAL_CUPBOARD = Band(15.0, 20.0, 25.0)
_USUAL_HOP_STORE = Band(-18.0, 4.0, 20.0)
_MALTS = ("base malt", "lager malt", "wheat malt", "munich malt", "crystal malt", "rye malt")


def extract_age_fraction(facts: Facts) -> Finding | None:
    """Age of the oldest extract over its keeping time."""
    found = [
        _extract_age(facts, index, item)
        for index, item in enumerate(facts.record.recipe.fermentables)
        if item.kind in ("liquid extract", "dry extract")
    ]
    return max((one for one in found if one), key=lambda one: one.band.mid, default=None)


def _extract_age(facts: Facts, index: int, item: Fermentable) -> NumberFinding | None:
    months = _age_months(facts, item)
    if months is None:
        return None
    opened, brewed = resolved(facts.record, item.opened), facts.timeline.brewed
    months_open = hours_between(opened, brewed) / HOURS_PER_MONTH if opened and brewed else 0.0
    kept = _kept_c(facts, item, _USUAL_CUPBOARD)
    sealed = Band(*(max(edge - months_open, 0.0) for edge in (months.low, months.mid, months.high)))
    band = facts.model(
        fraction_of,
        months_sealed=sealed,
        months_open=point(max(months_open, 0.0)),
        stored_c=covered(kept, *EXTRACT_STORE_C),
        shelf_months=facts.constants[SHELF_BY_KIND[str(item.kind)]],
    )
    says = (
        f"{item.kind} {_old(months)}, kept at {show(kept.mid, Field.TEMPERATURE)}: "
        f"{band.mid:.1f} of its keeping time"
    )
    path = ("recipe", "fermentables", index)
    return facts.number("extract_age_fraction", band, says, path)


def malt_age_months(facts: Facts) -> Finding | None:
    """Age of the oldest malt."""
    ages = [
        (months, index)
        for index, item in enumerate(facts.record.recipe.fermentables)
        if item.kind in _MALTS and (months := _age_months(facts, item)) is not None
    ]
    if not ages:
        return None
    months, index = max(ages, key=lambda one: one[0].mid)
    says = f"oldest malt {_old(months)}"
    return facts.number("malt_age_months", months, says, ("recipe", "fermentables", index))


def crushed_malt_months(facts: Facts) -> Finding | None:
    """How long ago the malt was crushed."""
    ages = []
    for index, item in enumerate(facts.record.recipe.fermentables):
        if isinstance(item.kind, str) and not item.kind.endswith("malt"):
            continue
        crushed, brewed = resolved(facts.record, item.crushed), facts.timeline.brewed
        if isinstance(item.crushed_age, Reading):
            ages.append((_in_months(item.crushed_age), index))
        elif crushed is not None and brewed is not None:
            ages.append((point(max(hours_between(crushed, brewed) / HOURS_PER_MONTH, 0.0)), index))
    if not ages:
        return None
    months, index = max(ages, key=lambda one: one[0].mid)
    says = f"crushed {show(months.mid * HOURS_PER_MONTH, Field.DURATION)} before brewing"
    return facts.number("crushed_malt_months", months, says, ("recipe", "fermentables", index))


def _age_months(facts: Facts, item: Kept) -> Band | None:
    if isinstance(item.age, Reading):
        return _in_months(item.age)
    packed, brewed = resolved(facts.record, item.packed), facts.timeline.brewed
    if packed is None or brewed is None:
        return None
    return point(max(hours_between(packed, brewed) / HOURS_PER_MONTH, 0.0))


def _kept_c(facts: Facts, item: Kept, usual: Band) -> Band:
    stored_at = item.stored_at
    return facts.read(stored_at, "store_error") if isinstance(stored_at, Reading) else usual


def _old(months: Band) -> str:
    return f"{show(months.mid * HOURS_PER_MONTH, Field.DURATION)} old"


def _in_months(age: Reading) -> Band:
    return band_times(age, 1.0 / HOURS_PER_MONTH)


def hop_alpha_left_percent(facts: Facts) -> Finding | None:
    """Alpha acid left in the worst-kept hops, as a sign of how stale they are."""
    found = [_alpha_left(facts, index, hop) for index, hop in enumerate(facts.record.recipe.hops)]
    return min((one for one in found if one), key=lambda one: one.band.mid, default=None)


def _alpha_left(facts: Facts, index: int, hop: Hop) -> NumberFinding | None:
    months = _age_months(facts, hop)
    if months is None:
        return None
    days = Band(
        *(e * HOURS_PER_MONTH / HOURS_PER_DAY for e in (months.low, months.mid, months.high))
    )
    kept = _kept_c(facts, hop, _USUAL_HOP_STORE)
    if isinstance(hop.pack, NotLogged):
        tightest, usual = (
            facts.constants["hop_sf_vacuum_barrier"],
            facts.constants["hop_sf_airtight"],
        )
        pack = Band(tightest.mid, usual.mid, facts.constants["hop_sf_open"].mid)
    else:
        pack = facts.constants[PACK_FACTOR[hop.pack]]
    loss = facts.constants["hop_loss6_typical"]
    band = facts.model(
        alpha_left_percent,
        days=days,
        stored_c=covered(kept, *HOP_STORE_C),
        pack_factor=pack,
        half_year_loss_percent=loss,
    ).kept_within(0.0, 100.0)
    says = (
        f"hops {_old(months)}, kept at {show(kept.mid, Field.TEMPERATURE)}: "
        f"about {band.mid:.0f} % of their alpha acid left"
    )
    return facts.number("hop_alpha_left_percent", band, says, ("recipe", "hops", index))


def dry_hop_days(facts: Facts) -> Finding | None:
    """Longest stay of a dry hop in the beer."""
    packaged = facts.timeline.packaged
    stays = []
    for index, hop in enumerate(facts.record.recipe.hops):
        if hop.use != "dry hop":
            continue
        noted = _stay_days(facts, hop, packaged)
        if noted is not None:
            stays.append((noted, index))
    if not stays:
        return None
    stay, index = max(stays, key=lambda one: (one[0].mid, one[1]))
    days, error = stay.mid, facts.constants["days_error"]
    says = f"dry hops in the beer for {days_text(days)}"
    low, high = min(stay.low, days + error.low), max(stay.high, days + error.high)
    band = Band(max(low, 0.0), days, high)
    return facts.number("dry_hop_days", band, says, ("recipe", "hops", index))


def _stay_days(facts: Facts, hop: Hop, packaged: datetime | None) -> Band | None:
    if isinstance(hop.steeped, Reading):
        return band_times(hop.steeped, 1.0 / HOURS_PER_DAY)
    added = resolved(facts.record, hop.added)
    if added is None or packaged is None:
        return None
    return point(max(hours_between(added, packaged) / HOURS_PER_DAY, 0.0))


def dry_hop_g_per_l(facts: Facts) -> Finding | None:
    """All dry hops by weight over the volume of beer they lay in.

    That is the batch: what was packaged is less by the hops' own loss, or only a part of it.
    """
    batch = facts.record.volume
    volume = batch if isinstance(batch, Reading) else facts.record.packaging.volume
    amounts = [hop.amount for hop in facts.record.recipe.hops if hop.use == "dry hop"]
    weighed = [amount for amount in amounts if isinstance(amount, Reading)]
    if not amounts or len(weighed) < len(amounts) or isinstance(volume, NotLogged):
        return None
    low, mid, high = _edges(sum_of([band_of(one) for one in weighed]))
    times = facts.constants["hop_weight_scale"]
    band = facts.model(
        lambda *, hops_g, beer_l: float(hops_g / beer_l),
        hops_g=Band(max(low + (times.low - 1.0) * mid, 0.0), mid, high + (times.high - 1.0) * mid),
        beer_l=facts.read_times(volume, BATCH_VOLUME),
    )
    says = f"{mid:.0f} g of dry hops in {show(volume, Field.VOLUME)}: {band.mid:.1f} g/L"
    return facts.number("dry_hop_g_per_l", band, says, ("recipe", "hops"))


def _edges(band: Band) -> tuple[float, float, float]:
    return band.low, band.mid, band.high
