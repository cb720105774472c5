"""Measures of the yeast and air at pitching, and of the attenuation that came of it."""

from collections.abc import Mapping

from diagnose.batch import NotLogged, hours_between, resolved
from diagnose.evidence.facts import (
    BATCH_VOLUME,
    HYDROMETER,
    THERMOMETER,
    Facts,
    band_of,
    band_times,
    covered,
    point,
)
from diagnose.evidence.finding import Finding
from diagnose.evidence.measures.hot_side import main_rest
from diagnose.evidence.measures.late_food import points_fed_late
from diagnose.evidence.measures.unfermentable import points_that_stay, unfermentable_points
from diagnose.process import Band
from diagnose.process.aeration import SHARE_BY_METHOD
from diagnose.process.aeration import oxygen_at_pitch_mg_per_l as oxygen_of
from diagnose.process.attenuation import (
    alcohol_by_volume_percent,
    alcohol_by_weight_percent,
    fermentable_attenuation_percent,
)
from diagnose.process.mash import MASH_C, expected_attenuation_percent
from diagnose.process.pitch import (
    DRY_C,
    LIQUID_C,
    WEEKS_PER_MONTH,
    living_from_dry_billion,
    living_from_liquid_billion,
    living_from_slurry_billion,
)
from diagnose.process.pitch import pitch_ratio as ratio_of
from diagnose.units import HOURS_PER_MONTH, Reading, plato_from_gravity

_USUAL_STORE = Band(2.0, 4.0, 8.0)
_USUAL_ROOM_WORT = Band(16.0, 20.0, 24.0)


def pitch_ratio(facts: Facts) -> Finding | None:
    """Living cells over cells needed."""
    living, original = _living_billion(facts), facts.record.gravity.original
    volume, yeast = facts.record.volume, facts.beer.yeast
    if living is None or isinstance(original, NotLogged) or isinstance(volume, NotLogged):
        return None
    rate = facts.constants["pitch_lager" if yeast and yeast.id == "lager" else "pitch_ale"]
    band = facts.model(
        ratio_of,
        living_billion=living,
        volume_l=facts.read_times(volume, BATCH_VOLUME),
        extract_p=_plato(facts, original),
        rate_million_per_ml_p=rate,
    )
    kind = "lager" if yeast and yeast.id == "lager" else "ale"
    times = f"{band.mid:.1f}" if band.mid >= 1.0 else f"{band.mid:.2f}"
    says = f"about {living.mid:.0f} billion living cells, {times} times what {kind} wort needs"
    return facts.number("pitch_ratio", band, says, ("pitch", "yeast"))


def _plato(facts: Facts, original: Reading) -> Band:
    band = facts.read(original, HYDROMETER)
    return Band(*(plato_from_gravity(edge) for edge in (band.low, band.mid, band.high)))


def _living_billion(facts: Facts) -> Band | None:
    yeast = facts.record.pitch.yeast
    if isinstance(yeast.cells, Reading) and isinstance(yeast.form, NotLogged):
        return facts.read_times(yeast.cells, "cell_count_scale")
    months = _age_months(facts)
    if months is None:
        return None
    stored_at, usual = yeast.stored_at, _USUAL_STORE
    kept = facts.read(stored_at, "yeast_store_error") if isinstance(stored_at, Reading) else usual
    return _from_pack(facts, months, kept)


def _from_pack(facts: Facts, months: Band, store: Band) -> Band | None:
    yeast = facts.record.pitch.yeast
    if yeast.form == "dry" and isinstance(yeast.amount, Reading):
        return facts.model(
            living_from_dry_billion,
            yeast_g=band_of(yeast.amount),
            age_months=months,
            stored_c=covered(store, *DRY_C),
        )
    store = covered(store, *LIQUID_C)
    if yeast.form == "liquid" and isinstance(yeast.cells, Reading):
        cells = band_of(yeast.cells)
        return facts.model(
            living_from_liquid_billion, packed_billion=cells, age_months=months, stored_c=store
        )
    if yeast.form == "slurry" and isinstance(yeast.volume, Reading):
        poured = band_times(yeast.volume, 1000.0)
        weeks = Band(*(edge * WEEKS_PER_MONTH for edge in (months.low, months.mid, months.high)))
        times = facts.constants["slurry_volume_scale"]
        volume = Band(times.low * poured.low, poured.mid, times.high * poured.high)
        return facts.model(
            living_from_slurry_billion, slurry_ml=volume, age_weeks=weeks, stored_c=store
        )
    return None


def _age_months(facts: Facts) -> Band | None:
    yeast = facts.record.pitch.yeast
    if isinstance(yeast.age, Reading):
        return band_times(yeast.age, 1.0 / HOURS_PER_MONTH)
    packed, pitched = resolved(facts.record, yeast.packed), facts.timeline.pitched
    if packed is None or pitched is None:
        return None
    return point(max(hours_between(packed, pitched) / HOURS_PER_MONTH, 0.0))


def oxygen_at_pitch_mg_per_l(facts: Facts) -> Finding | None:
    """Oxygen in the wort at pitching, as measured or from the way of aerating."""
    oxygen = facts.record.pitch.oxygen
    if isinstance(oxygen.dissolved, Reading):
        says = f"{oxygen.dissolved.typed} of oxygen measured in the wort"
        band = facts.read(oxygen.dissolved, "wort_oxygen_error")
        path = ("pitch", "oxygen", "dissolved")
        return facts.number("oxygen_at_pitch_mg_per_l", band, says, path)
    original = facts.record.gravity.original
    if isinstance(oxygen.method, NotLogged):
        return None
    wort_c = facts.record.pitch.at
    band = facts.model(
        oxygen_of,
        wort_c=facts.read(wort_c, THERMOMETER) if isinstance(wort_c, Reading) else _USUAL_ROOM_WORT,
        extract_p=_plato(facts, original)
        if isinstance(original, Reading)
        else Band(10.0, 12.0, 15.0),
        saturation_share=facts.constants[SHARE_BY_METHOD[oxygen.method]],
    )
    says = f"wort aerated: {oxygen.method}, about {band.mid:.0f} mg/L of oxygen"
    return facts.number("oxygen_at_pitch_mg_per_l", band, says, ("pitch", "oxygen", "method"))


