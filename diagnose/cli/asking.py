"""Questions asked and answered at the terminal: `batch new` and `ask --answer`."""

import sys
from io import TextIOWrapper
from itertools import pairwise
from pathlib import Path
from typing import TYPE_CHECKING, Any

from typer.core import TyperCommand

from diagnose.errors import Fault, UnusableInput

if TYPE_CHECKING:
    from rich.console import Console

    from diagnose.consult.guided import Sitting

_ANSWER = "--answer"


class AskCommand(TyperCommand):
    """`ask`, whose `--answer` may stand alone: then the questions are put one by one."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """Read the arguments; an `--answer` with no "ID=VALUE" behind it has an empty value."""
        pairs = pairwise([*args, ""])
        filled = [f"{arg}=" if _stands_alone(arg, after) else arg for arg, after in pairs]
        return list(super().parse_args(ctx, filled))


def _stands_alone(arg: str, after: str) -> bool:
    return arg == _ANSWER and ("=" not in after or after.startswith("-"))


def guide(file: Path | None, *, as_json: bool) -> None:
    """Ask for a record, a new one or one to go on with, and sum it up."""
    from diagnose.cli.loading import print_json, shipped_rules, today
    from diagnose.consult.guided_file import new_name, sitting_at
    from diagnose.consult.guided_talk import summed_up
    from diagnose.report import terminal
    from diagnose.report.guided_pages import print_sitting

    path = new_name(Path(), today()) if file is None else file
    begun = sitting_at(shipped_rules(), path, today())
    held = _held(begun, as_json=as_json)
    if as_json:
        print_json(summed_up(held).model_dump(mode="json", by_alias=True))
    elif held.past or path.exists():
        print_sitting(terminal(), summed_up(held))
    else:
        print("Nothing was written.")


def take_answers(batch: Path, answers: list[str], tastes: list[str], *, as_json: bool) -> None:
    """Take answers into a record: those given, or one by one where none is.

    Raises:
        UnusableInput: words are given beside the record, which is where answers go.
    """
    from diagnose.cli.loading import print_json, shipped_rules, today
    from diagnose.consult.guided_file import keep_at, record_in, sitting_at
    from diagnose.consult.guided_scripted import answered_all, moved_by
    from diagnose.report import terminal
    from diagnose.report.guided_pages import print_answered

    if tastes:
        wanted = "the words in the record's tastings, where the answers go"
        raise UnusableInput(Fault("ask", 0, "--taste", "--taste with --answer", wanted))
    path, given = record_in(batch), [answer for answer in answers if answer]
    before = sitting_at(shipped_rules(), path, today(), ask=True)
    if given:
        after, answer = answered_all(before, given)
        keep_at(path)(before.text, after.text)
    else:
        after = _held(before, as_json=as_json)
        answer = moved_by(before, after)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_answered(terminal(), answer)


def _held(sitting: "Sitting", *, as_json: bool) -> "Sitting":
    """The sitting held at the terminal; beside the answer where that is JSON."""
    from diagnose.consult.guided_file import keep_at
    from diagnose.consult.guided_talk import hold
    from diagnose.report import standing_by, terminal
    from diagnose.report.guided_pages import TerminalTalk, print_welcome

    if isinstance(sys.stdin, TextIOWrapper):
        # A byte that is no letter becomes a sign that is no answer; it is no reason to stop.
        sys.stdin.reconfigure(errors="replace")
    console = standing_by() if as_json else terminal()
    print_welcome(console, str(sitting.path), goes_on=sitting.path.exists())
    talk = TerminalTalk(console, lambda: _line(console))
    try:
        return hold(sitting, talk, keep_at(sitting.path))
    except KeyboardInterrupt:
        console.print()
        talk.say(f"Stopped; every answer so far is in {sitting.path}. Run it on that to go on.")
        raise


def _line(console: "Console") -> str | None:
    """The next line from the terminal, or from what is piped in."""
    console.print("> ", end="")
    console.file.flush()
    line = sys.stdin.readline()
    if not sys.stdin.isatty():
        # Nothing shows what was typed where it was not typed here.
        console.print(line.rstrip("\n"), markup=False)
    return line.rstrip("\n") if line else None
