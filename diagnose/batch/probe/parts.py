"""Which column plays which part: by its header first, by its values only when no header tells."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from diagnose.batch.probe.choices import PART_WORDS, plain_name
from diagnose.batch.probe.figures import Figures, Sorted
from diagnose.batch.probe.log import FloatArray, Note, Role
from diagnose.batch.probe.table import Table
from diagnose.errors import Fault, UnusableInput

# Common practice: no wort or beer lies outside these gravities, no probe outside these degrees.
GRAVITY_RANGE_SG = (0.980, 1.200)
PROBE_RANGE = (-20.0, 120.0)
# Judgement: one odd reading in ten does not change what a column is.
MOST = 0.9
# Judgement: more names than this in a column are remarks, not sensors.
MOST_SENSORS = 50
_NAMED: tuple[Role, ...] = (
    "beer_temperature",
    "air_temperature",
    "set_point",
    "gravity",
    "pressure",
    "battery",
)
_PLAIN = {
    "beer_temperature": "beer temperature",
    "air_temperature": "air temperature",
    "set_point": "set point",
}


@dataclass(frozen=True)
class Parts:
    """Which column (by its place in the file) plays which part, and why; filled in step by step."""

    roles: dict[int, Role] = field(default_factory=dict)
    whys: dict[int, str] = field(default_factory=dict)
    notes: list[Note] = field(default_factory=list)

    def give(self, at: int, role: Role, why: str) -> None:
        """Let a column play a part that is still free; otherwise it stays unknown and says why."""
        if role not in ("unknown", "comment") and role in self.roles.values():
            why = f"another column is read as {plain(role)} already"
            role = "unknown"
            self.notes.append(Note("info", f"column {at + 1} was left aside: {why}"))
        self.roles[at], self.whys[at] = role, why


def plain(role: Role) -> str:
    """A part in a brewer's words."""
    return _PLAIN.get(role, role)


def share_out(columns: Sorted, table: Table, answers: Mapping[str, str] | None = None) -> Parts:
    """The part each column plays.

    Args:
        columns: the columns beside the time.
        table: the table they are from.
        answers: the parts that the reader gives to columns, by header or number.

    Raises:
        UnusableInput: several sensors share one column, no column can be read as anything, or an
            answer is about no column of numbers.
    """
    _refuse_mixed_sensors(columns, table)
    parts = Parts()
    for said, word in (answers or {}).items():
        parts.give(_meant(said, columns, table), PART_WORDS[word], "as answered")
    for column in columns.figures:
        if column.at not in parts.roles:
            _by_header(parts, column)
    _plain_temperatures(parts, [one for one in columns.figures if one.at not in parts.roles])
    open_ones = [one for one in columns.figures if one.at not in parts.roles]
    if not set(_NAMED[:5]) & set(parts.roles.values()):
        _by_values(parts, open_ones, table.first_line)
    for one in open_ones:
        if one.at not in parts.roles:
            why = "its header says nothing that measures use" if one.header else "it has no header"
            parts.give(one.at, "unknown", why)
    for words in columns.words:
        remark = words.heading.part == "comment" or (not words.header and words.texts)
        why = f"headed {words.heading.word!r}" if words.heading.word else "words, no numbers"
        parts.give(words.at, "comment" if remark else "unknown", why if words.texts else "empty")
    if not set(_NAMED[:5]) & set(parts.roles.values()):
        names = ", ".join(repr(one.header) for one in columns.figures[:6])
        wanted = "a column of temperatures, gravities or pressures, named in the header"
        raise UnusableInput(Fault(table.name, table.first_line, "", f"columns {names}", wanted))
    return parts


def _meant(said: str, columns: Sorted, table: Table) -> int:
    """The column of numbers that an answer is about, by its header or its number from 1."""
    named = [one for one in columns.figures if plain_name(one.header) == plain_name(said)]
    numbered = [one for one in columns.figures if str(one.at + 1) == said.strip()]
    found = named or numbered
    if not found:
        names = ", ".join(f"{one.at + 1} {one.header!r}" for one in columns.figures)
        wanted = f"one of the columns of numbers, by name or number: {names}"
        raise UnusableInput(Fault(table.name, table.first_line, "column", repr(said), wanted))
    return found[0].at


