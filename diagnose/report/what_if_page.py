"""The ranking as recorded beside the ranking as supposed, in two columns."""

from textwrap import wrap

from rich.console import Console
from rich.text import Text

from diagnose.answers import ChangedChance, ChangedGroup, WhatIf, percent
from diagnose.report.strips import CAUTION_MARKS, hanging, heading

# Name, then chance as recorded, as supposed, and the change.
COLUMNS = (("recorded", 11), ("supposed", 11), ("change", 9))
LEAST_NAMED = 0.01
SHOWN = 6
NOTHING_MOVES = "nothing moves by as much as one in a hundred. "
AS_IT_IS = "The record's file stays as it is."
WHOLE = "Without --suppose and --without you see the whole diagnosis."


def print_what_if(console: Console, what_if: WhatIf, recorded: str) -> None:
    """Print what a supposition changes.

    Args:
        console: where to.
        what_if: what is supposed, and the ranking then.
        recorded: the verdict on the batch as recorded.
    """
    heading(console, "What if")
    for line in what_if_changes(what_if):
        hanging(console, "-", line)
    for group in groups_shown(what_if):
        heading(console, f"Behind {', '.join(group.names)}")
        _print_row(console, "", tuple(name for name, _ in COLUMNS))
        for name, cells in map(what_if_row, rows_shown(group)):
            _print_row(console, name, cells)
    console.print()
    hanging(console, "As recorded:", recorded, indent=0)
    for mark, line in what_if_outcome(what_if):
        hanging(console, mark, line, indent=0)
    console.print()
    for line in (AS_IT_IS, WHOLE):
        console.print(Text(line))


def what_if_changes(what_if: WhatIf) -> list[str]:
    """What was supposed and left out, and what gives way to it."""
    lines = [f"supposed: {said}" for said in what_if.supposed]
    lines += [f"left out: {said}" for said in what_if.without]
    return [*lines, *(f"set aside for it: {said}" for said in what_if.set_aside)]


def what_if_outcome(what_if: WhatIf) -> list[tuple[str, str]]:
    """What comes of it, each sentence with what it is: the verdict, cautions that are new."""
    told = [("Then:", f"{'' if moves(what_if) else NOTHING_MOVES}{what_if.verdict_text}")]
    return [*told, *((f"{CAUTION_MARKS[one.level]}:", one.text) for one in what_if.cautions)]


def groups_shown(what_if: WhatIf) -> tuple[ChangedGroup, ...]:
    """The groups to put in columns: none where nothing moves."""
    return what_if.faults if moves(what_if) else ()


def moves(what_if: WhatIf) -> bool:
    """Whether any chance moves by as much as one in a hundred, or words come or go."""
    chances = [one for group in what_if.faults for one in rows_shown(group)]
    still = [one for one in chances if one.was is not None and abs(one.change) < LEAST_NAMED]
    return not chances or len(still) < len(chances)


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


def _print_row(console: Console, name: str, cells: tuple[str, ...]) -> None:
    room = console.width - sum(width for _, width in COLUMNS) - 2
    tail = "".join(f"{cell:>{width}}" for cell, (_, width) in zip(cells, COLUMNS, strict=True))
    for number, part in enumerate(wrap(name, room) or [""]):
        line = f"  {part:<{room}}{tail if number == 0 else ''}"
        console.print(Text(line.rstrip()), no_wrap=True)
