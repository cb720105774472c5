"""Records and probe logs at random: any section, any entry, ordinary, doubtful or absurd."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any, get_args

from hypothesis import strategies as st
from pydantic.fields import FieldInfo

from diagnose.batch import BatchRecord, Moment, NotLogged, Section
from diagnose.batch.entries import ReadBy
from tests.knowledge.shipped import rule_base

BREWED = date(2026, 3, 14)
# Amounts as people write them, by the base unit of the entry: usual, small, large, in doubt.
QUANTITIES = {
    "C": ("20 C", "66 C", "4 C", "150 F", "0 C", "-18 C", "35 C", "95 C", "18-24 C", "about 30 C"),
    "L": (
        "20 L",
        "5 US gal",
        "25 mL",
        "1 mL",
        "0.5 L",
        "1 L",
        "500 L",
        "18-22 L",
        "about 12 L",
        "0-20 L",
    ),
    "g": (
        "5 kg",
        "100 g",
        "0.4 g",
        "0 g",
        "2 lb 8 oz",
        "1 g",
        "20 kg",
        "2-4 kg",
        "about 11 g",
        "0-2 kg",
    ),
    "SG": ("1.050", "1.012", "1.000", "0.998", "1.110", "12 P", "1.010-1.014", "about 1.020"),
    "h": (
        "60 min",
        "14 days",
        "0 min",
        "1 month",
        "2 years",
        "5 min",
        "about 3 weeks",
        "0-20 days",
    ),
    "mg/L": ("50 mg/L", "0 mg/L", "0.5 mg/L", "8 ppm", "about 100 mg/L", "900 mg/L"),
    "pH": ("5.4", "4.3", "6.4", "3.1", "about 5.6"),
    "%": ("5 %", "75 %", "0 %", "100 %", "12 %", "0-9 %"),
    "billion cells": ("100 billion", "0 billion", "5e11", "about 200 billion"),
    "volumes": ("2.4 volumes", "4.5 volumes", "about 3 volumes", "0 volumes"),
}
TEXTS = (
    "lactose",
    "glass demijohn in a cupboard",
    "oak cubes in the fermenter",
    "fermenter, day 6",
    "pale malt",
    "Ada",
    "butter, and a bit of cabbage",
    "it gushes and smells of clove",
    "new hose",
    "=1+1 \u00fc \u2603",
    "no oak",
)


# Where a temperature is that of hot wort, and where the beer has nearly none left to lose.
HOT = {
    "mash": ("66 C", "62-68 C", "78 C", "40 C", "150 F"),
    "sparge": ("76 C", "82-90 C", "about 60 C"),
    "hot_stand": ("90 C", "about 70 C"),
}
# A brew day is counted in minutes, whatever else is counted in weeks.
SHORT = ("60 min", "0 min", "5 min", "about 90 min", "2 h", "10 h", "60 min +/- 60 min")
BREW_DAY = ("mash", "boil", "hot_stand", "chill", "oxygen", "lag", "boiled")
FILLED = {
    "size": ("500 mL", "0.33 L", "19 L", "5 US gal"),
    "headspace": ("25 mL", "0 mL", "about 15 mL", "10-40 mL"),
}
SERVED = {"serving": ("8 C", "about 12 C"), "crashed_to": ("2 C", "-1 C", "about 4 C")}
GRAVITIES = {"original": ("1.050", "1.036", "1.110", "12 P"), "forced_final": ("1.008", "1.014")}
ENDED = ("1.012", "0.998", "1.010-1.014", "about 1.020")
# Days after brewing on which things happen, as a rule; now and then on any day.
DAYS = {
    "pitch": (0, 1),
    "finished": (4, 12),
    "crashed": (12, 16),
    "off_yeast": (12, 20),
    "readings": (3, 40),
    "packaging": (16, 25),
    "storage": (20, 60),
    "tastings": (20, 150),
    "steps": (0, 14),
    "events": (0, 20),
    "hops": (0, 14),
}
# A full record has some hundred entries; with more slips than this none of them could be read.
SLIPS_ONE_IN = 50
Place = tuple[str, ...]


@dataclass(frozen=True)
class Writer:
    """Someone who fills in a record: one who means it, or one whose pen slips now and then."""

    slips: bool

    def moments(self, place: Place) -> st.SearchStrategy[str]:
        low, high = next((DAYS[step] for step in reversed(place) if step in DAYS), (-300, -1))
        days = self._mostly(st.integers(low, high), st.integers(-30, 150))
        dates = days.map(lambda day: (BREWED + timedelta(days=day)).isoformat())
        timed = st.tuples(dates, st.integers(0, 23)).map(lambda one: f"{one[0]} {one[1]:02d}:30")
        return dates | timed | days.filter(lambda day: day >= 0).map(lambda day: f"day {day}")

    def quantities(self, place: Place, unit: str) -> st.SearchStrategy[str]:
        fitting, anything = fitting_amounts(place, unit), QUANTITIES[unit]
        return self._mostly(st.sampled_from(fitting), st.sampled_from(anything))

    def _mostly(
        self, usual: st.SearchStrategy[Any], anything: st.SearchStrategy[Any]
    ) -> st.SearchStrategy[Any]:
        return st.one_of(*[usual] * (SLIPS_ONE_IN - 1), anything) if self.slips else usual

    def entries(self, place: Place, field: FieldInfo) -> st.SearchStrategy[Any]:
        """Texts that an entry may be given, or its items where it is a list or a section."""
        kind, inner = field.annotation, get_args(field.annotation)
        if isinstance(kind, type) and issubclass(kind, Section):
            return self.sections(kind, place)
        if inner and isinstance(inner[0], type) and issubclass(inner[0], Section):
            return st.lists(self.sections(inner[0], place), max_size=3)
        if kind == Moment | NotLogged:
            return self.moments(place)
        schema = next((one.json_schema for one in field.metadata if isinstance(one, ReadBy)), {})
        if "enum" in schema:
            return st.sampled_from([word for word in schema["enum"] if word is not None])
        if "x-base-unit" in schema:
            return self.quantities(place, schema["x-base-unit"])
        return texts(place[-1])

    def sections(self, kind: type[Section], place: Place = ()) -> st.SearchStrategy[dict[str, Any]]:
        """Most of a section's keys, filled in."""
        keys = {
            name: self.entries((*place, name), field)
            for name, field in kind.model_fields.items()
            if name not in ("fault", "checks", "probe_log", "probe_profile", "brewed")
        }
        every, some = st.fixed_dictionaries(keys), st.fixed_dictionaries({}, optional=keys)
        return every | some


