"""The brewing water of a batch: its sources mixed, its salts dissolved, part by part."""

from functools import partial
from typing import Final, Literal

from diagnose.batch import NotLogged
from diagnose.batch.ingredients import Salt, Water
from diagnose.evidence.facts import Facts, band_of, sum_of
from diagnose.process import Band
from diagnose.process.dosing import forms_of, mixed_mg_per_l
from diagnose.process.salts import ions_mg_per_l
from diagnose.process.water import alkalinity_ppm, hardness_ppm, residual_alkalinity_ppm
from diagnose.units import Reading

Part = Literal["mash", "sparge", "whole brew"]
PARTS: Final[tuple[Part, ...]] = ("mash", "sparge", "whole brew")

# Which constant holds what water bought or caught as pure still carries of an ion.
_STILL_CARRIES: Final = {
    "distilled": "ion_in_distilled",
    "reverse osmosis": "ion_in_reverse_osmosis",
    "rain": "ion_in_rain",
}
_NOT_BREWING = ("rinse", "sanitiser mix", "starter")
_CHALK = "calcium carbonate"


def waters_of(facts: Facts, part: Part) -> list[Water]:
    """The waters that go into a part of the brew; one noted for all of it goes everywhere."""
    brewing = [water for water in facts.record.water if water.used_for not in _NOT_BREWING]
    if part == "whole brew":
        return brewing
    named = [water for water in brewing if water.used_for == part]
    return named or [
        water
        for water in brewing
        if isinstance(water.used_for, NotLogged) or water.used_for == "all"
    ]


def litres_of(facts: Facts, part: Part) -> Band | None:
    """Litres of water in a part of the brew; the batch's volume for want of any other."""
    mash_water = facts.record.mash.water
    if part == "mash" and isinstance(mash_water, Reading):
        return band_of(mash_water)
    used_for = None if part == "whole brew" else part
    waters = [
        water for water in waters_of(facts, part) if used_for is None or water.used_for == used_for
    ]
    volumes = [band_of(water.volume) for water in waters if isinstance(water.volume, Reading)]
    if volumes and len(volumes) == len(waters):
        return sum_of(volumes)
    batch = facts.record.volume
    return band_of(batch) if part == "whole brew" and isinstance(batch, Reading) else None


def ion_mg_per_l(facts: Facts, ion: str, part: Part = "whole brew") -> Band | None:
    """An ion in the water of a part of the brew, salts and all.

    None where a water's own share is not known, or a salt's weight or whereabouts.
    """
    base, added = supply_mg_per_l(facts, ion, part), salts_mg_per_l(facts, ion, part)
    if base is None or added is None:
        return None
    return Band(base.low + added.low, base.mid + added.mid, base.high + added.high)


def supply_mg_per_l(facts: Facts, ion: str, part: Part) -> Band | None:
    """What the waters bring: mixed by their volumes, else anything from the least to the most."""
    waters = waters_of(facts, part)
    known = [_own_mg_per_l(facts, water, ion) for water in waters]
    bands = [band for band in known if band is not None]
    if not bands or len(bands) < len(known):
        return None
    litres = [band_of(water.volume) for water in waters if isinstance(water.volume, Reading)]
    if len(litres) == len(bands):
        return _mixed(facts, litres, bands)
    mids = sorted(band.mid for band in bands)
    return Band(
        min(band.low for band in bands),
        mids[len(mids) // 2],
        max(band.high for band in bands),
    )


def _mixed(facts: Facts, litres: list[Band], bands: list[Band]) -> Band:
    """An ion in waters mixed; what their reports leave in doubt is taken to go the same way."""
    names = [f"water {index}" for index in range(len(litres))]

    def mixed(*, doubt: float, **litres_of: float) -> float:
        edges = ((band.low, band.mid, band.high)[round(doubt) + 1] for band in bands)
        return mixed_mg_per_l(
            (litres_of[name], edge) for name, edge in zip(names, edges, strict=True)
        )

    return facts.model(
        mixed, doubt=Band(-1.0, 0.0, 1.0), **dict(zip(names, litres, strict=True))
    ).kept_within(0.0, 1e7)


def _own_mg_per_l(facts: Facts, water: Water, ion: str) -> Band | None:
    reading = getattr(water, ion)
    if isinstance(reading, Reading):
        return facts.read_times(reading, "water_report_scale")
    pure = _STILL_CARRIES.get(str(water.source))
    return facts.constants[pure] if pure else None


def salts_mg_per_l(facts: Facts, ion: str, part: Part) -> Band | None:
    """What the salts bring; None where one cannot be reckoned."""
    total = Band(0.0, 0.0, 0.0)
    if not facts.record.salts:
        return total
    water_l = litres_of(facts, part)
    for salt in facts.record.salts:
        if part != "whole brew" and isinstance(salt.into, NotLogged):
            return None
        if part not in ("whole brew", salt.into):
            continue
        rise = salt_mg_per_l(facts, salt, ion, water_l) if water_l else None
        if rise is None:
            return None
        total = Band(total.low + rise.low, total.mid + rise.mid, total.high + rise.high)
    return total


def salt_mg_per_l(facts: Facts, salt: Salt, ion: str, water_l: Band) -> Band | None:
    """What one salt adds of one ion, over every form it may have and the scale's error."""
    if isinstance(salt.amount, NotLogged) or isinstance(salt.salt, NotLogged):
        return None
    amount, step = salt.amount, salt.scale_step
    if isinstance(step, Reading):
        weighed = band_of(amount, Band(-step.value / 2.0, 0.0, step.value / 2.0))
    else:
        weighed = facts.read_times(amount, "salt_weight_scale")
    weighed = weighed.kept_within(0.0, 1e4)
    rises = [_rise(facts, form, ion, (weighed, water_l)) for form in forms_of(salt.salt)]
    low, high = min(rise.low for rise in rises), max(rise.high for rise in rises)
    return Band(low, sum(rise.mid for rise in rises) / len(rises), high)


def _rise(facts: Facts, form: str, ion: str, dose: tuple[Band, Band]) -> Band:
    (weighed, water_l), ions = dose, partial(ions_mg_per_l, form)
    dissolved = facts.constants["chalk_dissolved"] if form == _CHALK else Band(1.0, 1.0, 1.0)
    return facts.model(
        lambda *, constants, salt_g, water_l, share: (
            share * ions(salt_g=salt_g, water_l=water_l, constants=constants).get(ion, 0.0)
        ),
        salt_g=weighed,
        water_l=water_l,
        share=dissolved,
    ).kept_within(0.0, 1e7)


def residual_alkalinity(facts: Facts, part: Part) -> Band | None:
    """Residual alkalinity of a part of the brew [ppm as CaCO3]; None where an ion is not known."""
    ions = {
        f"{ion}_mg_per_l": ion_mg_per_l(facts, ion, part)
        for ion in ("calcium", "magnesium", "bicarbonate")
    }
    known = {name: band for name, band in ions.items() if band is not None}
    if len(known) < len(ions):
        return None
    return facts.model(
        lambda *, constants, calcium_mg_per_l, magnesium_mg_per_l, bicarbonate_mg_per_l: (
            residual_alkalinity_ppm(
                alkalinity_ppm=alkalinity_ppm(bicarbonate_mg_per_l, constants),
                calcium_ppm=hardness_ppm("calcium", calcium_mg_per_l, constants),
                magnesium_ppm=hardness_ppm("magnesium", magnesium_mg_per_l, constants),
                constants=constants,
            )
        ),
        **known,
    )
