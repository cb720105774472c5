"""How long a command takes from nothing to its answer, as a whole process.

    python -m tests.bench.cold_start [RUNS]

Every row is timed in turn, so that a busy machine slows all of them alike; one run of each
beforehand is not counted. Modules are byte-compiled, as an installer leaves them, in a folder of
the bench's own, and so is the cache. The last row is what a first run costs.
"""

import os
import subprocess
import sys
import time
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

ROOT = Path(__file__).parents[2]
HELLO = "bare hello"
RUNS = 9


@dataclass(frozen=True)
class Start:
    """A command, and what it may take: in ms on the machine the targets were set on, and
    against a program that only says hello.
    """

    name: str
    typed: tuple[str, ...]
    target_ms: float | None = None
    target_ratio: float | None = None
    environ: dict[str, str] = field(default_factory=dict)


def faultwort(*typed: str) -> tuple[str, ...]:
    return ("-m", "diagnose", *typed)


CASE = str(ROOT / "cases" / "crashed_too_soon")
LOG = str(ROOT / "cases" / "two_days_without_foam" / "helles.csv")
TARGETED = (
    Start("--help", faultwort("--help"), 120.0, 1.1),
    Start("taste", faultwort("taste", "buttery, no sourness"), 250.0, 1.5),
    Start("explain", faultwort("explain", "light_struck"), 250.0, 1.5),
    Start("diagnose", faultwort("diagnose", CASE), 400.0, 2.0),
)
OTHERS = (
    Start(HELLO, (str(Path(__file__).with_name("hello.py")),)),
    Start("probe", faultwort("probe", LOG)),
    Start("diagnose, no cache", faultwort("diagnose", CASE), environ={"FAULTWORT_CACHE": ""}),
)


def time_starts(starts: Sequence[Start], runs: int) -> dict[str, list[float]]:
    """Wall-clock [ms] of each run of each start, by name.

    Raises:
        subprocess.CalledProcessError: a command failed; what it took says nothing then.
    """
    taken: dict[str, list[float]] = {start.name: [] for start in starts}
    with TemporaryDirectory() as folder:
        for run in range(runs + 1):
            for start in starts:
                ms = _timed_ms(start, folder)
                if run:
                    taken[start.name].append(ms)
    return taken


def _timed_ms(start: Start, folder: str) -> float:
    environ = {
        **os.environ,
        "PYTHONPATH": str(ROOT),
        "PYTHONPYCACHEPREFIX": f"{folder}/compiled",
        "FAULTWORT_CACHE": f"{folder}/kept",
        **start.environ,
    }
    environ.pop("PYTHONDONTWRITEBYTECODE", None)
    began = time.perf_counter()
    subprocess.run([sys.executable, *start.typed], env=environ, capture_output=True, check=True)
    return (time.perf_counter() - began) * 1e3


def table(taken: dict[str, list[float]], starts: Sequence[Start]) -> str:
    """The medians, against their targets and against the bare hello."""
    rows = [f"{'':20}{'median':>9}{'target':>9}{'slowest':>9}{'ratio':>8}{'target':>8}"]
    hello_ms = median(taken[HELLO])
    for start in starts:
        ms = median(taken[start.name])
        target_ms = f"{start.target_ms:.0f} ms" if start.target_ms else ""
        target_ratio = f"{start.target_ratio:.1f}" if start.target_ratio else ""
        rows.append(
            f"{start.name:20}{ms:6.0f} ms{target_ms:>9}{max(taken[start.name]):6.0f} ms"
            f"{ms / hello_ms:8.2f}{target_ratio:>8}"
        )
    return "\n".join(rows) + "\n"


if __name__ == "__main__":
    every = (*TARGETED, *OTHERS)
    sys.stdout.write(table(time_starts(every, int((*sys.argv, RUNS)[1])), every))
