"""Writers that are killed at any moment; run as a program of its own: it forks.

Prints one line of JSON: how many rounds there were, how many were killed at work, after how many
of those some batches were there and some not yet, and what was found wrong.
"""

import json
import os
import random
import shutil
import signal
import sys
import time
from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from diagnose.history import importing
from diagnose.history.exchange import BatchOut
from diagnose.history.exporting import batch_out, export_to
from diagnose.history.filing import Filing
from diagnose.history.importing import import_from
from diagnose.history.keeping import keep_batch
from diagnose.history.opening import Store, open_store
from diagnose.history.place import Place
from diagnose.knowledge import load_rules
from diagnose.shipped import shipped
from tests.history.stores import filed, later, short_log, with_log

BATCHES = 40
# Of the time a writer takes that nobody kills: most are killed at work, a few come through.
LONGEST = 1.1
TRIES = 3
GROUP = 4


def main() -> None:
    """Kill writers and importers in turn, and look at what they leave."""
    folder, rounds = Path(sys.argv[1]), int(sys.argv[2])
    dice, given = random.Random(11), whole_store(folder)
    killed, midway, wrong = Counter[str](), Counter[str](), list[str]()
    file = folder / "store.faultwort"
    longest_s = {work: LONGEST * _undisturbed_s(work, file, given) for work in WORKS}
    for number in range(rounds):
        start_again(file, given.empty, from_nothing=number % 20 < 2)
        work = WORKS[number % 2]
        told, alive = _killed(work, (file, given), dice.uniform(0.0, longest_s[work]))
        killed[work.__name__] += alive
        faults, there = faults_in(file, told, given)
        midway[work.__name__] += alive and 0 < there < BATCHES
        wrong += [f"round {number}: {fault}" for fault in faults]
    counts = {"killed": killed, "midway": midway}
    sys.stdout.write(json.dumps({"rounds": rounds, "wrong": wrong, **counts}))


@dataclass(frozen=True)
class Given:
    """What the writers write: records, an export of them, an empty store; and how it should be."""

    filings: list[Filing]
    export: Path
    empty: Path
    wanted: Mapping[str, BatchOut]


def whole_store(folder: Path) -> Given:
    filings, whole = filings_in(folder), folder / "whole.faultwort"
    export, empty = folder / "whole.jsonl", folder / "empty.faultwort"
    open_store(Place(empty, ""), create=True).close()
    with open_store(Place(whole, ""), create=True) as store:
        for number, filing in enumerate(filings):
            keep_batch(store, filing, later(number))
        export_to(store, export)
        with store.reading() as connection:
            wanted = {key: batch_out(connection, key) for key in keys_in(store)}
    return Given(filings, export, empty, wanted)


def start_again(file: Path, empty: Path, *, from_nothing: bool) -> None:
    for path in file.parent.glob(f"{file.name}*"):
        path.unlink()
    if not from_nothing:
        shutil.copy(empty, file)


def filings_in(folder: Path) -> list[Filing]:
    rules = load_rules(shipped("rules"))
    made = []
    for number in range(BATCHES):
        one = filed(rules, folder, batch=f"brew {number}")
        content = one.content
        if number % 4 == 0:
            content = with_log(content, short_log([20.0 + number / 10] * 500))
        made.append(Filing(content, None))
    return made


def keys_in(store: Store) -> list[str]:
    with store.reading() as connection:
        return list(connection.exec_driver_sql("SELECT key FROM batches").scalars())


def adding(file: Path, given: Given, tell: int) -> None:
    with open_store(Place(file, ""), create=True) as store:
        for number, filing in enumerate(given.filings):
            kept = keep_batch(store, filing, later(number))
            os.write(tell, f"{kept.key}\n".encode())


def importing_all(file: Path, given: Given, tell: int) -> None:
    importing._AT_A_TIME = GROUP  # type: ignore[misc]
    with open_store(Place(file, ""), create=True) as store:
        import_from(store, given.export)
        os.write(tell, "".join(f"{key}\n" for key in keys_in(store)).encode())


def _killed(work, given, after_s: float) -> tuple[set[str], bool]:
    """The keys a writer told of before it was killed, and whether it was still at work."""
    hear, tell = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(hear)
        try:
            work(*given, tell)
        except BaseException as error:
            os.write(tell, f"failed: {error}\n".encode())
        os._exit(0)
    os.close(tell)
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(hear, "rb") as heard:
        told = heard.read().decode().split("\n")[:-1]
    return set(told), os.WIFSIGNALED(status)


WORKS = (adding, importing_all)


def _undisturbed_s(work, file: Path, given: Given) -> float:
    """How long the writer takes on this machine as busy as it is now [s]; the quickest of some."""
    taken = []
    for _ in range(TRIES):
        start_again(file, given.empty, from_nothing=False)
        hear, tell = os.pipe()
        began, child = time.perf_counter(), os.fork()
        if child == 0:
            work(file, given, tell)
            os._exit(0)
        os.waitpid(child, 0)
        taken.append(time.perf_counter() - began)
        os.close(hear)
        os.close(tell)
    return min(taken)


def faults_in(file: Path, told: set[str], given: Given) -> tuple[list[str], int]:
    """What is wrong with what a killed writer left, and how many batches are there."""
    if not file.exists():
        return (["a committed batch is lost"] if told else []), 0
    with open_store(Place(file, "")) as store, store.reading() as connection:
        sound = connection.exec_driver_sql("PRAGMA integrity_check").scalar()
        keys = list(connection.exec_driver_sql("SELECT key FROM batches").scalars())
        halves = [key for key in keys if not _whole(batch_out(connection, key), given.wanted[key])]
    faults = [] if sound == "ok" else [f"integrity: {sound}"]
    faults += [f"{key} was committed and is lost" for key in told - set(keys)]
    return faults + [f"{key} is half-written" for key in halves], len(keys)


def _whole(found: BatchOut, wanted: BatchOut) -> bool:
    return found.contents == wanted.contents and len(found.versions) == 1


if __name__ == "__main__":
    main()
