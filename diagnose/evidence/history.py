"""The temperature history of the beer: from the probe log, else from what was noted."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from diagnose.batch import Moment, NotLogged, hours_between, resolved
from diagnose.batch.probe import ProbeLog, Role, coverage, trace
from diagnose.documents import Path
from diagnose.evidence.facts import Facts, fall, points_of, widened
from diagnose.process import Band
from diagnose.units import Reading

Hours = NDArray[np.float64]

LEAST_COVERAGE = 0.6
_IN_ROOM = "in the room"
# A reading so little above the final gravity is final; judgement.
_STABLE_POINTS = 1.0
_A_MOMENT_H = 1e-6
# A step noted by its date alone may have begun this much earlier than noon of that day says.
_DAY_WITHOUT_A_TIME_H = 24.0


@dataclass(frozen=True)
class History:
    """Temperatures over time, with how far off they may be.

    `hours` from pitching and `beer_c` have one shape (n,); `shift_c` is what to add to the
    readings to get the beer, with its range.
    """

    hours: Hours
    beer_c: Hours
    shift_c: Band
    said: str
    path: Path

    @property
    def doubt_c(self) -> Band:
        """How far the beer may be from the readings with the middle of `shift_c` added [C]."""
        shift = self.shift_c
        return Band(shift.low - shift.mid, 0.0, shift.high - shift.mid)

    def cut(self, start_h: float, end_h: float) -> "History":
        """The part between two moments, its ends read off by straight lines, flat beyond.

        A step exactly at an end belongs to the other side: the part starts after it or ends
        before it.
        """
        inside = (self.hours > start_h) & (self.hours < end_h)
        first, last = np.interp(
            [start_h + _A_MOMENT_H, end_h - _A_MOMENT_H], self.hours, self.beer_c
        )
        return History(
            np.concatenate([[start_h], self.hours[inside], [end_h]]),
            np.concatenate([[first], self.beer_c[inside], [last]]),
            self.shift_c,
            self.said,
            self.path,
        )


def beer_history(facts: Facts, start: datetime, end: datetime) -> History | None:
    """The history between two moments; None where nothing covers enough of it.

    A probe log is used where it covers at least `LEAST_COVERAGE` of the span; otherwise the
    temperatures noted in the record.
    """
    pitched = facts.timeline.pitched
    if pitched is None or end <= start:
        return None
    logged = _from_log(facts, pitched, start, end)
    return logged or _from_notes(facts, pitched, start, end)


def _from_log(facts: Facts, pitched: datetime, start: datetime, end: datetime) -> History | None:
    log = facts.log
    role = _temperature_role(log)
    if log is None or role is None:
        return None
    start_s, end_s = start.timestamp(), end.timestamp()
    covered = coverage(log, start_s=start_s, end_s=end_s, role=role)
    if covered < LEAST_COVERAGE:
        return None
    readings = trace(log, role)
    hours = (np.asarray(readings.times_s) - pitched.timestamp()) / 3600.0
    said = f"probe log, {100.0 * covered:.0f} % of the time covered"
    whole = History(
        hours, np.asarray(readings.values), _shift(facts, role), said, ("fermentation", "probe_log")
    )
    return whole.cut(hours_between(pitched, start), hours_between(pitched, end))


def _temperature_role(log: ProbeLog | None) -> Role | None:
    for role in ("beer_temperature", "air_temperature"):
        if log is not None and role in log.series:
            return role
    return None


def _shift(facts: Facts, role: Role) -> Band:
    place = facts.record.fermentation.probe_place
    if role == "air_temperature" or place == _IN_ROOM:
        return facts.constants["above_room_c"]
    on_wall = place == "on the wall"
    return facts.constants["probe_on_wall_error" if on_wall else "probe_in_beer_error"]


def _from_notes(facts: Facts, pitched: datetime, start: datetime, end: datetime) -> History | None:
    steps = _noted_steps(facts, pitched)
    if not steps:
        return None
    begin, finish = hours_between(pitched, start), hours_between(pitched, end)
    if steps[0][0] > begin + _DAY_WITHOUT_A_TIME_H:
        return None
    hours, temperatures = [], []
    for index, (since, beer_c) in enumerate(steps):
        until = steps[index + 1][0] if index + 1 < len(steps) else max(finish, since)
        hours += [since, until]
        temperatures += [beer_c, beer_c]
    path: Path = ("fermentation", "steps" if len(steps) > 1 else "temperature")
    shift, said = noted_shift(facts), noted_said(facts)
    whole = History(np.array(hours), np.array(temperatures), shift, said, path)
    return whole.cut(begin, finish)


def _noted_steps(facts: Facts, pitched: datetime) -> list[tuple[float, float]]:
    """(hours from pitching, C) at which a new temperature was set, in order."""
    fermentation = facts.record.fermentation
    steps = []
    if isinstance(fermentation.temperature, Reading):
        steps.append((0.0, fermentation.temperature.value))
    for step in fermentation.steps:
        when = resolved(facts.record, step.since)
        if when is not None and isinstance(step.at, Reading):
            steps.append((hours_between(pitched, when), step.at.value))
    crashed = facts.timeline.crashed
    if steps and crashed is not None and not isinstance(fermentation.crashed_to, NotLogged):
        steps.append((hours_between(pitched, crashed), fermentation.crashed_to.value))
    return sorted(steps)


def noted_throughout(facts: Facts) -> History | None:
    """The one temperature a record without dates gives for the fermentation."""
    noted = facts.record.fermentation.temperature
    if not isinstance(noted, Reading) or facts.record.fermentation.steps:
        return None
    hours = np.array([0.0, 72.0])
    path: Path = ("fermentation", "temperature")
    shift, said = noted_shift(facts), noted_said(facts)
    return History(hours, np.full(2, noted.value), shift, said, path)


def noted_shift(facts: Facts) -> Band:
    """What to add to a noted temperature to get the beer's, as far as the entries are in doubt."""
    fermentation = facts.record.fermentation
    noted = [fermentation.temperature, *(step.at for step in fermentation.steps)]
    shift = facts.constants["above_room_c" if is_of_room(facts) else "noted_beer_error"]
    return widened(shift, [one for one in noted if isinstance(one, Reading)])


