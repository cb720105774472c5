"""The ranking as recorded beside the ranking as supposed, in two columns."""

from textwrap import wrap

from rich.console import Console
from rich.text import Text

from diagnose.answers import ChanceRange, ChangedChance, ChangedGroup, WhatIf, percent
from diagnose.report.cautions import print_cautions
from diagnose.report.strips import hanging, heading, print_next

# Name, then chance as recorded, as supposed, and the change.
COLUMNS = (("recorded", 11), ("supposed", 11), ("change", 9))
LEAST_NAMED = 0.01
SHOWN = 6
NOTHING_MOVES = "nothing moves by as much as one in a hundred. "
ONLY_HAPPENED = (
    "who is behind it does not move by as much as one in a hundred; what may have happened does. "
)
HAPPENED = "What may have happened, whether or not it makes this"
RANGES = "Ranges: 8 of 10 redraws of our own guesses fall in between."
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
    print_cautions(console, what_if.cautions)
    for line in what_if_changes(what_if):
        hanging(console, "-", line)
    for group in groups_shown(what_if):
        heading(console, f"Behind {', '.join(group.names)}")
        _print_rows(console, [row for one in rows_shown(group) for row in what_if_rows(one)])
        if any(one.responsible_range for one in group.causes):
            hanging(console, "-", RANGES)
    if what_if.happened:
        heading(console, HAPPENED)
        _print_rows(console, happened_rows(what_if))
    console.print()
    hanging(console, "As recorded:", recorded, indent=0)
    hanging(console, "Then:", what_if_outcome(what_if), indent=0)
    console.print()
    for line in (AS_IT_IS, WHOLE):
        console.print(Text(line))
    print_next(console, what_if.type_next)


def what_if_changes(what_if: WhatIf) -> list[str]:
    """What was supposed and left out, and what gives way to it."""
    lines = [f"supposed: {said}" for said in what_if.supposed]
    lines += [f"in place of: {said}" for said in what_if.replaced]
    lines += [f"left out: {said}" for said in what_if.without]
    return [*lines, *(f"set aside for it: {said}" for said in what_if.set_aside)]


def what_if_outcome(what_if: WhatIf) -> str:
    """What comes of it: what stays, and the verdict."""
    return f"{_still(what_if)}{what_if.verdict_text}"


def _still(what_if: WhatIf) -> str:
    """What stays where it is."""
    if moves(what_if):
        return ""
    return ONLY_HAPPENED if what_if.happened else NOTHING_MOVES


def groups_shown(what_if: WhatIf) -> tuple[ChangedGroup, ...]:
    """The groups to put in columns: none where nothing moves."""
    return what_if.faults if moves(what_if) else ()


def moves(what_if: WhatIf) -> bool:
    """Whether any chance moves by as much as one in a hundred, or words come or go."""
    chances = [one for group in what_if.faults for one in rows_shown(group)]
    still = [one for one in chances if one.was is not None and abs(one.change) < LEAST_NAMED]
    return not chances or len(still) < len(chances)


def rows_shown(group: ChangedGroup) -> list[ChangedChance]:
    """The causes worth a line, what falls among them, then what is no cause."""
    named = [one for one in group.causes if _best(one) >= LEAST_NAMED]
    foremost = sorted(named, key=lambda one: -_best(one))[:SHOWN]
    shown = [one for one in named if one in foremost]
    return [*shown, group.expected_here, group.not_in_rule_base]


def _best(one: ChangedChance) -> float:
    return max(one.responsible, one.was or 0.0)


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


def what_if_rows(one: ChangedChance) -> list[tuple[str, tuple[str, ...]]]:
    """The row of an explanation, and one for the ranges of its chances where they were drawn."""
    ranges = [range_text(held) for held in (one.was_range, one.responsible_range)]
    return [what_if_row(one), *([("", (*ranges, ""))] if any(ranges) else [])]


def range_text(held: ChanceRange | None) -> str:
    """A range of a chance, short: "31-52 %"; empty where none was drawn."""
    return f"{100 * held.low:.0f}-{100 * held.high:.0f} %" if held else ""


def happened_rows(what_if: WhatIf) -> list[tuple[str, tuple[str, ...]]]:
    """What may have happened, with its chance as recorded, as supposed, and the change."""
    return [
        what_if_row(ChangedChance(id=one.id, name=one.name, was=one.was, responsible=one.happened))
        for one in what_if.happened[:SHOWN]
    ]


def _print_rows(console: Console, rows: list[tuple[str, tuple[str, ...]]]) -> None:
    _print_row(console, "", tuple(name for name, _ in COLUMNS))
    for name, cells in rows:
        _print_row(console, name, cells)


def _print_row(console: Console, name: str, cells: tuple[str, ...]) -> None:
    room = console.width - sum(width for _, width in COLUMNS) - 2
    tail = "".join(f"{cell:>{width}}" for cell, (_, width) in zip(cells, COLUMNS, strict=True))
    for number, part in enumerate(wrap(name, room) or [""]):
        line = f"  {part:<{room}}{tail if number == 0 else ''}"
        console.print(Text(line.rstrip()), no_wrap=True)
