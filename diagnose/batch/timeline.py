"""The dates of a record on one line, with their zone."""

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from diagnose.batch.entries import NotLogged
from diagnose.batch.moments import Moment, zone_of
from diagnose.batch.record import BatchRecord
from diagnose.units import SECONDS_PER_HOUR

_HALF_A_DAY = timedelta(hours=12)


@dataclass(frozen=True)
class Timeline:
    """When the stages of a batch happened; None where it is not logged.

    `finished` is when the gravity stopped falling; `off_yeast` the end of contact with the
    bulk of the yeast (racked, crashed or packaged, whichever came first).
    """

    brewed: datetime | None
    pitched: datetime | None
    finished: datetime | None
    crashed: datetime | None
    off_yeast: datetime | None
    packaged: datetime | None
    last_tasted: datetime | None


def timeline_of(record: BatchRecord) -> Timeline:
    """The timeline of a record; pitching falls back to brew day."""
    brewed = resolved(record, record.brewed)
    pitched = resolved(record, record.pitch.when) or brewed
    crashed = resolved(record, record.fermentation.crashed)
    packaged = resolved(record, record.packaging.when)
    left = [resolved(record, record.fermentation.off_yeast), packaged]
    tasted = [resolved(record, tasting.when) for tasting in record.tastings]
    return Timeline(
        brewed=brewed,
        pitched=pitched,
        finished=resolved(record, record.fermentation.finished),
        crashed=crashed,
        off_yeast=_first(left),
        packaged=packaged,
        last_tasted=_last(tasted),
    )


def resolved(record: BatchRecord, moment: Moment | NotLogged) -> datetime | None:
    """A moment of the record as a time with a zone."""
    if isinstance(moment, NotLogged):
        return None
    zone = zone_of(record.zone)
    brewed = record.brewed.resolve(None, zone) if isinstance(record.brewed, Moment) else None
    return moment.resolve(brewed, zone)


def hours_between(start: datetime, end: datetime) -> float:
    """Hours from `start` to `end`; negative when it ends before it starts."""
    # Two times of one zone differ by the clock on the wall, which is put forward and back.
    elapsed = end.astimezone(UTC) - start.astimezone(UTC)
    return elapsed.total_seconds() / SECONDS_PER_HOUR


def slack_of(moment: Moment) -> timedelta:
    """How far the moment may lie from the time it was resolved to."""
    exact = moment.at is not None and not moment.whole_day
    return timedelta(0) if exact else _HALF_A_DAY


def is_over_by(when: datetime, slack: timedelta, earlier: datetime) -> bool:
    """Whether a moment is over by `earlier`; one that takes half a day is over at its end."""
    return when + slack <= earlier if slack else when < earlier


def _first(times: list[datetime | None]) -> datetime | None:
    return min((time for time in times if time is not None), default=None)


def _last(times: list[datetime | None]) -> datetime | None:
    return max((time for time in times if time is not None), default=None)
