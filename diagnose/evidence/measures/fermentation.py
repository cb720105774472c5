"""Measures of pitching and fermentation."""

from datetime import datetime, timedelta
from functools import partial
from math import hypot
from typing import Literal

from diagnose.batch import NotLogged, hours_between, resolved
from diagnose.documents import Path
from diagnose.evidence.facts import HYDROMETER, PH, Facts, days_text, fall, points_of, widened
from diagnose.evidence.finding import Finding
from diagnose.evidence.history import (
    FIVE_DAYS,
    THREE_DAYS,
    History,
    beer_history,
    date_doubt_h,
    finished_at,
    is_of_room,
    left_yeast_at,
    noted_shift,
    noted_throughout,
)
from diagnose.process import Band
from diagnose.process.autolysis import yeast_contact_days_at_20c as contact_days
from diagnose.process.diacetyl import half_lives_passed
from diagnose.process.trace import mean_c
from diagnose.units import HOURS_PER_DAY, Field, Reading, show

_A_DAY = timedelta(days=1)


def early_beer_c(facts: Facts) -> Finding | None:
    """Mean beer temperature over the first 72 hours."""
    history = _early(facts)
    if history is None:
        return None
    band = _shifted(mean_c(history.hours, history.beer_c), history.shift_c)
    says = (
        f"the beer averaged {show(band.mid, Field.TEMPERATURE)} in the first 72 h ({history.said})"
    )
    return facts.number("early_beer_c", band, says, history.path)


def early_excess_c(facts: Facts) -> Finding | None:
    """The same against the top of the yeast family's usual range."""
    return _against(facts, "early_excess_c", "top")


def early_cold_c(facts: Facts) -> Finding | None:
    """The same against the bottom of the yeast family's usual range."""
    return _against(facts, "early_cold_c", "bottom")


def _against(facts: Facts, measure: str, end: Literal["top", "bottom"]) -> Finding | None:
    history, yeast = _early(facts), facts.beer.yeast
    if history is None or yeast is None:
        return None
    mean = _shifted(mean_c(history.hours, history.beer_c), history.shift_c)
    usual_c = yeast.ferments_c.high if end == "top" else yeast.ferments_c.low
    band = Band(mean.low - usual_c, mean.mid - usual_c, mean.high - usual_c)
    side = f"{abs(band.mid):.1f} C {'above' if band.mid > 0 else 'below'}"
    says = (
        f"the beer averaged {show(mean.mid, Field.TEMPERATURE)} in the first 72 h, {side} the "
        f"{end} of what {yeast.name} likes ({history.said})"
    )
    return facts.number(measure, band, says, history.path)


def peak_beer_c(facts: Facts) -> Finding | None:
    """Warmest beer in the first five days."""
    noted, pitched = facts.record.fermentation.peak, facts.timeline.pitched
    history = beer_history(facts, pitched, pitched + FIVE_DAYS) if pitched else None
    if history is not None and history.path[-1] == "probe_log":
        band = _shifted(float(history.beer_c.max()), history.shift_c)
        warmest = show(band.mid, Field.TEMPERATURE)
        says = f"peaked at {warmest} in the first five days ({history.said})"
        return facts.number("peak_beer_c", band, says, history.path)
    if isinstance(noted, Reading):
        says = f"peaked at {show(noted, Field.TEMPERATURE)}"
        shift = _peak_shift(facts)
        band = _shifted(noted.value, widened(shift, [noted]))
        return facts.number("peak_beer_c", band, says, ("fermentation", "peak"))
    return None


def _peak_shift(facts: Facts) -> Band:
    return noted_shift(facts) if is_of_room(facts) else facts.constants["probe_in_beer_error"]


def _early(facts: Facts) -> History | None:
    pitched = facts.timeline.pitched
    return (
        beer_history(facts, pitched, pitched + THREE_DAYS) if pitched else noted_throughout(facts)
    )


def _shifted(value: float, shift: Band) -> Band:
    return Band(value + shift.low, value + shift.mid, value + shift.high)


def _or_so(days: float, error: Band) -> Band:
    return Band(max(days + error.low, 0.0), days, days + error.high)


def _short(number: float) -> str:
    return f"{number:.1f}" if number >= 1.0 else f"{number:.2f}"


def diacetyl_half_lives(facts: Facts) -> Finding | None:
    """Half-lives of the precursor passed on live yeast after the gravity stopped falling."""
    stopped, left = finished_at(facts), left_yeast_at(facts)
    if stopped is None or left is None:
        return None
    if left <= stopped[0]:
        return _without_rest(facts, stopped, left)
    history = beer_history(facts, stopped[0], left)
    if history is None:
        return None
    hours, band = hours_between(stopped[0], left), _half_lives(facts, history)
    # Half a day more or less of the rest, at its mean rate.
    more = band.mid / hours * date_doubt_h(facts, stopped[0], left)
    band = Band(
        max(band.mid - hypot(band.mid - band.low, more), 0.0),
        band.mid,
        band.mid + hypot(band.high - band.mid, more),
    )
    days = hours / HOURS_PER_DAY
    beer_c = mean_c(history.hours, history.beer_c) + history.shift_c.mid
    mean = show(beer_c, Field.TEMPERATURE)
    says = (
        f"{days:.1f} days at {mean} between the end of the gravity fall and the crash or "
        f"packaging: {_short(band.mid)} half-lives of the precursor"
    )
    return facts.number("diacetyl_half_lives", band, says, stopped[1])


