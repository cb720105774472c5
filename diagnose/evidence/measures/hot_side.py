"""Measures of mash, boil, stand and cooling."""

from diagnose.batch import NotLogged
from diagnose.documents import Path
from diagnose.evidence.facts import (
    BATCH_VOLUME,
    PH,
    THERMOMETER,
    Facts,
    band_of,
    band_times,
    covered,
    over,
    point,
    sum_of,
)
from diagnose.evidence.finding import Finding, NumberFinding
from diagnose.process import Band
from diagnose.process.boil import EVAPORATION, USUAL_PH, WORT_PH, usual_evaporation, volume_after_l
from diagnose.process.boil import evaporation_percent_per_h as evaporation_of
from diagnose.process.dms import predict_dms_ug_per_l
from diagnose.units import MINUTES_PER_HOUR, Field, Reading, show

_SAME_KETTLE, _KETTLE_MARKS = "same_kettle_scale", "kettle_marks_scale"
_HOT_STAND_FROM_C = 80.0
# A chiller takes a minute at least.
_LEAST_CHILL_MINUTES = 1.0


def mash_c(facts: Facts) -> Finding | None:
    """Temperature of the main rest: the longest one."""
    rest = main_rest(facts)
    if rest is None:
        return None
    reading, path = rest
    what = "mashed" if path == ("mash", "at") else "longest rest"
    says = f"{what} at {show(reading, Field.TEMPERATURE)}"
    return facts.number("mash_c", facts.read(reading, THERMOMETER), says, path)


def main_rest(facts: Facts) -> tuple[Reading, Path] | None:
    """Temperature of the mash, the longest rest of several, and where it stands."""
    mash = facts.record.mash
    if isinstance(mash.at, Reading):
        return mash.at, ("mash", "at")
    rests = [
        (rest.time.value, index, rest.at)
        for index, rest in enumerate(mash.rests)
        if isinstance(rest.at, Reading) and isinstance(rest.time, Reading)
    ]
    if not rests:
        return None
    _, index, reading = max(rests, key=lambda rest: rest[:2])
    return reading, ("mash", "rests", index)


def mash_hours(facts: Facts) -> Finding | None:
    """How long the mash stood in all."""
    mash = facts.record.mash
    rests = [rest.time for rest in mash.rests if isinstance(rest.time, Reading)]
    noted = [mash.time] if isinstance(mash.time, Reading) else rests
    if not noted:
        return None
    band = sum_of([band_of(one) for one in noted])
    says = f"mashed for {show(band.mid, Field.DURATION)} in all"
    return facts.number("mash_hours", band, says, ("mash", "time"))


def evaporation_percent_per_h(facts: Facts) -> Finding | None:
    """How much boiled off in an hour, from the volumes before and after or as noted."""
    boil = facts.record.boil
    if isinstance(boil.evaporation, Reading):
        says = f"{boil.evaporation.typed} an hour boiled off"
        band = facts.read(boil.evaporation, "noted_evaporation_error")
        return facts.number("evaporation_percent_per_h", band, says, ("boil", "evaporation"))
    before, after, time = boil.volume_before, boil.volume_after, boil.time
    if isinstance(before, NotLogged) or isinstance(after, NotLogged) or isinstance(time, NotLogged):
        return None
    if after.value > before.value or time.value <= 0.0:
        return None

    def model(*, before_l: float, after_l: float, hours: float) -> float:
        return evaporation_of(before_l, min(after_l, before_l), hours)

    band = facts.model(
        model,
        before_l=facts.read_times(before, _SAME_KETTLE),
        after_l=facts.read_times(after, _SAME_KETTLE),
        hours=band_of(time),
    )
    says = f"{band.mid:.0f} % an hour boiled off ({before.typed} to {after.typed})"
    return facts.number("evaporation_percent_per_h", band, says, ("boil", "volume_after"))


def kettle_share(facts: Facts) -> Finding | None:
    """Volume in the kettle at the end of the boil over the volume of the batch."""
    after, batch = _after_boil_l(facts), facts.record.volume
    if after is None or isinstance(batch, NotLogged):
        return None
    (litres, entry), batch_l = after, facts.read_times(batch, BATCH_VOLUME)
    band = facts.model(
        lambda *, kettle_l, batch_l: float(kettle_l / batch_l), kettle_l=litres, batch_l=batch_l
    )
    says = (
        f"{show(litres.mid, Field.VOLUME)} in the kettle after the boil for a batch of "
        f"{show(batch, Field.VOLUME)}"
    )
    return facts.number("kettle_share", band, says, ("boil", entry))


def _after_boil_l(facts: Facts) -> tuple[Band, str] | None:
    """Litres at the end of the boil, and the entry they come from."""
    boil = facts.record.boil
    if isinstance(boil.volume_after, Reading):
        return facts.read_times(boil.volume_after, _KETTLE_MARKS), "volume_after"
    if isinstance(boil.volume_before, NotLogged) or isinstance(boil.time, NotLogged):
        return None
    band = facts.model(
        volume_after_l,
        before_l=facts.read_times(boil.volume_before, _KETTLE_MARKS),
        percent_per_h=facts.constants[usual_evaporation(boil.lid, boil.vigour)],
        hours=band_of(boil.time),
    )
    return band, "volume_before"


