"""The house rules: lint, types, floors, sizes, and what may not be in a file."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PACKAGE = ROOT / "diagnose"
TEST_COMMAND = (
    "python3 -m venv .venv && .venv/bin/pip install -q '.[test]' && .venv/bin/python -m pytest -q"
)
LONGEST_FILE, LONGEST_FUNCTION = 260, 40


def _run(*arguments: str) -> None:
    done = subprocess.run(arguments, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_the_lint_is_clean():
    _run(sys.executable, "-m", "ruff", "check", "--no-cache", "diagnose", "tests")


def test_the_format_is_ours():
    _run(sys.executable, "-m", "ruff", "format", "--check", "--no-cache", "diagnose", "tests")


def test_every_type_is_checked_strictly(tmp_path):
    _run(sys.executable, "-m", "mypy", "--cache-dir", str(tmp_path))


def test_imports_go_down_only():
    command = "from importlinter.cli import lint_imports_command as run; run(['--no-cache'])"
    _run(sys.executable, "-c", command)


SOURCES = sorted(PACKAGE.rglob("*.py"))


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_a_file_holds_one_idea(path):
    assert len(path.read_text().splitlines()) <= LONGEST_FILE


def test_no_function_is_longer_than_a_head_holds():
    for path in SOURCES:
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.FunctionDef):
                lines = (node.end_lineno or 0) - node.lineno + 1
                document = ast.get_docstring(node) or ""
                assert lines - len(document.splitlines()) <= LONGEST_FUNCTION, (path, node.name)


def test_no_room_is_called_after_nothing():
    banned = {"utils", "helpers", "core", "common", "manager", "misc"}
    assert not [path for path in PACKAGE.rglob("*") if path.stem in banned]


def test_nothing_is_left_to_do_later():
    for path in SOURCES:
        assert not re.search(r"\b(TODO|FIXME|XXX|HACK)\b", path.read_text()), path


def test_data_folders_hold_no_code():
    for folder in ("rules", "cases"):
        assert not list((ROOT / folder).rglob("*.py"))


@pytest.mark.parametrize("room", ["process", "inference", "evidence", "knowledge"])
def test_the_science_asks_no_clock(room):
    for path in (PACKAGE / room).rglob("*.py"):
        text = path.read_text()
        assert (
            "datetime.now" not in text and "date.today" not in text and "time.time" not in text
        ), path


def test_the_readme_opens_with_the_job_and_shows_both_commands():
    text = (ROOT / "README.md").read_text()
    first = next(part for part in text.split("\n\n") if not part.startswith("#"))
    assert "taste wrong" in first
    run = "python3 -m venv .venv && .venv/bin/pip install -q . && .venv/bin/faultwort demo"
    assert run in text and TEST_COMMAND in text


def test_ci_calls_the_test_command_of_the_readme():
    assert TEST_COMMAND in (ROOT / ".ci" / "run").read_text()


HEAVY = {"networkx", "scipy", "numpy", "sqlalchemy", "matplotlib", "pandas"}


@pytest.mark.parametrize(
    ("statement", "unwanted"),
    [
        ("import diagnose.cli.app", HEAVY | {"diagnose.knowledge", "rapidfuzz"}),
        ("from diagnose.flavour import load_lexicon, understand", HEAVY),
        ("from diagnose.knowledge import load_rules", {"scipy", "pandas", "matplotlib"}),
    ],
)
def test_start_up_does_not_wait_for_what_it_does_not_use(statement, unwanted):
    code = f"import sys; {statement}; print(' '.join(sys.modules))"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert not unwanted & set(done.stdout.split())
