"""What a long command is at, on a terminal that shows nothing else meanwhile."""

import time
from collections.abc import Callable
from threading import Event, Thread
from types import TracebackType
from typing import Self, TextIO

PATIENCE_SECONDS = 1.0


class Waiting:
    """A line that comes up once work takes longer than anyone waits, and goes when it ends.

    Args:
        stream: where to; one that is no terminal stays empty.
        what: what is being done, in a few words.
        patience_s: how long nothing is shown, and how often the line is renewed [s].
        clock: seconds that go by.
    """

    def __init__(
        self,
        stream: TextIO,
        what: str,
        *,
        patience_s: float = PATIENCE_SECONDS,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._stream = stream
        self._what = what
        self._step = ""
        self._patience_s = patience_s
        self._clock = clock
        self._ended = Event()
        self._shown = 0
        self._renewing = Thread(target=self._renew, daemon=True)

    def __enter__(self) -> Self:
        if self._stream.isatty():
            self._renewing.start()
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._ended.set()
        if self._renewing.ident is not None:
            self._renewing.join()
        if self._shown:
            self._write("")

    def say(self, step: str) -> None:
        """What the work has come to."""
        self._step = step

    def _renew(self) -> None:
        started = self._clock()
        while not self._ended.wait(self._patience_s):
            parts = [self._what, self._step, f"{self._clock() - started:.0f} s"]
            self._write(", ".join(part for part in parts if part))

    def _write(self, line: str) -> None:
        """The line in place of the one before, which may have been longer."""
        blank = " " * max(self._shown - len(line), 0)
        self._stream.write(f"\r{line}{blank}\r" if not line else f"\r{line}{blank}")
        self._stream.flush()
        self._shown = len(line)