def fitting_amounts(place: Place, unit: str) -> tuple[str, ...]:
    """Amounts that a record may have in this place."""
    if unit == "C":
        placed = {**HOT, **SERVED}
        usual = ("20 C", "4 C", "18-24 C", "about 15 C", "64 F")
        return next((placed[step] for step in place if step in placed), usual)
    if unit == "SG":
        return GRAVITIES.get(place[-1], ENDED)
    if place[-1] in FILLED:
        return FILLED[place[-1]]
    if unit == "h" and any(step in BREW_DAY for step in place):
        return SHORT
    return QUANTITIES[unit]


def texts(name: str) -> st.SearchStrategy[str]:
    known = {
        "zone": ("UTC", "Europe/Lisbon"),
        "style": tuple(rule_base().styles),
        "family": tuple(rule_base().yeasts),
    }
    return st.sampled_from(known.get(name, TEXTS))


def records() -> st.SearchStrategy[dict[str, Any]]:
    """Whole records, brewed on one day so that spans of time come about; few of them slip."""
    meant, slipping = (_records_by(Writer(slips)) for slips in (False, True))
    return st.one_of(meant, meant, meant, slipping)


def records_without_slips() -> st.SearchStrategy[dict[str, Any]]:
    """Whole records that can be read as a rule, to stand beside a log that may not."""
    return _records_by(Writer(slips=False))


def _records_by(writer: Writer) -> st.SearchStrategy[dict[str, Any]]:
    drawn = writer.sections(BatchRecord)
    return drawn.map(lambda data: {"brewed": BREWED.isoformat(), **data})


def cells() -> st.SearchStrategy[str]:
    """A cell of a logger's export: a reading, a slip, or nothing."""
    usual = st.floats(-5, 40).map(lambda value: f"{value:.1f}")
    return usual | usual | st.sampled_from(["", "-127", "85.0", "nan", "inf", "err", "1e308", "--"])


def probe_logs() -> st.SearchStrategy[str]:
    """A logger's export: mostly a reading an hour, with rows and headings gone wrong."""
    headings = ["time,beer temperature (C)", "time,temp", "time;beer (C);gravity", "when,room (F)"]
    row = st.tuples(st.integers(0, 400), cells(), cells())
    rows = st.lists(row, min_size=2, max_size=60) | st.lists(row, max_size=60)
    scattered = st.tuples(st.sampled_from([*headings * 3, ""]), rows)
    return st.one_of(scattered, steady_logs(headings), steady_logs(headings)).map(_export)


def steady_logs(headings: list[str]) -> st.SearchStrategy[tuple[str, list[tuple[int, str, str]]]]:
    """A log that runs from about pitching on, drifts, and slips here and there."""
    slips = st.dictionaries(st.integers(0, 399), cells(), max_size=8)
    drawn = (st.integers(0, 30), st.integers(24, 400), st.floats(-2, 35), st.floats(-0.05, 0.05))
    return st.tuples(st.sampled_from(headings), st.tuples(*drawn), slips).map(
        lambda one: (one[0], _steady(*one[1], slips=one[2]))
    )


def _steady(
    first_h: int, rows: int, begins: float, per_h: float, *, slips: dict[int, str]
) -> list[tuple[int, str, str]]:
    cells_of = {row: f"{begins + per_h * row:.1f}" for row in range(rows)}
    return [
        (first_h + row, slips.get(row, cell), f"{max(1.05 - 0.0003 * row, 1.008):.4f}")
        for row, cell in cells_of.items()
    ]


def _export(drawn: tuple[str, list[tuple[int, str, str]]]) -> str:
    heading, rows = drawn
    mark = ";" if ";" in heading else ","
    lines = [heading]
    for hours, one, other in rows:
        stamp = f"{BREWED + timedelta(days=hours // 24)} {hours % 24:02d}:00"
        lines.append(mark.join([stamp, one, other][: heading.count(mark) + 1]))
    return "\n".join(lines) + "\n"
