"""The wheel: built, installed in an empty environment, and the cases replayed from it."""

import json
import os
import subprocess
import sys
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def installed(tmp_path_factory):
    """The `faultwort` of a wheel built from this checkout, far from the checkout."""
    place = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "build", "--wheel", "--outdir", str(place), str(ROOT)]
    subprocess.run(build, check=True, capture_output=True, timeout=300)
    wheel = next(place.glob("faultwort-*.whl"))
    venv.create(place / "env", with_pip=True)
    python = place / "env" / "bin" / "python"
    pip = [str(python), "-m", "pip", "install", "-q", "--disable-pip-version-check", str(wheel)]
    subprocess.run(pip, check=True, capture_output=True, timeout=600)
    return python.with_name("faultwort"), place


def _run(installed, *arguments):
    command, place = installed
    clean = {key: value for key, value in os.environ.items() if key != "PYTHONPATH"}
    return subprocess.run(
        [str(command), *arguments],
        cwd=place,
        env=clean,
        capture_output=True,
        text=True,
        check=False,
    )


def test_the_demo_runs_from_the_wheel(installed):
    done = _run(installed, "demo")
    assert done.returncode == 0, done.stderr
    assert "Now try" in done.stdout


def test_every_case_holds_when_replayed_from_the_wheel(installed):
    done = _run(installed, "rules", "score", "--json")
    answer = json.loads(done.stdout)
    assert [case["case"] for case in answer["cases"] if not case["holds"]] == []
    assert done.returncode == 0


def test_the_rule_base_of_the_wheel_is_clean(installed):
    done = _run(installed, "rules", "check")
    assert done.returncode == 0, done.stdout
