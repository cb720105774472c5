"""Measures of packaging and storage: oxygen, age, light, gas."""

from collections.abc import Mapping

import numpy as np

from diagnose.batch import NotLogged, hours_between, resolved
from diagnose.batch.cellar import Storage
from diagnose.evidence.facts import Facts, band_of, days_text, over, point, widened
from diagnose.evidence.finding import Finding
from diagnose.process import Band
from diagnose.process.light import BRIGHTNESS_BY_LIGHT, FACTOR_BY_GLASS
from diagnose.process.light import light_dose_klux_h as dose_of
from diagnose.process.oxygen import PICKUP_BY_FILL
from diagnose.process.oxygen import packaged_oxygen_mg_per_l as oxygen_of
from diagnose.process.staling import storage_days_at_20c as stored_days
from diagnose.units import HOURS_PER_DAY, Field, Reading, show

_ML_PER_L = 1000.0
# Yeast in a primed package takes 30 to 90 % of the oxygen (common practice, no source).
_LEFT_BY_BOTTLE_YEAST = Band(0.1, 0.4, 0.7)
# Empty room over a fill, as a share of the package; practice for bottle and keg.
_USUAL_HEADSPACE = {
    "bottle": Band(0.03, 0.05, 0.08),
    "can": Band(0.02, 0.03, 0.05),
    "keg": Band(0.02, 0.05, 0.15),
    "cask": Band(0.02, 0.05, 0.10),
}


def packaged_oxygen_mg_per_l(facts: Facts) -> Finding | None:
    """Oxygen picked up in filling and left in the headspace, per litre of beer."""
    packaging = facts.record.packaging
    dissolved = _dissolved(facts)
    if dissolved is None or isinstance(packaging.package, NotLogged):
        return None
    share = _USUAL_HEADSPACE[packaging.package]
    if isinstance(packaging.headspace, Reading) and isinstance(packaging.size, Reading):
        room = over(packaging.headspace, packaging.size)
        times = facts.constants["headspace_scale"]
        share = Band(times.low * room.low, room.mid, times.high * room.high)
    headspace = Band(*(_ML_PER_L * part for part in (share.low, share.mid, share.high)))
    band = facts.model(
        oxygen_of,
        dissolved_mg_per_l=dissolved,
        headspace_ml=headspace,
        beer_l=point(1.0),
        air_left_share=_air_left(facts),
    ).kept_within(0.0, 100.0)
    band = _after_bottle_yeast(facts, band)
    purged = {"yes": "purged", "no": "not purged"}.get(str(packaging.purged), "purge not logged")
    fill = packaging.fill if isinstance(packaging.fill, str) else "fill not logged"
    says = (
        f"{packaging.package}, {fill}, {purged}: about {band.mid:.1f} mg/L of oxygen for the beer"
    )
    return facts.number("packaged_oxygen_mg_per_l", band, says, ("packaging",))


def _after_bottle_yeast(facts: Facts, packed: Band) -> Band:
    """What is left for the beer once the yeast of a primed package has taken its part."""
    sugar, share = facts.record.packaging.sugar, _LEFT_BY_BOTTLE_YEAST
    if sugar == "none" or (isinstance(sugar, NotLogged) and not _is_usually_primed(facts)):
        return packed
    if isinstance(sugar, NotLogged):
        return Band(packed.low * share.low, packed.mid, packed.high)
    return Band(packed.low * share.low, packed.mid * share.mid, packed.high * share.high)


def _is_usually_primed(facts: Facts) -> bool:
    return facts.record.packaging.package in ("bottle", "cask")


def _dissolved(facts: Facts) -> Band | None:
    packaging = facts.record.packaging
    if isinstance(packaging.dissolved_oxygen, Reading):
        return facts.read(packaging.dissolved_oxygen, "beer_oxygen_error")
    if isinstance(packaging.fill, str):
        return facts.constants[PICKUP_BY_FILL[packaging.fill]]
    return None


def _air_left(facts: Facts) -> Band:
    purged = facts.record.packaging.purged
    unpurged, clean = facts.constants["air_left_unpurged"], facts.constants["air_left_purged"]
    if isinstance(purged, NotLogged):
        return Band(clean.low, 0.5 * (clean.mid + unpurged.mid), unpurged.high)
    return clean if purged == "yes" else unpurged


def days_since_packaging(facts: Facts) -> Finding | None:
    """Days in the package up to the last tasting."""
    packaged, tasted = facts.timeline.packaged, facts.timeline.last_tasted
    if packaged is None or tasted is None or tasted < packaged:
        return None
    days = hours_between(packaged, tasted) / HOURS_PER_DAY
    says = f"tasted {days_text(days)} after packaging"
    return facts.number("days_since_packaging", point(days), says, ("tastings",))


