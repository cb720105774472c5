"""Records and probe logs at random: any section, any entry, ordinary, doubtful or absurd."""

from datetime import date, timedelta
from typing import Any, get_args

from hypothesis import strategies as st
from pydantic import WithJsonSchema
from pydantic.fields import FieldInfo

from diagnose.batch import BatchRecord, Section
from tests.knowledge.shipped import rule_base

BREWED = date(2026, 3, 14)
# Amounts as people write them, by the base unit of the entry: usual, small, large, in doubt.
QUANTITIES = {
    "C": ("20 C", "66 C", "4 C", "150 F", "0 C", "-18 C", "35 C", "95 C", "18-24 C", "about 30 C"),
    "L": ("20 L", "5 US gal", "25 mL", "0.5 L", "1 L", "500 L", "18-22 L", "about 12 L", "30 L"),
    "g": ("5 kg", "100 g", "0.4 g", "0 g", "2 lb 8 oz", "1 g", "20 kg", "2-4 kg", "about 11 g"),
    "SG": ("1.050", "1.012", "1.000", "0.998", "1.110", "12 P", "1.010-1.014", "about 1.020"),
    "h": ("60 min", "14 days", "0 min", "1 month", "2 years", "5 min", "about 3 weeks", "10 h"),
    "mg/L": ("50 mg/L", "0 mg/L", "0.5 mg/L", "8 ppm", "about 100 mg/L", "900 mg/L"),
    "pH": ("5.4", "4.3", "6.4", "3.1", "about 5.6"),
    "%": ("5 %", "75 %", "0 %", "100 %", "12 %", "5-9 %"),
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
HOT = {"mash": ("66 C", "62-68 C", "78 C", "40 C", "150 F"), "hot_stand": ("90 C", "about 70 C")}
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
Place = tuple[str, ...]


def moments(place: Place) -> st.SearchStrategy[str]:
    low, high = next((DAYS[step] for step in reversed(place) if step in DAYS), (-300, -1))
    usual, any_day = st.integers(low, high), st.integers(-30, 150)
    days = st.one_of(*[usual] * 9, any_day)
    dates = days.map(lambda day: (BREWED + timedelta(days=day)).isoformat())
    timed = st.tuples(dates, st.integers(0, 23)).map(lambda one: f"{one[0]} {one[1]:02d}:30")
    return dates | timed | days.filter(lambda day: day >= 0).map(lambda day: f"day {day}")


def quantities(place: Place, unit: str) -> st.SearchStrategy[str]:
    """Amounts that suit the place, and one in ten that may not."""
    anything = QUANTITIES[unit]
    fitting = anything
    if unit == "C":
        fitting = next(
            (({**HOT, **SERVED})[step] for step in place if step in {**HOT, **SERVED}), ()
        )
        fitting = fitting or ("20 C", "4 C", "18-24 C", "about 15 C", "64 F")
    if unit == "SG":
        fitting = GRAVITIES.get(place[-1], ENDED)
    return st.one_of(*[st.sampled_from(fitting)] * 19, st.sampled_from(anything))


def entries(place: Place, field: FieldInfo) -> st.SearchStrategy[Any]:
    """Texts that an entry may be given, or its items where it is a list or a section."""
    kind, inner = field.annotation, get_args(field.annotation)
    if isinstance(kind, type) and issubclass(kind, Section):
        return sections(kind, place)
    if inner and isinstance(inner[0], type) and issubclass(inner[0], Section):
        return st.lists(sections(inner[0], place), max_size=3)
    written = [one.json_schema for one in field.metadata if isinstance(one, WithJsonSchema)]
    schema = dict(written[0] or {}) if written else {}
    if "enum" in schema:
        return st.sampled_from([word for word in schema["enum"] if word is not None])
    if "x-base-unit" in schema:
        return quantities(place, schema["x-base-unit"])
    if "date" in str(schema.get("description", "")):
        return moments(place)
    return texts(place[-1])


def texts(name: str) -> st.SearchStrategy[str]:
    known = {
        "zone": ("UTC", "Europe/Lisbon"),
        "style": tuple(rule_base().styles),
        "family": tuple(rule_base().yeasts),
    }
    return st.sampled_from(known.get(name, TEXTS))


def sections(kind: type[Section], place: Place = ()) -> st.SearchStrategy[dict[str, Any]]:
    """Most of a section's keys, filled in."""
    keys = {
        name: entries((*place, name), field)
        for name, field in kind.model_fields.items()
        if name not in ("fault", "checks", "probe_log", "brewed")
    }
    every, some = st.fixed_dictionaries(keys), st.fixed_dictionaries({}, optional=keys)
    return every | some


def records() -> st.SearchStrategy[dict[str, Any]]:
    """Whole records, brewed on one day so that spans of time come about."""
    return sections(BatchRecord).map(lambda data: {"brewed": BREWED.isoformat(), **data})


def cells() -> st.SearchStrategy[str]:
    """A cell of a logger's export: a reading, a slip, or nothing."""
    usual = st.floats(-5, 40).map(lambda value: f"{value:.1f}")
    return usual | usual | st.sampled_from(["", "-127", "85.0", "nan", "inf", "err", "1e308", "--"])


def probe_logs() -> st.SearchStrategy[str]:
    """A logger's export: mostly a reading an hour, with rows and headings gone wrong."""
    headings = st.sampled_from(
        ["time,beer temperature (C)", "time,temp", "time;beer (C);gravity", "when,room (F)", ""]
    )
    rows = st.lists(st.tuples(st.integers(0, 400), cells(), cells()), max_size=60)
    return st.tuples(headings, rows).map(_export)


def _export(drawn: tuple[str, list[tuple[int, str, str]]]) -> str:
    heading, rows = drawn
    mark = ";" if ";" in heading else ","
    lines = [heading]
    for hours, one, other in rows:
        stamp = f"{BREWED + timedelta(days=hours // 24)} {hours % 24:02d}:00"
        lines.append(mark.join([stamp, one, other][: heading.count(mark) + 1]))
    return "\n".join(lines) + "\n"
