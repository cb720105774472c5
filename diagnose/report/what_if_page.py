"""The ranking as recorded beside the ranking as supposed, in two columns."""

from textwrap import wrap

from rich.console import Console
from rich.text import Text

from diagnose.answers import ChangedChance, ChangedGroup, WhatIf, percent
from diagnose.report.strips import hanging, heading

# Name, then chance as recorded, as supposed, and the change.
COLUMNS = (("recorded", 11), ("supposed", 11), ("change", 9))
LEAST_NAMED = 0.01
SHOWN = 6
NOTHING_MOVES = "Nothing moves by as much as one in a hundred."


def print_what_if(console: Console, what_if: WhatIf | None) -> None:
    """Print what a supposition changes; nothing where nothing was supposed."""
    if what_if is None:
        return
    for title, rows in _told(what_if):
        heading(console, title)
        for name, cells in rows:
            _print_row(console, name, cells)
    _print_changes(console, what_if)


def _told(what_if: WhatIf) -> list[tuple[str, list[tuple[str, tuple[str, ...]]]]]:
    return [
        (
            f"What if: behind {', '.join(group.names)}",
            [("", tuple(name for name, _ in COLUMNS)), *map(what_if_row, rows_shown(group))],
        )
        for group in what_if.faults
    ]


def rows_shown(group: ChangedGroup) -> list[ChangedChance]:
    """The causes worth a line, then what is no cause."""
    named = [one for one in group.causes if max(one.responsible, one.was or 0.0) >= LEAST_NAMED]
    return [*named[:SHOWN], group.expected_here, group.not_in_rule_base]


def what_if_row(one: ChangedChance) -> tuple[str, tuple[str, ...]]:
    """A name with its chance as recorded, as supposed, and the change in points of a hundred."""
    if one.was is None:
        return one.name, ("not asked", percent(one.responsible), "")
    points = round(100.0 * one.responsible) - round(100.0 * one.was)
    return one.name, (
        percent(one.was),
        percent(one.responsible),
        f"{points:+d}" if points else "same",
    )


def what_if_lines(what_if: WhatIf) -> list[str]:
    """What was supposed, what gives way to it, and what comes of it."""
    lines = [f"Supposed: {'; '.join(what_if.supposed)}."] if what_if.supposed else []
    if what_if.without:
        lines.append(f"Left out: {'; '.join(what_if.without)}.")
    if what_if.set_aside:
        lines.append(f"Set aside for it: {'; '.join(what_if.set_aside)}.")
    chances = [one for group in what_if.faults for one in rows_shown(group)]
    if all(one.was is not None and abs(one.responsible - one.was) < 0.01 for one in chances):
        lines.append(NOTHING_MOVES)
    return [*lines, f"Then: {what_if.verdict_text}", "The record itself stays as it is."]


def _print_changes(console: Console, what_if: WhatIf) -> None:
    console.print()
    for line in what_if_lines(what_if):
        hanging(console, "-", line)


def _print_row(console: Console, name: str, cells: tuple[str, ...]) -> None:
    room = console.width - sum(width for _, width in COLUMNS) - 2
    tail = "".join(f"{cell:>{width}}" for cell, (_, width) in zip(cells, COLUMNS, strict=True))
    for number, part in enumerate(wrap(name, room) or [""]):
        line = f"  {part:<{room}}{tail if number == 0 else ''}"
        console.print(Text(line.rstrip()), no_wrap=True)
