"""How long a million rows of a logger's export take, against general readers of CSV files.

    python -m tests.bench.million_rows [ROWS] [ROUNDS] [ragged]

Every reading is a process of its own that first reads a short file and is then timed on the long
one, imports left out; the readers take turns, so that a busy machine slows all of them alike. The
other readers are pandas (its C engine), polars and pyarrow, as far as they are installed, each as
it comes and once more asked for times, and Python's own csv module with numbers made of its cells.
Ours does all of its work: fingerprint, columns, units, UTC, flags, remarks. A ragged file writes
19.5 for 19.50, so that no two lines are alike. "Work" is the time of all processors together, which
a busy machine disturbs less; "held" is the most memory of the process, "more" what the long file
added to it.
"""

import os
import re
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.util import find_spec
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

import numpy as np

ROOT = Path(__file__).parents[2]
ROWS, ROUNDS = 1_000_000, 7
SHORT_ROWS = 2_000
OURS, STANDARD = "ours", "csv module"
TARGET_RATIO = 2.0
_EVERY_S = 10
_END_ZEROS = re.compile(r"\.?0+(?=[,\n])")


@dataclass(frozen=True)
class Reader:
    """A reader of CSV files: what it needs installed, and the call that reads the file `path`."""

    name: str
    module: str
    imports: str
    call: str
    times: bool


READERS = (
    Reader(
        OURS,
        "diagnose",
        "from pathlib import Path; from diagnose.batch.probe import read_probe_log",
        "read_probe_log(Path(path))",
        times=True,
    ),
    Reader("pandas C", "pandas", "import pandas", "pandas.read_csv(path, engine='c')", times=False),
    Reader(
        "pandas C, times",
        "pandas",
        "import pandas",
        "pandas.read_csv(path, engine='c', parse_dates=['time'])",
        times=True,
    ),
    Reader("polars", "polars", "import polars", "polars.read_csv(path)", times=False),
    Reader(
        "polars, times",
        "polars",
        "import polars",
        "polars.read_csv(path, try_parse_dates=True)",
        times=True,
    ),
    Reader(
        STANDARD,
        "csv",
        "import csv",
        "[(row[0], *map(float, row[1:])) for row in list(csv.reader(open(path)))[1:]]",
        times=False,
    ),
    Reader("pyarrow", "pyarrow", "from pyarrow import csv", "csv.read_csv(path)", times=True),
)
_TIMED = """
import sys, time
{imports}
def held_mb():
    lines = open("/proc/self/status").read().splitlines() if sys.platform == "linux" else []
    return next((int(line.split()[1]) / 1024 for line in lines if line[:5] == "VmHWM"), 0.0)
path = {short!r}
{call}
before_mb = held_mb()
path = {long!r}
start, work = time.perf_counter(), time.process_time()
kept = {call}
took = time.perf_counter() - start, time.process_time() - work
print(*(seconds * 1e3 for seconds in took), held_mb(), held_mb() - before_mb)
"""


@dataclass(frozen=True)
class Reading:
    """One reading of the long file: by the clock [ms], of processors [ms], the most memory of the
    process [MB], and what it rose by.
    """

    ms: float
    work_ms: float
    held_mb: float
    more_mb: float


def installed() -> tuple[Reader, ...]:
    """Our reader, and those others that are installed."""
    return tuple(reader for reader in READERS if find_spec(reader.module))


def write_log(path: Path, rows: int, *, ragged: bool = False) -> None:
    """A made-up export: a time, beer, room and gravity, one row in ten seconds."""
    random, at = np.random.default_rng(1), np.arange(rows)
    every = np.timedelta64(_EVERY_S, "s")
    times = (np.datetime64("2024-01-01T00:00:00") + at * every).astype(str)
    beer_c = 19 + np.sin(at / 3000) + random.normal(0, 0.05, rows)
    room_c = 17 + 3 * np.sin(at / 2000) + random.normal(0, 0.1, rows)
    gravity = 1.052 - 0.042 * (1 - np.exp(-at / 200_000)) + random.normal(0, 0.0003, rows)
    with path.open("w", encoding="ascii") as file:
        file.write("time,beer (C),room (C),gravity (SG)\n")
        for row in zip(times, beer_c, room_c, gravity, strict=True):
            line = "{}Z,{:.2f},{:.2f},{:.4f}\n".format(*row)
            file.write(_END_ZEROS.sub("", line) if ragged else line)


