"""What a command must not wait for: modules that its answer does not need.

A cache is filled first, as it is from the second run on.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
RUN = """
import sys
from diagnose.cli import main
sys.argv = ["faultwort", *sys.argv[1:]]
try:
    main()
finally:
    print(*sys.modules, file=sys.stderr)
"""
CASE = str(ROOT / "cases" / "crashed_too_soon")
LOG = str(ROOT / "cases" / "two_days_without_foam" / "helles.csv")

NEVER_AT_START = {"jsonschema", "matplotlib", "pandas", "scipy", "sqlalchemy"}
READING_RULES = {"diagnose.flavour.load", "diagnose.flavour.faults"}
SCIENCE = {"diagnose.evidence", "diagnose.inference", "diagnose.process"}
UNWANTED = {
    ("--help",): NEVER_AT_START
    | SCIENCE
    | {"networkx", "numpy", "pydantic", "rapidfuzz", "rich", "tempfile", "yaml"}
    | {"diagnose.answers", "diagnose.consult", "diagnose.flavour", "diagnose.knowledge"},
    ("taste", "buttery, no sourness"): NEVER_AT_START
    | SCIENCE
    | READING_RULES
    | {"diagnose.batch", "diagnose.knowledge", "diagnose.units", "networkx", "numpy", "yaml"}
    | {
        "rapidfuzz",
        "rich.progress",
        "diagnose.report.diagnosis_page",
        "diagnose.consult.diagnosing",
    },
    ("explain", "light_struck"): NEVER_AT_START
    | READING_RULES
    | SCIENCE
    | {"diagnose.batch", "diagnose.consult.diagnosing", "networkx", "numpy", "yaml"}
    | {"rapidfuzz", "rich.progress", "diagnose.report.diagnosis_page"},
    ("probe", LOG): NEVER_AT_START
    | SCIENCE
    | {"diagnose.batch.record", "diagnose.flavour", "diagnose.knowledge", "networkx"}
    | {"rapidfuzz", "rich.progress", "yaml"},
    ("diagnose", CASE): NEVER_AT_START
    | READING_RULES
    | {"diagnose.batch.schema", "diagnose.casebook", "diagnose.history", "networkx", "rapidfuzz"}
    | {"numpy.ma", "rich.progress"},
}


def modules_after(cache: Path | str, *typed: str) -> set[str]:
    environ = {**os.environ, "PYTHONPATH": str(ROOT), "FAULTWORT_CACHE": str(cache)}
    done = subprocess.run(
        [sys.executable, "-c", RUN, *typed],
        env=environ,
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.returncode, bool(done.stdout)) == (0, True), done.stderr
    return set(done.stderr.split())


@pytest.fixture(scope="module")
def cache(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("cache")
    for typed in (("taste", "butter"), ("explain", "butter")):
        modules_after(folder, *typed)
    return folder


@pytest.mark.parametrize("typed", UNWANTED, ids=lambda typed: typed[0])
def test_a_command_does_not_wait_for_what_it_does_not_use(
    cache: Path, typed: tuple[str, ...]
) -> None:
    assert not UNWANTED[typed] & modules_after(cache, *typed)


def test_without_a_cache_the_files_are_read() -> None:
    assert modules_after("", "taste", "butter") >= READING_RULES
