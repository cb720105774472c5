"""Entries that cannot be (refused) and entries that look odd (said, and used all the same)."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

from diagnose.batch.entries import NotLogged, logged_entries
from diagnose.batch.moments import Moment
from diagnose.batch.record import BatchRecord
from diagnose.batch.timeline import is_over_by, resolved, slack_of
from diagnose.documents import Document, Path
from diagnose.documents.document import dotted
from diagnose.errors import Fault
from diagnose.units import Field, Reading, suggest_other_scale

# Widest band in which an entry can be true of a beer, in C. Judgement: beyond it, it is a slip.
_TEMPERATURE_BANDS_C: dict[Path, tuple[float, float]] = {
    ("mash", "at"): (30.0, 85.0),
    ("sparge", "at"): (5.0, 101.0),
    ("hot_stand", "at"): (40.0, 101.0),
    ("chill", "to"): (-1.0, 45.0),
    ("pitch", "at"): (0.0, 45.0),
    ("pitch", "yeast", "stored_at"): (-25.0, 45.0),
    ("fermentation", "temperature"): (-2.0, 45.0),
    ("fermentation", "peak"): (-2.0, 48.0),
    ("fermentation", "crashed_to"): (-5.0, 25.0),
    ("serving", "at"): (-3.0, 30.0),
}
# The same for the key `at` of every item of a list.
_LISTED_BANDS_C: dict[Path, tuple[float, float]] = {
    ("mash", "rests"): (25.0, 101.0),
    ("fermentation", "steps"): (-5.0, 45.0),
    ("storage",): (-25.0, 60.0),
    ("tastings",): (-3.0, 35.0),
}
# The longest such a thing can take, in h. Judgement: beyond it, hours were written for minutes.
_LONGEST_H: dict[Path, float] = {
    ("mash", "time"): 48.0,
    ("boil", "time"): 12.0,
    ("hot_stand", "time"): 48.0,
    ("chill", "time"): 96.0,
    ("pitch", "oxygen", "time"): 24.0,
    ("fermentation", "lag"): 240.0,
}
_ORDER: tuple[tuple[str, Path], ...] = (
    ("the batch was brewed", ("brewed",)),
    ("the yeast was pitched", ("pitch", "when")),
    ("the gravity stopped falling", ("fermentation", "finished")),
    ("the beer was crashed", ("fermentation", "crashed")),
    ("the beer was packaged", ("packaging", "when")),
)
# The one date in a record that may lie ahead.
_MAY_LIE_AHEAD = "best_before"
# The one volume in a record that may be none.
_MAY_BE_EMPTY = "headspace"
_GRAVITY_SLACK = 0.002
_LEAST_USUAL_ATTENUATION = 0.50
_MOST_USUAL_ATTENUATION = 0.92
_USUAL_BEER_PH = (3.0, 4.9)
# The most of one line of the recipe in a litre [g]: the grist of a barley wine, fresh hops.
# Judgement: beyond it, it is a slip.
_MOST_G_PER_L = {"fermentables": 800.0, "hops": 120.0}


@dataclass(frozen=True)
class Doubt:
    """An entry that was accepted although it looks odd."""

    line: int
    key: str
    text: str


def impossible(record: BatchRecord, document: Document, today: date) -> list[Fault]:
    """Every entry that cannot be true, as faults with their lines."""
    return sorted(
        [
            *_impossible_temperatures(record, document),
            *_endless_times(record, document),
            *_future_dates(record, document, today),
            *_dates_out_of_order(record, document),
            *_gravity_rises(record, document),
            *_empty_vessels(record, document),
            *_overfull_packages(record, document),
        ]
    )


def doubts(record: BatchRecord, document: Document) -> list[Doubt]:
    """Entries worth a second look: attenuation, pH and amounts outside what beer usually has."""
    return [
        *_odd_attenuation(record, document),
        *_odd_ph(record, document),
        *_odd_amounts(record, document),
    ]


def _impossible_temperatures(record: BatchRecord, document: Document) -> list[Fault]:
    banded = [(path, _at(record, path), band) for path, band in _TEMPERATURE_BANDS_C.items()]
    for where, band in _LISTED_BANDS_C.items():
        for index, item in enumerate(_at(record, where)):
            banded.append(((*where, index, "at"), item.at, band))
    found = []
    for path, reading, (low_c, high_c) in banded:
        if isinstance(reading, Reading) and not low_c <= reading.value <= high_c:
            hint = suggest_other_scale(reading, low_c, high_c)
            wanted = f"between {low_c:.0f} and {high_c:.0f} C here" + (f"; {hint}" if hint else "")
            found.append(document.fault(path, reading.typed, wanted))
    return found


def _at(record: BatchRecord, path: Path) -> Any:
    value: Any = record
    for step in path:
        value = getattr(value, str(step))
    return value


def _endless_times(record: BatchRecord, document: Document) -> list[Fault]:
    found = []
    for path, longest_h in _LONGEST_H.items():
        reading = _at(record, path)
        if isinstance(reading, Reading) and reading.value > longest_h:
            wanted = f"at most {longest_h:.0f} h here"
            found.append(document.fault(path, reading.typed, wanted))
    return found


def _future_dates(record: BatchRecord, document: Document, today: date) -> list[Fault]:
    tomorrow = today + timedelta(days=1)
    found = []
    for path, moment in logged_entries(record):
        when = resolved(record, moment) if isinstance(moment, Moment) else None
        if when is not None and when.date() > tomorrow and path[-1] != _MAY_LIE_AHEAD:
            wanted = f"a date not after today ({today.isoformat()})"
            found.append(document.fault(path, moment.typed, wanted))
    return found


def _dates_out_of_order(record: BatchRecord, document: Document) -> list[Fault]:
    found = []
    earlier_name, earlier, earlier_slack = "", None, timedelta(0)
    for name, path in _ORDER:
        moment = _at(record, path)
        when = resolved(record, moment) if isinstance(moment, Moment) else None
        if when is None or not isinstance(moment, Moment):
            continue
        slack = slack_of(moment)
        if earlier is not None and is_over_by(when, slack, earlier - earlier_slack):
            wanted = f"a date after {earlier_name} ({earlier.date().isoformat()})"
            found.append(document.fault(path, moment.typed, wanted))
            continue
        earlier_name, earlier, earlier_slack = name, when, slack
    return found


def _gravity_rises(record: BatchRecord, document: Document) -> list[Fault]:
    original = record.gravity.original
    ends = {"final": record.gravity.final, "forced_final": record.gravity.forced_final}
    return [
        document.fault(
            ("gravity", key), end.typed, f"a final gravity below the original ({original.typed})"
        )
        for key, end in ends.items()
        if isinstance(end, Reading)
        and isinstance(original, Reading)
        and end.value > original.value + _GRAVITY_SLACK
    ]


def _empty_vessels(record: BatchRecord, document: Document) -> list[Fault]:
    return [
        document.fault(path, entry.typed, "more than nothing, or 'unknown'")
        for path, entry in logged_entries(record)
        if isinstance(entry, Reading)
        and entry.unit == Field.VOLUME.unit
        and entry.value == 0
        and path[-1] != _MAY_BE_EMPTY
    ]


def _overfull_packages(record: BatchRecord, document: Document) -> list[Fault]:
    room, size = record.packaging.headspace, record.packaging.size
    if isinstance(room, NotLogged) or isinstance(size, NotLogged) or room.low < size.high:
        return []
    wanted = f"less than the package holds ({size.typed})"
    return [document.fault(("packaging", "headspace"), room.typed, wanted)]


def _odd_attenuation(record: BatchRecord, document: Document) -> list[Doubt]:
    original, final = record.gravity.original, record.gravity.final
    if isinstance(original, NotLogged) or isinstance(final, NotLogged) or original.value <= 1.01:
        return []
    share = (original.value - final.value) / (original.value - 1)
    if _LEAST_USUAL_ATTENUATION <= share <= _MOST_USUAL_ATTENUATION:
        return []
    text = (
        f"{100.0 * share:.0f} % apparent attenuation is outside the usual 50-92 %: "
        "read the hydrometer again, and mind the sample's temperature"
    )
    if share > _MOST_USUAL_ATTENUATION:
        text += "; wild yeast, an enzyme or much sugar can take a beer there"
    return [Doubt(document.line(("gravity", "final")), "gravity.final", text)]


def _odd_ph(record: BatchRecord, document: Document) -> list[Doubt]:
    low, high = _USUAL_BEER_PH
    found = []
    for index, reading in enumerate(record.gravity.readings):
        if isinstance(reading.ph, Reading) and not low <= reading.ph.value <= high:
            line = document.line(("gravity", "readings", index, "ph"))
            usual = f"outside {low}-{high} for beer"
            text = f"pH {reading.ph.typed} is {usual}: check the meter in a buffer"
            found.append(Doubt(line, f"gravity.readings[{index + 1}].ph", text))
    return found


def _odd_amounts(record: BatchRecord, document: Document) -> list[Doubt]:
    """A line of the recipe that no batch of this volume holds: grams written as kilograms."""
    volume = record.volume
    if isinstance(volume, NotLogged) or volume.low <= 0.0:
        return []
    found = []
    for kind, most in _MOST_G_PER_L.items():
        for index, item in enumerate(getattr(record.recipe, kind)):
            amount = item.amount
            if isinstance(amount, NotLogged) or amount.low / volume.high <= most:
                continue
            path = ("recipe", kind, index, "amount")
            share = f"{amount.value / volume.value:.0f} g/L"
            text = f"{amount.typed} in {volume.typed} is {share}: are both units right?"
            found.append(Doubt(document.line(path), dotted(path), text))
    return found