def _half_lives(facts: Facts, history: History) -> Band:
    model = partial(half_lives_passed, history.hours, history.beer_c + history.shift_c.mid)
    return facts.model(model, shift_c=history.doubt_c)


def _without_rest(facts: Facts, stopped: tuple[datetime, Path], left: datetime) -> Finding:
    """No rest at all, or at most what dates without a time leave open."""
    doubt_h = date_doubt_h(facts, stopped[0], left) - hours_between(left, stopped[0])
    history = beer_history(facts, left - _A_DAY, left)
    most = 0.0
    if history is not None and doubt_h > 0.0:
        most = _half_lives(facts, history).high / HOURS_PER_DAY * doubt_h
    moment = "as soon as the gravity stopped"
    if doubt_h < 0.0:
        moment = "before the gravity had stopped"
    return facts.number(
        "diacetyl_half_lives", Band(0.0, 0.0, most), f"off the yeast {moment}", stopped[1]
    )


def days_on_yeast_after_final(facts: Facts) -> Finding | None:
    """Days from the end of the gravity fall to the end of contact with the yeast."""
    stopped, left = finished_at(facts), left_yeast_at(facts)
    if stopped is None or left is None:
        return None
    days = max(hours_between(stopped[0], left) / HOURS_PER_DAY, 0.0)
    band = _or_so(days, facts.constants["days_error"])
    says = f"{days:.1f} days on live yeast after the gravity stopped"
    return facts.number("days_on_yeast_after_final", band, says, stopped[1])


def days_final_to_package(facts: Facts) -> Finding | None:
    """Days from the end of the gravity fall to packaging, through racking and crash."""
    stopped, packaged = finished_at(facts), facts.timeline.packaged
    if stopped is None or packaged is None:
        return None
    days = max(hours_between(stopped[0], packaged) / HOURS_PER_DAY, 0.0)
    band = _or_so(days, facts.constants["final_day_error"])
    says = f"packaged {days:.1f} days after the gravity stopped"
    return facts.number("days_final_to_package", band, says, stopped[1])


def yeast_contact_days_at_20c(facts: Facts) -> Finding | None:
    """Days on the yeast cake, counted at 20 C."""
    pitched, off = facts.timeline.pitched, facts.timeline.off_yeast
    if pitched is None or off is None or off <= pitched:
        return None
    history = beer_history(facts, pitched, off)
    if history is None:
        return None
    model = partial(contact_days, history.hours, history.beer_c + history.shift_c.mid)
    band = facts.model(model, shift_c=history.doubt_c)
    days = hours_between(pitched, off) / HOURS_PER_DAY
    says = f"{days_text(days)} on the yeast, worth {days_text(band.mid)} at 20 C"
    return facts.number("yeast_contact_days_at_20c", band, says, history.path)


def gravity_drop_after_final(facts: Facts) -> Finding | None:
    """Points of gravity lost since the final reading, from a reading at least three days later."""
    stopped, final = finished_at(facts), facts.record.gravity.final
    if stopped is None or isinstance(final, NotLogged):
        return None
    for index, reading in reversed(list(enumerate(facts.record.gravity.readings))):
        when = resolved(facts.record, reading.when)
        if when is None or not isinstance(reading.gravity, Reading):
            continue
        if when - stopped[0] < THREE_DAYS:
            return None
        band = points_of(fall(final, reading.gravity, facts.constants[HYDROMETER]))
        says = f"gravity {final.typed} at the end, {reading.gravity.typed} later"
        path = ("gravity", "readings", index)
        return facts.number("gravity_drop_after_final", band, says, path)
    return None


def points_left_to_ferment(facts: Facts) -> Finding | None:
    """Points of gravity that a forced sample still lost."""
    gravity = facts.record.gravity
    if isinstance(gravity.final, NotLogged) or isinstance(gravity.forced_final, NotLogged):
        return None
    band = points_of(fall(gravity.final, gravity.forced_final, facts.constants[HYDROMETER]))
    forced = gravity.forced_final.typed
    says = f"a forced sample ended at {forced}, the batch at {gravity.final.typed}"
    return facts.number("points_left_to_ferment", band, says, ("gravity", "forced_final"))


def ph_drop_after_final(facts: Facts) -> Finding | None:
    """Fall in pH between the first reading at the final gravity and the last one."""
    stopped = finished_at(facts)
    if stopped is None:
        return None
    later = [
        (index, reading.ph)
        for index, reading in enumerate(facts.record.gravity.readings)
        if isinstance(reading.ph, Reading)
        and (when := resolved(facts.record, reading.when)) is not None
        and when >= stopped[0]
    ]
    if len(later) < 2:
        return None
    first, (index, last) = later[0][1], later[-1]
    says = f"pH {first.typed} at the end of fermentation, {last.typed} later"
    band = fall(first, last, facts.constants[PH])
    return facts.number("ph_drop_after_final", band, says, ("gravity", "readings", index))