def _refuse_mixed_sensors(columns: Sorted, table: Table) -> None:
    for words in columns.words:
        if words.heading.part == "device" and 2 <= len(words.texts) <= MOST_SENSORS:
            names = ", ".join(sorted(words.texts)[:4])
            _refuse_sensors(
                table, words.header, f"{len(words.texts)} sensors in one column ({names})"
            )
    named = [one for one in columns.figures if one.heading.part in (*_NAMED, "temperature")]
    devices = [one for one in columns.figures if one.heading.part == "device"]
    for one in devices if named else []:
        numbers = np.unique(one.values[np.isfinite(one.values)])
        whole = bool(np.all(numbers == np.floor(numbers)))
        if whole and 2 <= len(numbers) <= MOST_SENSORS:
            _refuse_sensors(table, one.header, f"{len(numbers)} sensor numbers in one column")


def _refuse_sensors(table: Table, header: str, found: str) -> None:
    wanted = "one sensor a file, or one column a sensor"
    raise UnusableInput(Fault(table.name, table.first_line, header, found, wanted))


def _by_header(parts: Parts, column: Figures) -> None:
    part, _, word = column.heading
    if part == "other":
        parts.give(column.at, "unknown", f"headed {word!r}, which measures do not use")
    elif part == "comment":
        parts.give(column.at, "comment", f"headed {word!r}")
    for role in _NAMED:
        if part == role:
            parts.give(column.at, role, f"headed {word!r}")


def _plain_temperatures(parts: Parts, columns: list[Figures]) -> None:
    """The first temperature that names nothing is the beer's, unless another column is."""
    some = [
        one for one in columns if one.heading.part == "temperature" or one.unit in ("C", "F", "K")
    ]
    free = "beer_temperature" not in parts.roles.values()
    if len(some) > 1 and free:
        text = (
            f"{len(some)} temperatures do not say what they are of;"
            f" {some[0].header!r} was read as the beer's. Is it?"
        )
        parts.notes.append(Note("ask", text))
    for number, one in enumerate(some):
        if free and number == 0:
            why = "the only temperature" if len(some) == 1 else "the first of several temperatures"
            parts.give(one.at, "beer_temperature", why + " that does not say what it is of")
        else:
            parts.give(one.at, "unknown", "a temperature that does not say what it is of")


def _by_values(parts: Parts, columns: list[Figures], line: int) -> None:
    """Parts from values alone: the first column that fits gravity, and the first that fits beer."""
    usable = [one for one in columns if not _counts_up(one.values)]
    moving = [one for one in usable if np.unique(one.values[np.isfinite(one.values)]).size > 1]
    for one in moving or usable:
        taken = parts.roles.values()
        if "gravity" not in taken and _share_within(one.values, GRAVITY_RANGE_SG) >= MOST:
            parts.give(one.at, "gravity", "nearly all values lie between 0.980 and 1.200")
        elif "beer_temperature" not in taken and _share_within(one.values, PROBE_RANGE) >= MOST:
            parts.give(one.at, "beer_temperature", "the first column whose values can be degrees")
        else:
            continue
        role = plain(parts.roles[one.at])
        text = f"column {one.at + 1} was read as {role} by its values alone. Is it?"
        parts.notes.append(Note("ask", text, line))


def _counts_up(values: FloatArray) -> bool:
    """Whether a column only numbers the rows."""
    return values.size > 2 and bool(np.all(np.diff(values) == 1))


def _share_within(values: FloatArray, limits: tuple[float, float]) -> float:
    said = values[np.isfinite(values)]
    return float(np.mean((said >= limits[0]) & (said <= limits[1]))) if said.size else 0.0
