"""An empty store for each test, and the history's commands as a shell would call them."""

import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from diagnose.cli import app as commands
from diagnose.cli import loading
from diagnose.cli.history import history_app
from diagnose.history.opening import Store, open_store
from diagnose.history.place import Place
from diagnose.knowledge import RuleBase
from tests.cli.running import Faultwort
from tests.history.stores import TODAY, new_store


@pytest.fixture(scope="session")
def template(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("template") / "empty.faultwort"
    open_store(Place(file, ""), create=True).close()
    return file


@pytest.fixture
def store(tmp_path: Path, template: Path) -> Iterator[Store]:
    with new_store(tmp_path, template) as opened:
        yield opened


@pytest.fixture
def history(
    rules: RuleBase,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> Faultwort:
    monkeypatch.setattr(loading, "shipped_rules", lambda: rules)
    monkeypatch.setattr("diagnose.cli.history_adding.shipped_rules", lambda: rules)
    monkeypatch.setattr("diagnose.cli.history_adding.today", lambda: TODAY)
    monkeypatch.setattr("diagnose.cli.history_writing.shipped_rules", lambda: rules)
    monkeypatch.setattr(commands, "app", history_app)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("FAULTWORT_STORE", str(tmp_path / "mine" / "store.faultwort"))
    return Faultwort(monkeypatch, capsys)
