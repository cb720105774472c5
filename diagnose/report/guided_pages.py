"""A guided entry on the terminal: short questions, short rankings, and what came of it."""

from collections.abc import Callable
from textwrap import shorten

from rich.console import Console
from rich.text import Text

from diagnose.answers import CautionLine, chance_words, percent
from diagnose.answers.guided import AskAnswer, Asked, SittingAnswer, Suspect
from diagnose.report.cautions import print_cautions, print_loud, print_notes
from diagnose.report.strips import hanging, heading

NAME_COLUMNS = 60
SHOWN_CHECKS = 2
AN_HOUR = 60.0


class TerminalTalk:
    """Questions on a console, answers from a reader of lines.

    Args:
        console: where questions go.
        read_line: gives the next line typed, and None when there are no more.
    """

    def __init__(self, console: Console, read_line: Callable[[], str | None]) -> None:
        self._console = console
        self._read_line = read_line

    def ask(self, asked: Asked) -> None:
        """Put a question, with its numbered answers below it."""
        self._console.print()
        mark = f"Check ({_minutes(asked.minutes)}):" if asked.kind == "check" else "?"
        hanging(self._console, mark, asked.text, indent=0, style="bold")
        for number, choice in enumerate(asked.choices, start=1):
            hanging(self._console, f"{number}", choice, indent=2)
        if asked.hint:
            hanging(self._console, "", f"({asked.hint})", indent=1)

    def say(self, sentence: str) -> None:
        """Say a sentence about the last answer."""
        hanging(self._console, "-", sentence, indent=2)

    def offer(self, offers: tuple[str, ...]) -> None:
        """Show what may have been meant."""
        if len(offers) == 1:
            self.say(f"'y' for {offers[0]}, or type it again.")
            return
        for number, offer in enumerate(offers, start=1):
            hanging(self._console, f"{number}", offer, indent=4)

    def warn(self, caution: CautionLine) -> None:
        """Say what is dangerous, before anything else."""
        print_cautions(self._console, [caution])

    def rank(self, suspects: tuple[Suspect, ...]) -> None:
        """Show the first suspects, one line each."""
        self._console.print()
        print_suspects(self._console, suspects)

    def hear(self) -> str | None:
        """The next line typed."""
        return self._read_line()


def _minutes(minutes: float) -> str:
    return f"{minutes:.0f} min" if minutes < AN_HOUR else "an hour or more"


def print_suspects(console: Console, suspects: tuple[Suspect, ...]) -> None:
    """A ranking of few lines, under the flavours it is about where there are several groups."""
    groups = list(dict.fromkeys(one.behind for one in suspects))
    for group in groups:
        if len(groups) > 1:
            hanging(console, "", f"behind {', '.join(group)}:", indent=1)
        inside = [one for one in suspects if one.behind == group]
        for place, one in enumerate(inside, start=1):
            name = shorten(one.name, NAME_COLUMNS, placeholder="...")
            line = f"  {place}. {name:<{NAME_COLUMNS}} {percent(one.responsible):>10}"
            console.print(Text(line), no_wrap=True)


def print_welcome(console: Console, record: str, *, goes_on: bool) -> None:
    """Where the answers go, and the few words that are no answers."""
    where = "Going on with" if goes_on else "Writing to"
    for line in (
        f"{where} {record}; every answer is kept at once.",
        "Answer by number or in words. Enter: not known, or no matter here.",
        "back: one question back. help: why it is asked. stop: go on later.",
    ):
        hanging(console, "", line, indent=0)


def print_sitting(console: Console, answer: SittingAnswer) -> None:
    """What a record comes to at the end of a sitting."""
    print_loud(console, answer.cautions)
    heading(console, "So far")
    print_suspects(console, answer.suspects)
    hanging(console, "", answer.verdict_text, indent=1)
    checks = [step for step in answer.next_ if step.kind == "check"][:SHOWN_CHECKS]
    if checks:
        heading(console, "Worth doing next")
    for step in checks:
        hanging(console, f"{_minutes(step.minutes)}:", step.text)
        hanging(console, "", f"how: faultwort explain {step.id}", indent=4)
    print_notes(console, answer.cautions)
    kept = f"{answer.answered} entries and {answer.not_known} not known are in {answer.record}."
    console.print()
    hanging(console, "", kept, indent=0)
    again = f"faultwort ask {answer.record} --answer"
    hanging(console, "", f"The whole answer: faultwort diagnose {answer.record}", indent=0)
    hanging(console, "", f"To answer more: {again}", indent=0)


def print_answered(console: Console, answer: AskAnswer) -> None:
    """Cautions, answers as they were written, and how the ranking moved."""
    print_loud(console, answer.cautions)
    if answer.answered:
        heading(console, "Written")
    for line in answer.answered:
        hanging(console, f"{answer.record}:{line.line}", f"{line.entry}: {line.value}", indent=0)
        for remark in filter(None, (line.said, *line.remarks)):
            hanging(console, "-", remark, indent=2)
    before = {(one.id, one.behind): one.responsible for one in answer.before}
    heading(console, "Now")
    print_suspects(console, answer.after)
    for one in answer.after[:1]:
        was = before.get((one.id, one.behind))
        text = "not among the first before" if was is None else f"before: {percent(was)}"
        hanging(console, "", f"{one.name}: {chance_words(one.responsible)} ({text}).", indent=1)
    print_notes(console, answer.cautions)
