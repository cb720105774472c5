"""How the flaw history grows: batches listed, read and contrasted at 1,000 to 10,000 of them.

Run by hand:  python tests/bench/history_scale.py FOLDER [batches a step …]
Each batch is one of the shipped cases under another name and day, with 5,000 made-up readings.
Each job is a program of its own: [seconds by the clock, seconds of processor, most MB held]. Of
`history list` as the shell calls it, the best of three by the clock.
"""

import json
import subprocess
import sys
import time
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import numpy as np

from diagnose.batch.probe import ProbeLog, Series, read_probe_log
from diagnose.history.filing import Content, Filing, content_fingerprint, read_filing
from diagnose.history.keeping import Wish, keep_in
from diagnose.history.opening import open_store
from diagnose.history.place import place_of
from diagnose.history.probes import pack_log
from diagnose.knowledge import load_rules
from diagnose.shipped import shipped

STEPS = (1_000, 3_000, 10_000)
READINGS = 5_000
EVERY_S = 300.0
AT_A_TIME = 100
NOW = datetime(2026, 11, 25, tzinfo=UTC)
_MEASURED = """
import sys, time
from pathlib import Path
start = time.perf_counter()
{job}
took = time.perf_counter() - start
held = next(line for line in Path("/proc/self/status").read_text().splitlines() if "HWM" in line)
print(took, time.process_time(), int(held.split()[1]) / 1024, file=sys.stderr)
"""
_JOBS = {
    "list": """
from diagnose.cli.history_doing import listed, opened, print_list
with opened({store!r}) as store:
    print_list(listed(store, (None, None), None, None), False)
""",
    "list --flaw": """
from diagnose.cli.history_doing import listed, opened, print_list
with opened({store!r}) as store:
    print_list(listed(store, (None, None), None, "buttery"), False)
""",
    "read_brews": """
from diagnose.history.brews import read_brews
from diagnose.history.opening import open_store
from diagnose.history.place import place_of
with open_store(place_of({store!r})) as store:
    read_brews(store)
""",
    "contrast": """
from diagnose.cli.history_looking import contrast
contrast("buttery", store={store!r})
""",
    "trend": """
from diagnose.cli.history_looking import trend
trend(flaw="buttery", store={store!r})
""",
}


def main() -> None:
    """Grow one store step by step and measure at each step."""
    folder = Path(sys.argv[1])
    steps = [int(step) for step in sys.argv[2:]] or list(STEPS)
    rules = load_rules(shipped("rules"))
    cases = sorted(shipped("cases").glob("*/batch.yaml"))[:60]
    filings = [read_filing(rules, case, date(2026, 11, 25)) for case in cases]
    log = read_probe_log(shipped("cases") / "one_old_pack_strong_ale" / "christmas.csv", zone="UTC")
    store, done = folder / "scale.faultwort", 0
    for step in steps:
        start = time.perf_counter()
        _grow(store, filings, log, (done, step))
        done = step
        added_s = time.perf_counter() - start
        row = {"batches": step, "readings": step * READINGS, "added_s": round(added_s, 1)}
        row["megabytes"] = round(store.stat().st_size / 1e6, 1)
        for job, code in _JOBS.items():
            row[job] = _measure(code.format(store=str(store)))
        row["history list"] = _whole_command(str(store))
        sys.stdout.write(f"{json.dumps(row)}\n")
        sys.stdout.flush()


def _grow(store: Path, filings: list[Filing], log: ProbeLog, numbers: tuple[int, int]) -> None:
    random = np.random.default_rng(numbers[0])
    with open_store(place_of(str(store)), create=True) as history:
        for first in range(*numbers, AT_A_TIME):
            with history.writing() as connection:
                for number in range(first, min(first + AT_A_TIME, numbers[1])):
                    content = filings[number % len(filings)].content
                    grown = _renamed(content, number, _made_up(log, random))
                    keep_in(connection, Filing(grown, None), NOW, Wish())


def _renamed(content: Content, number: int, log: ProbeLog) -> Content:
    day = (date(1990, 1, 1) + timedelta(days=number)).isoformat()
    name, packed = f"brew {number}", pack_log(log)
    short = {**content.short, "name": name, "brewed_on": day}
    fingerprint = content_fingerprint(content.text, packed, name)
    return replace(content, fingerprint=fingerprint, short=short, log=packed)


def _made_up(log: ProbeLog, random: np.random.Generator) -> ProbeLog:
    walk = 20.0 + np.cumsum(random.normal(0.0, 0.03, READINGS))
    marks = {
        kind: np.zeros(READINGS, dtype=np.bool_) for kind in log.series["beer_temperature"].flags
    }
    series = Series("C", np.round(walk, 1), marks)
    times = 1.7e9 + np.arange(READINGS) * EVERY_S
    lines = np.arange(READINGS) + 2
    return replace(log, times_utc_s=times, lines=lines, series={"beer_temperature": series})


def _measure(code: str) -> list[float]:
    """[seconds by the clock, seconds of processor, most memory in MB]."""
    program = _MEASURED.format(job=code)
    done = subprocess.run(
        [sys.executable, "-c", program], capture_output=True, text=True, check=True
    )
    return [round(float(number), 3) for number in done.stderr.split()]


def _whole_command(store: str) -> float:
    """Seconds from the shell's call of `history list` to its end; the best of three."""
    code = (
        "import sys; from diagnose.cli.history import history_app as app; "
        f"sys.argv = ['x', 'list', '--store', {store!r}]; app()"
    )
    took = []
    for _ in range(3):
        start = time.perf_counter()
        subprocess.run([sys.executable, "-c", code], capture_output=True, check=True)
        took.append(time.perf_counter() - start)
    return round(min(took), 3)


if __name__ == "__main__":
    main()
