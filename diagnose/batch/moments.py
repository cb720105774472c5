"""When something happened: a date, a date with a time, or a day of the batch ("day 6")."""

import re
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Annotated, TypeAlias
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import PlainValidator, WithJsonSchema

from diagnose.batch.entries import NotLogged, optional

_DAY_OF_BATCH = re.compile(r"day\s+(\d+(?:[.,]\d+)?)", re.IGNORECASE)
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
        ValueError: not ISO 8601 and not "day N"; says which forms are read.
    """
    match = _DAY_OF_BATCH.fullmatch(typed)
    if match:
        return Moment(typed, None, float(match[1].replace(",", ".")), whole_day=False)
    try:
        if len(typed) == len("2026-09-12"):
            return Moment(typed, datetime.combine(date.fromisoformat(typed), _NOON), None, True)
        return Moment(typed, datetime.fromisoformat(typed), None, whole_day=False)
    except ValueError:
        raise ValueError(f"found {typed!r}; wanted a date as {_EXAMPLES}") from None


def read_zone(typed: str) -> str:
    """The name of a time zone, checked against the IANA list.

    Raises:
        ValueError: no such zone.
    """
    try:
        ZoneInfo(typed)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise ValueError(f"found {typed!r}; wanted an IANA zone such as 'Europe/Lisbon'") from None
    return typed


def zone_of(name: "str | NotLogged") -> tzinfo:
    """The zone called `name`; UTC where the record names none."""
    return ZoneInfo(name) if isinstance(name, str) else UTC


When: TypeAlias = Annotated[
    Moment | NotLogged,
    PlainValidator(optional(read_moment)),
    WithJsonSchema({"type": ["string", "null"], "description": f"A date or time: {_EXAMPLES}."}),
]
Zone: TypeAlias = Annotated[
    str | NotLogged,
    PlainValidator(optional(read_zone)),
    WithJsonSchema({"type": ["string", "null"], "description": "An IANA time zone."}),
]
