"""Answers kept for one layout of columns, and used for the next file that has the same."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from pydantic import BaseModel, ConfigDict

from diagnose.batch.probe.choices import Choices, plain_name
from diagnose.batch.probe.log import Note
from diagnose.batch.probe.table import Table
from diagnose.errors import Fault, UnusableInput

Delimiter = Literal["comma", "semicolon", "tab", "pipe"]
DateOrder = Literal["day first", "month first"]
PartWord = Literal["beer", "air", "set point", "gravity", "pressure", "battery", "nothing"]


@dataclass(frozen=True)
class ColumnLayout:
    """What a logger's files have in common: the names of their columns and the sign between them.

    A column without a name counts as "".
    """

    columns: tuple[str, ...]
    delimiter: str


class Profile(BaseModel):
    """Answers for one layout of columns; absent where the brewer gave none."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    columns: tuple[str, ...]
    delimiter: Delimiter
    unit: Literal["C", "F"] | None = None
    dates: DateOrder | None = None
    zone: str | None = None
    parts: dict[str, PartWord] = {}

    @property
    def layout(self) -> ColumnLayout:
        """The files it is for."""
        return ColumnLayout(tuple(map(plain_name, self.columns)), self.delimiter)

    @property
    def choices(self) -> Choices:
        """The answers."""
        day_first = None if self.dates is None else self.dates == "day first"
        return Choices(self.zone, self.unit, day_first, dict(self.parts))


@dataclass(frozen=True)
class Profiles:
    """Saved profiles by their names; `named` is one that the file must fit, "" where any may."""

    saved: Mapping[str, Profile] = field(default_factory=dict)
    named: str = ""


@dataclass(frozen=True)
class Settled:
    """The answers that a file is read with, the profile some of them are from, and what to say."""

    choices: Choices
    profile: str = ""
    notes: tuple[Note, ...] = ()


def layout_of(table: Table) -> ColumnLayout:
    """The layout of a table's columns."""
    names = [plain_name(one) for one in table.header] or [""] * table.width
    return ColumnLayout(tuple(names), table.delimiter.what)


def profile_for(layout: ColumnLayout, choices: Choices) -> Profile:
    """The profile that keeps these answers for this layout."""
    orders: dict[bool | None, DateOrder | None] = {None: None, True: "day first"}
    said = {
        "columns": layout.columns,
        "delimiter": layout.delimiter,
        "unit": choices.temperature_unit,
        "dates": orders.get(choices.day_first, "month first"),
        "zone": choices.zone,
        "parts": dict(choices.parts),
    }
    return Profile.model_validate(said)


def settle(choices: Choices, profiles: Profiles, table: Table) -> Settled:
    """The answers given, completed from the saved profile that fits the table.

    Raises:
        UnusableInput: the profile that was named is for other columns.
    """
    layout = layout_of(table)
    fitting = [name for name, one in profiles.saved.items() if one.layout == layout]
    if profiles.named and profiles.named not in fitting:
        raise _unfitting(table, profiles, layout)
    if profiles.named:
        fitting = [profiles.named]
    if len(fitting) > 1:
        names = ", ".join(fitting)
        text = f"several saved profiles have these columns ({names}); none was used. Which is it?"
        return Settled(choices, notes=(Note("ask", text),))
    if not fitting:
        return Settled(choices)
    kept = profiles.saved[fitting[0]].choices
    text = f"read with the saved profile {fitting[0]!r}: {kept.in_words()}"
    if choices:
        text += f"; what was said now goes before it: {choices.in_words()}"
    return Settled(choices.before(kept), fitting[0], (Note("info", text),))


def _unfitting(table: Table, profiles: Profiles, layout: ColumnLayout) -> UnusableInput:
    profile = profiles.saved.get(profiles.named)
    if profile is None:
        found, known = f"no saved profile {profiles.named!r}", ", ".join(profiles.saved)
        wanted = f"one of {known}" if known else "a profile, saved with --save-profile NAME"
        return UnusableInput(Fault(table.name, 0, "profile", found, wanted))
    found = f"columns {_named(layout)}"
    wanted = f"those that profile {profiles.named!r} is for: {_named(profile.layout)}"
    return UnusableInput(Fault(table.name, table.first_line, "profile", found, wanted))


def _named(layout: ColumnLayout) -> str:
    names = ", ".join(repr(name) if name else "(no name)" for name in layout.columns)
    return f"{names}, parted by {layout.delimiter}"
