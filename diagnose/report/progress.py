"""How far a long run is, on a terminal that shows nothing else meanwhile."""

import time
from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

from rich.console import Console
from rich.progress import Progress

PATIENCE_SECONDS = 1.0
Step = TypeVar("Step")


class ProgressBar:
    """A bar that comes up once a run takes longer than anyone waits, and goes when it ends.

    Args:
        console: where to; one that is no terminal stays empty.
        clock: seconds that go by.
    """

    def __init__(self, console: Console, clock: Callable[[], float] = time.monotonic) -> None:
        self._console = console
        self._clock = clock

    def __call__(self, steps: Sequence[Step], what: str) -> Iterator[Step]:
        """Hand the steps on and show how many are done.

        Args:
            steps: what is gone through.
            what: what the steps are, in a word.
        """
        started = self._clock()
        progress = Progress(console=self._console, transient=True)
        task = progress.add_task(what, total=len(steps))
        try:
            for step in steps:
                yield step
                progress.advance(task)
                if self._console.is_terminal and self._clock() - started > PATIENCE_SECONDS:
                    progress.start()
        finally:
            # One that never came up would leave an empty line.
            if progress.live.is_started:
                progress.stop()
