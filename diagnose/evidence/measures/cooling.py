"""How far the beer cooled while it was still fermenting."""

from datetime import datetime, timedelta

import numpy as np

from diagnose.batch import Moment, resolved
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.evidence.history import CRASH_BY_C, History, beer_history, finished_at, is_final
from diagnose.process import Band
from diagnose.units import Reading

# Cooling to pitching temperature is over by then; judgement.
_FROM = timedelta(hours=24)
_WINDOW_H = 24.0
# A crash noted by its date alone may have begun in the small hours, before its noon.
_HALF_A_DAY = timedelta(hours=12)
# A gravity read so long before a crash still speaks of it; judgement.
_SHORTLY = timedelta(days=2)


def fall_before_final_c(facts: Facts) -> Finding | None:
    """Largest fall of the beer temperature within a day while gravity still fell."""
    pitched, end = facts.timeline.pitched, _gravity_fell_until(facts)
    if pitched is None or end is None:
        return None
    history = beer_history(facts, pitched + _FROM, end)
    if history is None or not _was_followed(facts, history, end):
        return None
    if facts.timeline.finished is None:
        history = _before_crash(facts, history, pitched)
    fall_c = largest_fall_c(history)
    # How far off every reading lies cancels out; how far it wanders does not.
    error_c = 0.5 * (history.shift_c.high - history.shift_c.low)
    band = Band(max(fall_c - error_c, 0.0), fall_c, fall_c + error_c)
    says = (
        f"before the gravity stopped the beer fell by {fall_c:.1f} C at most within a day "
        f"({history.said})"
    )
    return facts.number("fall_before_final_c", band, says, history.path)


def largest_fall_c(history: History) -> float:
    """The largest fall from the warmest of the past 24 h [C], nought where it only rose."""
    hours, beer_c = history.hours, history.beer_c
    begins = np.searchsorted(hours, hours - _WINDOW_H)
    # The start of the window may lie between two readings.
    at_begin = np.interp(np.maximum(hours - _WINDOW_H, hours[0]), hours, beer_c)
    falls = [
        max(float(at_begin[now]), float(beer_c[begin : now + 1].max())) - float(beer_c[now])
        for now, begin in enumerate(begins)
    ]
    return max(falls)


def _gravity_fell_until(facts: Facts) -> datetime | None:
    """The end of the gravity fall, else the crash, else packaging.

    A first reading at the final gravity may come days after the fall ended; a crash before it
    is a fall only where the gravity was still above the final when the crash began.
    """
    stopped, crashed = finished_at(facts), _crash_began(facts)
    if stopped is None:
        return crashed or facts.timeline.packaged
    noted = facts.timeline.finished is not None
    if noted or crashed is None or crashed >= stopped[0] or _still_fell(facts, crashed):
        return stopped[0]
    return crashed


def _crash_began(facts: Facts) -> datetime | None:
    crashed, noted = facts.timeline.crashed, facts.record.fermentation.crashed
    if crashed is None or not isinstance(noted, Moment):
        return None
    return crashed - _HALF_A_DAY if noted.whole_day else crashed


def _still_fell(facts: Facts, crashed: datetime) -> bool:
    """Whether a reading shortly before a crash, or after it, stood above the final gravity."""
    final = facts.record.gravity.final
    if not isinstance(final, Reading):
        return False
    return any(
        (when := resolved(facts.record, reading.when)) is not None
        and when >= crashed - _SHORTLY
        and isinstance(reading.gravity, Reading)
        and not is_final(reading.gravity, final)
        for reading in facts.record.gravity.readings
    )


def _before_crash(facts: Facts, history: History, pitched: datetime) -> History:
    """The history less a crash that nobody noted: a deep fall it never came back from."""
    deep = history.beer_c <= history.beer_c.max() - CRASH_BY_C
    if not deep[-1]:
        return history
    first = int(np.flatnonzero(~deep)[-1]) + 1
    began_h = float(history.hours[first]) - _WINDOW_H
    if began_h <= history.hours[0] or _still_fell(facts, pitched + timedelta(hours=began_h)):
        return history
    return history.cut(float(history.hours[0]), began_h)


def _was_followed(facts: Facts, history: History, end: datetime) -> bool:
    """Whether a log, steps or an early crash say more than one temperature for the whole."""
    crashed = facts.timeline.crashed
    crashed_early = crashed is not None and crashed < end
    from_log = history.path[-1] == "probe_log"
    return from_log or bool(facts.record.fermentation.steps) or crashed_early