def storage_days_at_20c(facts: Facts) -> Finding | None:
    """Days in the package, counted at 20 C, over every stretch of storage."""
    stretches = storage_stretches(facts)
    if not stretches:
        return None
    store_c = np.repeat([kept_c for _, kept_c in stretches], 2)

    def model(*, constants: Mapping[str, float], shift_c: float, **hours_of: float) -> float:
        ends = np.cumsum([hours_of[key] for key in lengths])
        hours = np.repeat(np.concatenate([[0.0], ends]), 2)[1:-1]
        return stored_days(hours, store_c, shift_c=shift_c, constants=constants)

    lengths = {f"stretch {index}": hours for index, (hours, _) in enumerate(stretches)}
    band = facts.model(model, shift_c=store_shift_c(facts), **lengths)
    days = sum(hours.mid for hours, _ in stretches) / HOURS_PER_DAY
    mean_c = sum(hours.mid * kept for hours, kept in stretches) / (days * HOURS_PER_DAY)
    says = (
        f"stored {days_text(days)} at {show(mean_c, Field.TEMPERATURE)} on average, "
        f"worth {days_text(band.mid)} at 20 C"
    )
    return facts.number("storage_days_at_20c", band, says, ("storage",))


def storage_stretches(facts: Facts) -> list[tuple[Band, float]]:
    """Length [h] and temperature [C] of every stretch of storage, one after the other.

    None at all where a stretch has no temperature or no length: a part is not the whole.
    """
    stretches: list[tuple[Band, float]] = []
    for index, stretch in enumerate(facts.record.storage):
        hours = _length_hours(facts, index)
        if isinstance(stretch.at, NotLogged) or hours is None:
            return []
        if hours.mid > 0.0:
            stretches.append((hours, stretch.at.value))
    return stretches


def store_shift_c(facts: Facts) -> Band:
    """How far a store may be from what was noted of it [C]."""
    noted = (stretch.at for stretch in facts.record.storage)
    return widened(
        facts.constants["store_error"], [one for one in noted if isinstance(one, Reading)]
    )


def _length_hours(facts: Facts, index: int) -> Band | None:
    """How long a stretch lasted: as noted, else to the next stretch or the last tasting."""
    storage = facts.record.storage
    noted = storage[index].time
    if isinstance(noted, Reading):
        return band_of(noted)
    start = resolved(facts.record, storage[index].since)
    if start is None and index == 0:
        start = facts.timeline.packaged
    following = [resolved(facts.record, stretch.since) for stretch in storage[index + 1 :]]
    ends = [when for when in (*following, facts.timeline.last_tasted) if when is not None]
    return point(hours_between(start, ends[0])) if start is not None and ends else None


def light_dose_klux_h(facts: Facts) -> Finding | None:
    """Light that reached the beer through its glass."""
    total, said = Band(0.0, 0.0, 0.0), []
    for index, stretch in enumerate(facts.record.storage):
        if isinstance(stretch.light, NotLogged):
            continue
        hours = _light_hours(facts, stretch, _length_hours(facts, index))
        dose = _dose(facts, stretch.light, hours) if hours is not None else None
        if dose is None:
            return None
        total = Band(total.low + dose.low, total.mid + dose.mid, total.high + dose.high)
        said.append(stretch.light)
    # Dark as far as it is noted says nothing of a stretch without a note of the light.
    if not said or (total.high == 0.0 and len(said) < len(facts.record.storage)):
        return None
    glass = facts.record.packaging.glass
    holder = f"{glass} glass" if isinstance(glass, str) and glass != "none" else "no glass"
    places = ", ".join("the dark" if one == "dark" else one for one in dict.fromkeys(said))
    says = f"stood in {places}, {holder}: about {total.mid:.1f} klux h"
    return facts.number("light_dose_klux_h", total, says, ("storage",))


def _light_hours(facts: Facts, stretch: Storage, stayed: Band | None) -> Band | None:
    if stretch.light == "dark":
        return point(0.0)
    if isinstance(stretch.light_time, Reading):
        return facts.read_times(stretch.light_time, "light_time_scale")
    # Without a note of the hours, a lit place is lit for a third of the stay, give or take.
    if stayed is None or stayed.mid < 0.0:
        return None
    return Band(0.1 * stayed.low, 0.33 * stayed.mid, 0.5 * stayed.high)


def _dose(facts: Facts, light: str, hours: Band) -> Band | None:
    packaging = facts.record.packaging
    glass = packaging.glass
    if isinstance(glass, NotLogged):
        glass = "none" if packaging.package in ("keg", "can", "cask") else glass
    if light == "dark" or glass == "none":
        return point(0.0)
    if isinstance(glass, NotLogged):
        return None
    return facts.model(
        dose_of,
        brightness_lux=facts.constants[BRIGHTNESS_BY_LIGHT[light]],
        hours=hours,
        glass_factor=facts.constants[FACTOR_BY_GLASS[glass]],
    )
