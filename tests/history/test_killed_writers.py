"""Two hundred writers killed at random moments, full disks, and writers that meet."""

import json
import os
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

import pytest

from diagnose.history.exporting import export_to
from diagnose.history.keeping import keep_batch
from diagnose.history.kinds import EventNote
from diagnose.history.listing import list_batches
from diagnose.history.noting import write_note
from diagnose.history.opening import open_store
from diagnose.history.place import Place
from tests.history.stores import filed, later

ROOT = Path(__file__).parents[2]
ROUNDS = 200
FULL_DISKS = 20
# A disk of its own needs a name space of its own, which not every machine gives to everybody.
ON_A_SMALL_DISK = (
    "unshare",
    "-Urm",
    "sh",
    "-c",
    'mount -t tmpfs -o size=4m none "$0" && exec "$@"',
)


def _started(*arguments: object, under: Sequence[str] = ()) -> subprocess.Popen[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.Popen(
        [*under, sys.executable, *map(str, arguments)],
        cwd=ROOT,
        env=environment,
        text=True,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )


def test_two_hundred_killed_writers_lose_and_halve_nothing(tmp_path):
    program = _started("-m", "tests.history.killing", tmp_path, ROUNDS)
    out, errors = program.communicate()
    assert program.returncode == 0, errors
    told = json.loads(out)
    assert (told["rounds"], told["wrong"]) == (ROUNDS, [])
    assert all(told["killed"][work] > ROUNDS // 8 for work in ("adding", "importing_all"))
    assert all(told["midway"][work] > ROUNDS // 20 for work in ("adding", "importing_all"))


def _small_disk(at: Path) -> tuple[str, ...]:
    at.mkdir()
    under = (*ON_A_SMALL_DISK, str(at))
    try:
        subprocess.run([*under, "true"], check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError) as error:
        pytest.skip(f"no small disk can be made here: {error}")
    return under


def test_twenty_disks_that_fill_up_lose_and_halve_nothing_and_it_is_said(tmp_path):
    disk, work = tmp_path / "disk", tmp_path / "work"
    under = _small_disk(disk)
    work.mkdir()
    program = _started("-m", "tests.history.filling", disk, work, FULL_DISKS, under=under)
    out, errors = program.communicate()
    assert program.returncode == 0, errors
    told = json.loads(out)
    assert (told["rounds"], told["wrong"]) == (FULL_DISKS, [])
    assert all(told["full"][work] == FULL_DISKS // 2 for work in ("adding", "importing_all"))
    assert all(told["midway"][work] > FULL_DISKS // 5 for work in ("adding", "importing_all"))


_ADDER = """
import sys
from pathlib import Path
from diagnose.history.keeping import keep_batch
from diagnose.history.opening import open_store
from diagnose.history.place import Place
from diagnose.knowledge import load_rules
from diagnose.shipped import shipped
from tests.history.stores import NOW, filed
folder, own = Path(sys.argv[1]), sys.argv[2]
mine = folder / own
mine.mkdir()
rules = load_rules(shipped("rules"))
for number in range(12):
    names = ("shared", number) if number % 2 else (own, number)
    filing = filed(rules, mine, f"{number}.yaml", batch=f"{names[0]} {names[1]}")
    with open_store(Place(folder / "store.faultwort", ""), create=True) as store:
        keep_batch(store, filing, NOW)
"""


def test_two_programs_that_write_at_once_lose_nothing_and_double_nothing(tmp_path):
    writers = [_started("-c", _ADDER, tmp_path, name) for name in ("left", "right")]
    for writer in writers:
        _, errors = writer.communicate()
        assert writer.returncode == 0, errors
    with open_store(Place(tmp_path / "store.faultwort", "")) as store:
        names = sorted(line.name for line in list_batches(store))
    assert names == sorted(
        [f"{own} {number}" for own in ("left", "right") for number in range(0, 12, 2)]
        + [f"shared {number}" for number in range(1, 12, 2)]
    )


_IMPORTER = """
import sys
from pathlib import Path
from diagnose.history import importing
from diagnose.history.opening import open_store
from diagnose.history.place import Place
importing._AT_A_TIME = 3
with open_store(Place(Path(sys.argv[1]), ""), create=True) as store:
    importing.import_from(store, Path(sys.argv[2]))
"""


def test_two_programs_that_import_the_same_at_once_double_nothing(tmp_path, rules):
    with open_store(Place(tmp_path / "whole.faultwort", ""), create=True) as whole:
        for number in range(12):
            keep_batch(whole, filed(rules, tmp_path, batch=f"brew {number}"), later(number))
            write_note(whole, EventNote(kind="other", typed=f"hose {number}"), later(number))
        export_to(whole, tmp_path / "whole.jsonl")
    both = [
        _started("-c", _IMPORTER, tmp_path / "store.faultwort", tmp_path / "whole.jsonl")
        for _ in range(2)
    ]
    for importer in both:
        _, errors = importer.communicate()
        assert importer.returncode == 0, errors
    with open_store(Place(tmp_path / "store.faultwort", "")) as store:
        export_to(store, tmp_path / "again.jsonl")
    assert (tmp_path / "again.jsonl").read_bytes() == (tmp_path / "whole.jsonl").read_bytes()
