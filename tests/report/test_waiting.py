"""The line of a long command: late, on terminals alone, and gone at the end."""

import io
from threading import Event

from diagnose.report.waiting import Waiting


class Terminal(io.StringIO):
    """A terminal that notes when something is shown on it."""

    def __init__(self) -> None:
        super().__init__()
        self.shown = Event()

    def isatty(self) -> bool:
        return True

    def write(self, text: str) -> int:
        self.shown.set()
        return super().write(text)


def test_long_work_says_what_it_is_at() -> None:
    terminal = Terminal()
    with Waiting(terminal, "reading log.csv", patience_s=0.001) as waiting:
        waiting.say("times and numbers")
        assert terminal.shown.wait(10)
    assert "reading log.csv, " in terminal.getvalue()


def test_the_line_is_gone_at_the_end() -> None:
    terminal = Terminal()
    with Waiting(terminal, "reading", patience_s=0.001):
        assert terminal.shown.wait(10)
    *_, last, end = terminal.getvalue().split("\r")
    assert (last.strip(), end) == ("", "")


def test_short_work_shows_nothing() -> None:
    terminal = Terminal()
    with Waiting(terminal, "reading", patience_s=60):
        pass
    assert terminal.getvalue() == ""


def test_a_file_for_errors_stays_empty() -> None:
    stream = io.StringIO()
    with Waiting(stream, "reading", patience_s=0.001) as waiting:
        waiting.say("spikes")
    assert stream.getvalue() == ""


def test_the_line_is_gone_before_an_error_is_said() -> None:
    terminal = Terminal()
    try:
        with Waiting(terminal, "reading", patience_s=0.001):
            assert terminal.shown.wait(10)
            raise ValueError
    except ValueError:
        assert terminal.getvalue().endswith("\r")
