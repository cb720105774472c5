"""Two hundred writers killed at random moments, and writers that meet."""

import json
import os
import subprocess
import sys
from pathlib import Path

from diagnose.history.listing import list_batches
from diagnose.history.opening import open_store
from diagnose.history.place import Place

ROOT = Path(__file__).parents[2]
ROUNDS = 200


def _started(*arguments: object) -> subprocess.Popen[str]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.Popen(
        [sys.executable, *map(str, arguments)],
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
    assert all(told["killed"][work] > ROUNDS // 8 for work in ("_adding", "_importing"))
    assert all(told["midway"][work] > ROUNDS // 20 for work in ("_adding", "_importing"))


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