def hot_stand_minutes(facts: Facts) -> Finding | None:
    """Minutes at 80 C or hotter after the boil."""
    stand = facts.record.hot_stand
    if isinstance(stand.time, NotLogged):
        return None
    minutes = stand.time.value * MINUTES_PER_HOUR
    if isinstance(stand.at, Reading) and stand.at.high < _HOT_STAND_FROM_C:
        says = f"stood below {_HOT_STAND_FROM_C:.0f} C"
        return facts.number("hot_stand_minutes", point(0.0), says, ("hot_stand", "at"))
    says = "no hot stand after the boil"
    if minutes > 0.0:
        says = f"stood hot for {show(stand.time, Field.DURATION)} after the boil"
    noted = band_times(stand.time, MINUTES_PER_HOUR)
    band = _or_so(noted, facts.constants["stand_time_error"])
    return facts.number("hot_stand_minutes", band, says, ("hot_stand", "time"))


def _or_so(minutes: Band, error: Band) -> Band:
    """A length of time no surer than the error about 0, and none less than nothing."""
    low = max(min(minutes.low, minutes.mid + error.low), 0.0)
    return Band(low, minutes.mid, max(minutes.high, minutes.mid + error.high))


def dms_ug_per_l(facts: Facts) -> Finding | None:
    """DMS that malt, boil, stand and cooling leave in the beer."""
    record, grist = facts.record, _grist_g_per_l(facts)
    if grist is None or isinstance(record.boil.time, NotLogged):
        return None
    stand = record.hot_stand
    band = facts.model(
        predict_dms_ug_per_l,
        **grist,
        wort_ph=covered(facts.read(record.boil.ph, PH), *WORT_PH)
        if isinstance(record.boil.ph, Reading)
        else facts.constants[USUAL_PH],
        boil_minutes=band_times(record.boil.time, MINUTES_PER_HOUR),
        boiling_c=point(100.0),
        evaporation_percent_per_h=_evaporation(facts),
        stand_minutes=_stand(facts),
        stand_c=band_of(stand.at) if isinstance(stand.at, Reading) else point(95.0),
        stand_venting=_venting(facts),
        chill_minutes=_chill(facts),
        chilled_to_c=point(20.0),
    )
    says = f"malt and boil would leave about {band.mid:.0f} ug/L of DMS"
    return facts.number("dms_ug_per_l", band, says, ("boil", "time"))


def _stand(facts: Facts) -> Band:
    time = facts.record.hot_stand.time
    if isinstance(time, NotLogged):
        return facts.constants["stand_minutes_usual"]
    return band_times(time, MINUTES_PER_HOUR)


def _venting(facts: Facts) -> Band:
    """How much of the boil's stripping goes on in the stand; anything up to it without a word."""
    lid, uncovered = facts.record.hot_stand.lid, facts.constants["stand_strip_share"]
    if lid == "off":
        return uncovered
    return Band(0.0, 0.0, uncovered.high) if isinstance(lid, NotLogged) else point(0.0)


def _chill(facts: Facts) -> Band:
    time = facts.record.chill.time
    if isinstance(time, NotLogged):
        return facts.constants["chill_minutes_usual"]
    chilled = _or_so(band_times(time, MINUTES_PER_HOUR), facts.constants["chill_time_error"])
    return chilled.kept_within(_LEAST_CHILL_MINUTES, chilled.high)


def _evaporation(facts: Facts) -> Band:
    finding = evaporation_percent_per_h(facts)
    if isinstance(finding, NumberFinding):
        return covered(finding.band, *EVAPORATION)
    return facts.constants[usual_evaporation(facts.record.boil.lid, facts.record.boil.vigour)]


def _grist_g_per_l(facts: Facts) -> dict[str, Band] | None:
    """Pale lager malt, other pale malt, dark malt and extract in g per litre of wort."""
    volume, grist = facts.record.volume, facts.record.recipe.fermentables
    if isinstance(volume, NotLogged) or not grist:
        return None
    if any(
        isinstance(item.amount, NotLogged) or isinstance(item.kind, NotLogged) for item in grist
    ):
        return None
    kinds = {
        "lager_malt_g_per_l": ("lager malt",),
        "ale_malt_g_per_l": ("base malt", "wheat malt", "munich malt", "rye malt", "smoked malt"),
        "dark_malt_g_per_l": ("roasted malt", "crystal malt"),
        "extract_g_per_l": ("liquid extract", "dry extract"),
    }
    return {
        name: sum_of(
            [
                over(item.amount, volume)
                for item in grist
                if item.kind in group and isinstance(item.amount, Reading)
            ]
        )
        for name, group in kinds.items()
    }