def alcohol_percent(facts: Facts) -> Finding | None:
    """Alcohol by volume from the original gravity, what was fed late, and the final gravity."""
    original, final = facts.record.gravity.original, facts.record.gravity.final
    stays, fed = points_that_stay(facts, late=True), points_fed_late(facts)
    if isinstance(original, NotLogged) or isinstance(final, NotLogged):
        return None
    if stays is None or fed is None:
        return None

    def model(
        *, constants: Mapping[str, float], first_sg: float, last_sg: float, stays: float, fed: float
    ) -> float:
        final_sg = last_sg - stays / 1000.0
        by_weight = alcohol_by_weight_percent(
            plato_from_gravity(first_sg + fed / 1000.0), plato_from_gravity(final_sg), constants
        )
        return alcohol_by_volume_percent(by_weight, final_sg, constants)

    band = facts.model(
        model,
        first_sg=facts.read(original, HYDROMETER),
        last_sg=facts.read(final, HYDROMETER),
        stays=stays,
        fed=fed,
    ).kept_within(0.0, 100.0)
    late = f" less {stays.mid:.0f} points put in late" if stays.mid > 0.0 else ""
    more = f" with {fed.mid:.0f} points fed after the boil" if fed.mid > 0.0 else ""
    says = f"{original.typed} to {final.typed}{late}{more} makes about {band.mid:.1f} % alcohol"
    return facts.number("alcohol_percent", band, says, ("gravity", "final"))


def attenuation_gap(facts: Facts) -> Finding | None:
    """Apparent attenuation less what yeast family and mash would give."""
    yeast, reached = facts.beer.yeast, _attenuation(facts)
    if yeast is None or reached is None:
        return None
    got, told = reached
    usual = Band(yeast.attenuation.low, yeast.attenuation.value, yeast.attenuation.high)
    rest = _sugar_rest(facts)
    wanted = usual if rest is None else _expected(facts, usual, rest)
    band = Band(got.low - wanted.high, got.mid - wanted.mid, got.high - wanted.low)
    says = (
        f"{told} apparent attenuation; {yeast.name}{' and this mash' if rest else ''} "
        f"would give {wanted.low:.0f} to {wanted.high:.0f} %"
    )
    return facts.number("attenuation_gap", band, says, ("gravity", "final"))


def _attenuation(facts: Facts) -> tuple[Band, str] | None:
    """Apparent attenuation [%] from two gravities, or as logged where one of them is missing."""
    gravity = facts.record.gravity
    if isinstance(gravity.original, Reading) and isinstance(gravity.final, Reading):
        return _of_fermentables(facts, gravity.original, gravity.final)
    if isinstance(gravity.attenuation, Reading):
        got = facts.read(gravity.attenuation, "noted_attenuation_error")
        return got, f"{gravity.attenuation.typed}, as logged,"
    return None


def _of_fermentables(facts: Facts, original: Reading, final: Reading) -> tuple[Band, str] | None:
    """Apparent attenuation without the lactose, which no beer yeast takes."""
    stays = unfermentable_points(facts)
    if stays is None:
        return None

    def attenuation(*, original_sg: float, final_sg: float, before: float, after: float) -> float:
        return fermentable_attenuation_percent(
            original_sg, final_sg - after / 1000.0, unfermentable_points=before
        )

    got = facts.model(
        attenuation,
        original_sg=facts.read(original, HYDROMETER),
        final_sg=facts.read(final, HYDROMETER),
        before=stays.before,
        after=stays.after,
    )
    typed, points = f"{original.typed} to {final.typed}", stays.before.mid + stays.after.mid
    taken_off = f", less {points:.0f} points no yeast can take," if points > 0.0 else ""
    return got, f"{typed}{taken_off} is {got.mid:.0f} %"


def _sugar_rest(facts: Facts) -> Reading | None:
    """The rest that decides how fermentable the wort is; of several, one that makes sugar."""
    rest = main_rest(facts)
    if rest is None:
        return None
    (reading, path), (lowest, highest) = rest, MASH_C
    of_several = path != ("mash", "at")
    return None if of_several and not lowest <= reading.value <= highest else reading


def _expected(facts: Facts, yeast: Band, rest: Reading) -> Band:
    return facts.model(
        expected_attenuation_percent,
        yeast_percent=yeast,
        mash_c=covered(facts.read(rest, THERMOMETER), *MASH_C),
        correction_points=point(0.0),
    )


def yeast_form(facts: Facts) -> Finding | None:
    """Dry, liquid or slurry; yeast used again is slurry even where nobody says so."""
    yeast = facts.record.pitch.yeast
    if isinstance(yeast.form, str):
        says = "harvested slurry" if yeast.form == "slurry" else f"{yeast.form} yeast from a pack"
        return facts.word("yeast_form", yeast.form, says, ("pitch", "yeast", "form"))
    if yeast.generation == "reused":
        says = "harvested yeast, so slurry"
        return facts.word("yeast_form", "slurry", says, ("pitch", "yeast", "generation"))
    return None