def noted_said(facts: Facts) -> str:
    """How noted temperatures are called."""
    return "as noted in the room" if is_of_room(facts) else "as noted"


def is_of_room(facts: Facts) -> bool:
    """Whether temperatures are those of the room, not of the beer."""
    return facts.record.fermentation.probe_place == _IN_ROOM


def finished_at(facts: Facts) -> tuple[datetime, Path] | None:
    """When the gravity stopped falling: as noted, else the first reading at the final gravity."""
    if facts.timeline.finished is not None:
        return facts.timeline.finished, ("fermentation", "finished")
    final = facts.record.gravity.final
    if isinstance(final, NotLogged):
        return None
    for index, reading in enumerate(facts.record.gravity.readings):
        when = resolved(facts.record, reading.when)
        at_final = isinstance(reading.gravity, Reading) and is_final(reading.gravity, final)
        if when is not None and at_final:
            return when, ("gravity", "readings", index)
    return None


def is_final(read: Reading, final: Reading) -> bool:
    """Whether a gravity is the final one, as near as a hydrometer is read."""
    return points_of(fall(read, final)).mid <= _STABLE_POINTS


def date_doubt_h(facts: Facts, *moments: datetime) -> float:
    """How far apart these moments may be from what is noted, for dates without a time [h].

    A date stands for its noon; half a day of doubt for each of the moments, as independent.
    """
    record = facts.record
    stages = (record.fermentation.finished, record.fermentation.crashed)
    ends = (record.fermentation.off_yeast, record.packaging.when)
    exact = {
        resolved(record, noted)
        for noted in (*stages, *ends, *(reading.when for reading in record.gravity.readings))
        if isinstance(noted, Moment) and noted.at is not None and not noted.whole_day
    }
    return HALF_A_DAY_H * sqrt(sum(moment not in exact for moment in moments))


def left_yeast_at(facts: Facts) -> datetime | None:
    """When the yeast stopped working: crashed, racked or packaged, whichever came first."""
    times = [facts.timeline.crashed, facts.timeline.off_yeast, facts.timeline.packaged]
    known = [time for time in times if time is not None]
    return min(known, default=None)


# From the end of fermentation down to a cellar's cold; a night in a shed is less. Judgement.
CRASH_BY_C = 8.0
HALF_A_DAY_H = 12.0
THREE_DAYS = timedelta(hours=72)
FIVE_DAYS = timedelta(hours=120)