def time_readers(
    readers: Sequence[Reader], rows: int, rounds: int, *, ragged: bool = False
) -> dict[str, list[Reading]]:
    """The readings of every reader, by name; one round beforehand is not counted.

    Raises:
        subprocess.CalledProcessError: a reader failed; what it took says nothing then.
    """
    taken: dict[str, list[Reading]] = {reader.name: [] for reader in readers}
    with TemporaryDirectory() as folder:
        short, long = Path(folder, "short.csv"), Path(folder, "long.csv")
        write_log(short, SHORT_ROWS, ragged=ragged)
        write_log(long, rows, ragged=ragged)
        for number in range(rounds + 1):
            for reader in readers:
                reading = _read(reader, str(short), str(long))
                if number:
                    taken[reader.name].append(reading)
    return taken


def _read(reader: Reader, short: str, long: str) -> Reading:
    program = _TIMED.format(imports=reader.imports, call=reader.call, short=short, long=long)
    environ = {**os.environ, "PYTHONPATH": str(ROOT)}
    done = subprocess.run(
        [sys.executable, "-c", program], env=environ, capture_output=True, text=True, check=True
    )
    return Reading(*map(float, done.stdout.split()))


def ratio(taken: dict[str, list[Reading]], name: str, *, of: str = "ms") -> float:
    """The median, over the rounds, of our time against that of another reader in the same round.

    `of` is "ms" by the clock, or "work_ms" of all processors together.
    """
    pairs = zip(taken[OURS], taken[name], strict=True)
    return median(getattr(ours, of) / getattr(other, of) for ours, other in pairs)


def fastest(taken: dict[str, list[Reading]], *, times: bool = False) -> str:
    """The quickest of the other readers, or of those that read times as times, by its median."""
    able = {reader.name for reader in READERS if reader.times or not times}
    others = [name for name in taken if name in able - {OURS}]
    return min(others, key=lambda name: median(reading.ms for reading in taken[name]))


def table(taken: dict[str, list[Reading]]) -> str:
    """The medians by the clock and of processors, our time against each, and the memory."""
    lines = [f"{'':16}{'clock':>9}{'ours is':>9}{'work':>9}{'ours is':>9}{'held':>8}{'more':>8}"]
    for name, readings in taken.items():
        row = f"{name:16}"
        for of in ("ms", "work_ms"):
            against = "" if name == OURS else f"{ratio(taken, name, of=of):.2f} x"
            row += f"{median(getattr(one, of) for one in readings):6.0f} ms{against:>9}"
        held_mb, more_mb = (max(getattr(one, of) for one in readings) for of in _MEMORY)
        lines.append(f"{row}{held_mb:5.0f} MB{more_mb:5.0f} MB")
    for what, times in (("the fastest", False), ("the fastest that reads times", True)):
        best = fastest(taken, times=times)
        lines.append(f"against {what}, {best}: {ratio(taken, best):.2f} x")
    lines.append(f"wanted {TARGET_RATIO}, on a machine with nothing else to do")
    return "\n".join(lines) + "\n"


_MEMORY = ("held_mb", "more_mb")

if __name__ == "__main__":
    told = [int(word) for word in sys.argv[1:] if word.isdigit()]
    rows, rounds = (*told, *(ROWS, ROUNDS)[len(told) :])
    taken = time_readers(installed(), rows, rounds, ragged="ragged" in sys.argv)
    sys.stdout.write(table(taken))
