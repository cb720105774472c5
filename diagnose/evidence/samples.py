"""An ordinary value for every entry of a record, to try what would come of it being known."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from typing import Any, Final, get_args

from pydantic.fields import FieldInfo

from diagnose.batch import BatchRecord, Moment, NotLogged, Section, logged_entries
from diagnose.batch.entries import ReadBy
from diagnose.documents import Path
from diagnose.knowledge import RuleBase

# Nothing rests on these but which entries a measure wants; they are ordinary, and coherent.
_BY_PATH: Final[Mapping[str, str]] = {
    "mash.at": "66 C",
    "mash.rests.at": "66 C",
    "sparge.at": "76 C",
    "hot_stand.at": "90 C",
    "fermentation.crashed_to": "2 C",
    "boil.volume_before": "26 L",
    "boil.volume_after": "23 L",
    "gravity.final": "1.012",
    "gravity.forced_final": "1.010",
    "gravity.readings.gravity": "1.012",
    "sparge.last_runnings": "1.010",
    "gravity.readings.ph": "4.4",
    "gravity.attenuation": "75 %",
    "pitch.yeast.volume": "200 mL",
    "pitch.yeast.amount": "11 g",
    "pitch.yeast.age": "1 month",
    "recipe.fermentables.amount": "4 kg",
    "packaging.headspace": "20 mL",
    "packaging.size": "500 mL",
    "storage.time": "20 days",
    "fermentation.vessel": "plastic bucket",
    "equipment.changes.what": "new hose",
    "tastings.words": "butter",
    "recipe.fermentables.name": "pale malt",
    "recipe.fermentables.added": "boil",
    "recipe.other.name": "whirlpool tablet",
    "recipe.other.added": "boil",
}
_DAY_OF_BATCH: Final[Mapping[str, int]] = {
    "brewed": 0,
    "pitch.when": 0,
    "fermentation.steps.since": 0,
    "fermentation.finished": 8,
    "recipe.hops.added": 9,
    "events.when": 9,
    "fermentation.crashed": 12,
    "gravity.readings.when": 12,
    "fermentation.off_yeast": 13,
    "packaging.when": 14,
    "storage.since": 14,
    "tastings.when": 40,
}
_BY_UNIT: Final[Mapping[str, str]] = {
    "C": "20 C",
    "L": "20 L",
    "g": "100 g",
    "h": "60 min",
    "SG": "1.050",
    "mg/L": "1 mg/L",
    "pH": "5.4",
    "%": "6 %",
    "billion cells": "200 billion",
    "volumes": "2.4 volumes",
}
_UNKNOWN: Final = ("unknown", None)
_BEFORE_EVERYTHING: Final = timedelta(days=14)
_SOME_DAY: Final = date(2024, 3, 1)


@dataclass(frozen=True)
class Samples:
    """Values to suppose, for one rule base and the dates of one record."""

    rules: RuleBase
    record: BatchRecord

    def of(self, path: Path) -> Any:
        """An ordinary value for the entry at `path`, read as if it were typed."""
        return _read(_field_at(_plain(path)), self._typed(path))

    def words_of(self, path: Path) -> tuple[str, ...]:
        """The words the entry may take, where it takes one of a list."""
        words = _schema(_field_at(_plain(path))).get("enum", ())
        return tuple(word for word in words if word not in _UNKNOWN)

    def _typed(self, path: Path) -> str:
        plain = _plain(path)
        if plain == ("style",):
            return next(iter(self.rules.styles))
        if plain == ("pitch", "yeast", "family"):
            return next(iter(self.rules.yeasts))
        key = ".".join(plain)
        if key in _BY_PATH:
            return _BY_PATH[key]
        if _field_at(plain).annotation == Moment | NotLogged:
            return self._day(_DAY_OF_BATCH.get(key, 0), path)
        schema = _schema(_field_at(plain))
        words = self.words_of(path)
        return words[0] if words else _BY_UNIT.get(schema.get("x-base-unit", ""), "as usual")

    def _day(self, number: int, path: Path) -> str:
        """A day of the batch; items of a list follow one another, four days apart."""
        number += 4 * sum(step for step in path if isinstance(step, int))
        if isinstance(self.record.brewed, Moment) and number:
            return f"day {number}"
        logged = (value for _, value in logged_entries(self.record))
        known = [one.at.date() for one in logged if isinstance(one, Moment) and one.at]
        first = min(known) - _BEFORE_EVERYTHING if known else _SOME_DAY
        return (first + timedelta(days=number)).isoformat()


def _plain(path: Path) -> tuple[str, ...]:
    return tuple(step for step in path if isinstance(step, str))


@cache
def _field_at(plain: tuple[str, ...]) -> FieldInfo:
    section: type[Section] = BatchRecord
    for step in plain[:-1]:
        kind: Any = section.model_fields[step].annotation
        section = get_args(kind)[0] if get_args(kind) else kind
    return section.model_fields[plain[-1]]


def _schema(field: FieldInfo) -> Mapping[str, Any]:
    reader = _reader(field)
    return reader.json_schema if reader else {}


def _read(field: FieldInfo, typed: str) -> Any:
    reader = _reader(field)
    return typed if reader is None else reader.read(typed)


def _reader(field: FieldInfo) -> ReadBy | None:
    return next((one for one in field.metadata if isinstance(one, ReadBy)), None)
