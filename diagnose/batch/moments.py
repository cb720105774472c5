"""When something happened: a date, a date with a time, or a day of the batch ("day 6")."""

import re
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta, tzinfo
from typing import Annotated, TypeAlias
from zoneinfo import ZoneInfo

from diagnose.batch.entries import NotLogged, ReadBy, optional
from diagnose.batch.zone_names import zone_called

_DAY_OF_BATCH = re.compile(r"day\s+(\d+(?:[.,]\d+)?)", re.IGNORECASE)
_DATE = re.compile(r"\d{4}-\d{2}-\d{2}")
# Beyond these a date or a day is a slip of the pen. Judgement.
_FIRST_YEAR, _LAST_YEAR, _LAST_DAY = 1970, 2199, 36_500
_NOON = time(12, 0)
_EXAMPLES = "'2026-09-12', '2026-09-12 10:30', '2026-09-12T10:30+01:00' or 'day 6'"


@dataclass(frozen=True)
class Moment:
    """A point in time as typed: absolute (`at`), or days after brew day (`batch_day`).

    `whole_day` says that no time of day was written; noon is used, give or take twelve hours.
    """

    typed: str
    at: datetime | None
    batch_day: float | None
    whole_day: bool

    def resolve(self, brewed: datetime | None, zone: tzinfo) -> datetime | None:
        """The moment with a zone; None when it counts from a brew day that is not logged."""
        if self.at is not None:
            return self.at if self.at.tzinfo else self.at.replace(tzinfo=zone)
        if brewed is None or self.batch_day is None:
            return None
        return brewed + timedelta(days=self.batch_day)


def read_moment(typed: str) -> Moment:
    """Text to a moment.

    Raises:
        ValueError: not ISO 8601 and not "day N", or out of reach; says which forms are read.
    """
    match = _DAY_OF_BATCH.fullmatch(typed)
    if match:
        day = float(match[1].replace(",", "."))
        if day > _LAST_DAY:
            raise ValueError(f"found {typed!r}; wanted at most 'day {_LAST_DAY}'")
        return Moment(typed, None, day, whole_day=False)
    whole_day = _DATE.fullmatch(typed) is not None
    try:
        if not _DATE.match(typed):
            raise ValueError
        at = datetime.fromisoformat(typed)
    except ValueError:
        raise ValueError(f"found {typed!r}; wanted a date as {_EXAMPLES}") from None
    if not _FIRST_YEAR <= at.year <= _LAST_YEAR:
        wanted = f"a year between {_FIRST_YEAR} and {_LAST_YEAR}"
        raise ValueError(f"found {typed!r}; wanted {wanted}")
    return Moment(typed, datetime.combine(at, _NOON) if whole_day else at, None, whole_day)


def read_zone(typed: str) -> str:
    """The name of a time zone, checked against the IANA list.

    Raises:
        ValueError: no such zone.
    """
    if zone_called(typed) is None:
        raise ValueError(f"found {typed!r}; wanted an IANA zone such as 'Europe/Lisbon'")
    return typed


def zone_of(name: "str | NotLogged") -> tzinfo:
    """The zone called `name`; UTC where the record names none."""
    return ZoneInfo(name) if isinstance(name, str) else UTC


When: TypeAlias = Annotated[
    Moment | NotLogged,
    ReadBy(
        optional(read_moment),
        {"type": ["string", "null"], "description": f"A date or time: {_EXAMPLES}."},
    ),
]
Zone: TypeAlias = Annotated[
    str | NotLogged,
    ReadBy(optional(read_zone), {"type": ["string", "null"], "description": "An IANA time zone."}),
]
