"""Small pieces of a terminal page: bars, weights as odds, headings."""

from collections.abc import Iterable
from io import TextIOWrapper
from typing import TYPE_CHECKING

from rich.console import Console
from rich.text import Text

if TYPE_CHECKING:
    from diagnose.answers.diagnosis import NearWords

BAR_CELLS = 16
PAGE_COLUMNS = 96
CAUTION_MARKS = {"stop": "STOP", "warn": "TAKE CARE", "note": "Note"}
# Words beside a longer mark than leaves this are put below it.
FEWEST_COLUMNS = 24
_STEERING = dict.fromkeys({*range(32), *range(127, 160)} - {ord("\n"), ord("\t")}, "?")


def terminal(width: int | None = None) -> Console:
    """The console that answers are printed on; never wider than reads well.

    A sign that the terminal cannot show is printed as a question mark.
    """
    console = Console(highlight=False, soft_wrap=False, width=width)
    if isinstance(console.file, TextIOWrapper):
        console.file.reconfigure(errors="replace")
    console.width = min(console.width, PAGE_COLUMNS)
    return console


def standing_by() -> Console:
    """The console beside the answers, for what is gone once they are there."""
    return Console(stderr=True, highlight=False)


def bar(share: float, console: Console) -> str:
    """A bar for a probability; plain signs where the terminal has no block characters."""
    return banded(share, share, console)


def banded(low: float, high: float, console: Console) -> str:
    """A bar that is full up to the low end of a range, and lighter from there to the high end."""
    plain = not console.encoding.lower().startswith("utf")
    full, lighter, empty = ("#", "+", ".") if plain else ("█", "▒", "░")
    start, end = round(low * BAR_CELLS), round(high * BAR_CELLS)
    return full * start + lighter * (end - start) + empty * (BAR_CELLS - end)


def odds_words(decibans: float) -> str:
    """A weight of evidence as what it does to the odds: "x8" or "/4"."""
    times = float(10.0 ** (abs(decibans) / 10.0))
    number = f"{times:.1f}" if times < 3.0 else f"{times:.0f}"
    return f"x{number}" if decibans >= 0 else f"/{number}"


def heading(console: Console, words: str) -> None:
    """A heading with a blank line before it."""
    console.print()
    console.print(Text(words, style="bold"))


def near_text(one: "NearWords") -> str:
    """What may have been meant by words that were not understood."""
    *most, last = one.near
    return f"'{one.said}': did you mean {', '.join(most)}{' or ' if most else ''}{last}?"


def quoted(words: Iterable[str]) -> str:
    """Words as they were typed, in a row."""
    return ", ".join(f"'{said}'" for said in words)


def print_commands(console: Console, commands: Iterable[tuple[str, str]]) -> None:
    """Commands that lead on, each on a line of its own to be copied; nothing where none does."""
    for number, (command, does) in enumerate(commands):
        if number == 0:
            heading(console, "To go on, type")
        console.print(Text(f"  {command}"), soft_wrap=True)
        if does:
            hanging(console, "", does, indent=5)


def print_next(console: Console, command: str) -> None:
    """The one command that leads on; nothing where none does."""
    print_commands(console, [(command, "")] if command else ())


def hanging(console: Console, mark: str, words: str, indent: int = 2, style: str = "") -> None:
    """A line with a mark in front, wrapped so that the words stay in their own column."""
    width = console.width - indent - len(mark) - 1
    if width < FEWEST_COLUMNS:
        console.print(Text(" " * indent + mark, style=style))
        hanging(console, "", words, indent=indent + 1)
        return
    # A column's header or a taster's words may hold signs that steer a terminal.
    lines = Text(words.translate(_STEERING)).wrap(console, width)
    for number, line in enumerate(lines):
        start = mark if number == 0 else " " * len(mark)
        text = Text(" " * indent).append(f"{start} ", style=style).append_text(line)
        text.rstrip()
        console.print(text, no_wrap=True, overflow="ignore", crop=False)
