"""Writers on a disk that fills up; run as a program of its own, on a small disk.

Prints one line of JSON: how many rounds there were, how often the disk was full before the work
was done, how many of those left some batches and not all, and what was found wrong.
"""

import json
import os
import random
import sys
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from diagnose.errors import StoreUnusable
from diagnose.history.kinds import EventNote
from diagnose.history.noting import write_note
from diagnose.history.opening import open_store
from diagnose.history.place import Place
from tests.history.killing import (
    BATCHES,
    Given,
    adding,
    faults_in,
    importing_all,
    start_again,
    whole_store,
)
from tests.history.stores import NOW

# The disk is left this much room at first, drawn anew for each round [bytes].
ROOM = (10_000, 1_000_000)
_BLOCK = 4096
_TO_DO = "make room and try again; everything written before is safe"
Work = Callable[..., None]


def main() -> None:
    """Fill the disk under adders and importers in turn, and look at what they leave."""
    disk, folder, rounds = Path(sys.argv[1]), Path(sys.argv[2]), int(sys.argv[3])
    dice, given = random.Random(7), whole_store(folder)
    file = disk / "store.faultwort"
    full, midway, wrong = Counter[str](), Counter[str](), list[str]()
    for number in range(rounds):
        start_again(file, given.empty, from_nothing=False)
        work: Work = importing_all if number % 2 else adding
        told, said = _until_full(disk, (work, given, file), dice.randint(*ROOM))
        faults, there = _left(file, told, said, given)
        full[work.__name__] += said is not None
        midway[work.__name__] += said is not None and 0 < there < BATCHES
        wrong += [f"round {number}: {fault}" for fault in faults]
    sys.stdout.write(json.dumps({"rounds": rounds, "wrong": wrong, "full": full, "midway": midway}))


def _until_full(
    disk: Path, task: tuple[Work, Given, Path], room: int
) -> tuple[set[str], str | None]:
    """The keys a writer told of, and what it said when the disk was full; None if it never was."""
    work, given, file = task
    ballast = disk / "ballast"
    _weigh_down(disk, ballast, room)
    hear, tell = os.pipe()
    said = None
    try:
        work(file, given, tell)
    except StoreUnusable as full:
        said = str(full)
    os.close(tell)
    ballast.unlink()
    with os.fdopen(hear, "rb") as heard:
        return set(heard.read().decode().split("\n")[:-1]), said


def _weigh_down(disk: Path, ballast: Path, room: int) -> None:
    free = os.statvfs(disk)
    with ballast.open("wb") as out:
        for _ in range(max(0, (free.f_bavail * free.f_frsize - room) // _BLOCK)):
            out.write(bytes(_BLOCK))


def _left(file: Path, told: set[str], said: str | None, given: Given) -> tuple[list[str], int]:
    """What is wrong once there is room again, and how many batches are there."""
    faults, there = faults_in(file, told, given)
    if said is not None and _TO_DO not in said:
        faults.append(f"said: {said}")
    with open_store(Place(file, "")) as store:
        write_note(store, EventNote(kind="other", typed="room again"), NOW)
    return faults, there


if __name__ == "__main__":
    main()
