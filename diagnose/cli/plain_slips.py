"""What a slip on the command line gets back: whole lines of help, ranges in words, whole words."""

import shutil
import sys
from collections.abc import Callable
from textwrap import wrap
from typing import Any

from typer.core import TyperGroup

from diagnose.errors import Fault, UnusableInput

# More than any sentence about a command has.
_WHOLE = 1000


class WholeHelp(TyperGroup):
    """A group whose commands are each told in a whole sentence, on two lines where it is long."""

    def format_commands(self, ctx: Any, formatter: Any) -> None:
        """List the commands."""
        found = [(name, self.get_command(ctx, name)) for name in self.list_commands(ctx)]
        rows = [
            (name, command.get_short_help_str(_WHOLE))
            for name, command in found
            if command is not None and not command.hidden
        ]
        with formatter.section("Commands"):
            formatter.write_dl(rows)


def number_from(
    option: str, least: float, most: float | None = None
) -> Callable[[float | None], float | None]:
    """What refuses a number outside a range, and names the range.

    Args:
        option: as it is typed.
        least: the lowest number that is taken.
        most: the highest; None where there is none.
    """
    wanted = f"a number from {least:g} {'up' if most is None else f'to {most:g}'}"

    def checked(value: float | None) -> float | None:
        if value is not None and not (least <= value and (most is None or value <= most)):
            raise UnusableInput(Fault(option, 0, "", f"{value:g}", wanted))
        return value

    return checked


def said_on_stderr(text: str) -> None:
    """Print an error; on a terminal no word of it is broken at the edge."""
    for line in text.split("\n"):
        print("\n".join(_wrapped(line)) if sys.stderr.isatty() else line, file=sys.stderr)


def _wrapped(line: str) -> list[str]:
    width = shutil.get_terminal_size().columns
    return wrap(line, width, subsequent_indent="  ", break_long_words=False, break_on_hyphens=False)
