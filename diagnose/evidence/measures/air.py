"""Ways in for air between pitching and packaging: openings and the crash."""

from datetime import datetime, timedelta

import numpy as np

from diagnose.batch import hours_between, resolved
from diagnose.batch.cellar import Event
from diagnose.documents import Path
from diagnose.evidence.facts import Facts
from diagnose.evidence.finding import Finding
from diagnose.evidence.history import CRASH_BY_C, History, beer_history, finished_at
from diagnose.process import Band
from diagnose.units import Reading

_OPENINGS = ("opened", "topped up", "dry hopped", "roused", "racked")
# What an event that put dry hops in may be called.
_FOR_HOPS = ("dry hopped", "opened", "racked")
# Samples are forgotten: one opening more than noted is as likely as not; judgement.
_FORGOTTEN = 1.0
# Gas run into the fermenter within this time of a crash guards it; judgement.
_GUARDED_WITHIN = timedelta(days=2)
# By then the wort has cooled to the yeast's temperature; judgement.
_PITCHED_FOR = timedelta(hours=24)
# A log that ends no earlier than this before packaging has seen any crash.
_TO_PACKAGING_H = 24.0
_SAYS = {
    "guarded": "crashed in the fermenter under gas",
    "unguarded": "crashed in the fermenter with no gas noted",
}


def openings_after_pitch(facts: Facts) -> Finding | None:
    """Times the fermenter was opened without gas running over the beer."""
    events = facts.record.events
    if not events:
        return None
    hopped = _hoppings_not_told(facts)
    count = sum(_lets_air_in(facts, event) for event in events) + hopped
    band = Band(float(count), float(count), count + _FORGOTTEN)
    times = {0: "never opened", 1: "opened once"}.get(count, f"opened {count} times")
    says = f"fermenter {times} without a purge"
    if hopped:
        says += f", {hopped} of it to dry hop by the recipe"
    return facts.number("openings_after_pitch", band, says, ("events",))


def _hoppings_not_told(facts: Facts) -> int:
    """Days on which the recipe's dry hops went in that no event speaks of."""
    events = facts.record.events
    moments = [resolved(facts.record, event.when) for event in events]
    told = {when.date() for when in moments if when is not None}
    hops = [hop for hop in facts.record.recipe.hops if hop.use == "dry hop"]
    added = [resolved(facts.record, hop.added) for hop in hops]
    days = {when.date() for when in added if when is not None and _in_fermenter(facts, when)}
    if None in added and not days and not any(event.what in _FOR_HOPS for event in events):
        return 1
    undated = sum(event.what in _FOR_HOPS and not event.when for event in events)
    return max(len(days - told) - undated, 0)


def _lets_air_in(facts: Facts, event: Event) -> bool:
    """Whether an event between pitching and packaging let air in; one without a date counts."""
    if event.what not in _OPENINGS or event.purged == "yes":
        return False
    when = resolved(facts.record, event.when)
    return when is None or _in_fermenter(facts, when)


def _in_fermenter(facts: Facts, when: datetime) -> bool:
    """Whether a day lies between pitching and packaging, as far as these are known."""
    pitched, packaged = facts.timeline.pitched, facts.timeline.packaged
    too_early = pitched is not None and when.date() < pitched.date()
    return not too_early and (packaged is None or when.date() <= packaged.date())


def cold_crash(facts: Facts) -> Finding | None:
    """Whether the beer was crashed in the fermenter, and what guarded the airlock."""
    events = facts.record.events
    for index, event in enumerate(events):
        if event.what == "sucked back":
            says = "the airlock was sucked back"
            return facts.word("cold_crash", "sucked_back", says, ("events", index))
    crash = _crash(facts)
    if crash is not None:
        value = "guarded" if _under_gas(facts, crash[0]) else "unguarded"
        return facts.word("cold_crash", value, _SAYS[value], crash[1])
    followed = _followed_to_packaging(facts)
    if followed is None or isinstance(facts.record.fermentation.crashed_to, Reading):
        return None
    says = "no crash in the fermenter before packaging"
    return facts.word("cold_crash", "none", says, followed)


def _under_gas(facts: Facts, crashed: datetime) -> bool:
    gassed = (
        resolved(facts.record, event.when)
        for event in facts.record.events
        if event.what == "purged" or event.purged == "yes"
    )
    return any(when is not None and abs(when - crashed) <= _GUARDED_WITHIN for when in gassed)


def _crash(facts: Facts) -> tuple[datetime, Path] | None:
    """When the beer was crashed: as noted, else the first deep fall after the gravity stopped."""
    if facts.timeline.crashed is not None:
        return facts.timeline.crashed, ("fermentation", "crashed")
    pitched, stopped, packaged = (
        facts.timeline.pitched,
        finished_at(facts),
        facts.timeline.packaged,
    )
    if pitched is None or stopped is None or packaged is None:
        return None
    history = beer_history(facts, stopped[0], packaged)
    if history is None:
        return None
    hour = _crash_hour(history)
    return None if hour is None else (pitched + timedelta(hours=hour), history.path)


def _crash_hour(history: History) -> float | None:
    fallen_c = np.maximum.accumulate(history.beer_c) - history.beer_c
    deep = np.flatnonzero(fallen_c >= CRASH_BY_C)
    return float(history.hours[deep[0]]) if deep.size else None


def _followed_to_packaging(facts: Facts) -> Path | None:
    """The entry that follows the beer from pitching to packaging without any crash.

    A fall before the first reading at the final gravity leaves it open: the gravity may have
    stopped long before anybody read it.
    """
    pitched, packaged = facts.timeline.pitched, facts.timeline.packaged
    if pitched is None or packaged is None or finished_at(facts) is None:
        return None
    history = beer_history(facts, pitched + _PITCHED_FOR, packaged)
    if history is None or _crash_hour(history) is not None:
        return None
    if history.path[-1] == "probe_log":
        return history.path if _logged_to(facts, packaged) else None
    return history.path if facts.record.fermentation.steps else None


def _logged_to(facts: Facts, packaged: datetime) -> bool:
    if facts.log is None:
        return False
    last = datetime.fromtimestamp(float(facts.log.times_utc_s[-1]), tz=packaged.tzinfo)
    return hours_between(last, packaged) <= _TO_PACKAGING_H
