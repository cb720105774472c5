"""The command line in this process: same entry point, one rule base, one day, 80 columns."""

import sys
from datetime import date
from pathlib import Path

import pytest

from diagnose.cli import loading
from diagnose.knowledge import RuleBase
from tests.cli.running import Faultwort
from tests.cli.split_folder import Folder

# A day after the newest entry of the shipped cases.
TODAY = date(2026, 11, 25)


@pytest.fixture
def faultwort(
    rules: RuleBase, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Faultwort:
    monkeypatch.setattr(loading, "shipped_rules", lambda: rules)
    monkeypatch.setattr(loading, "today", lambda: TODAY)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setenv("COLUMNS", "80")
    return Faultwort(monkeypatch, capsys)


@pytest.fixture
def folder(tmp_path: Path, rules: RuleBase, monkeypatch: pytest.MonkeyPatch) -> Folder:
    monkeypatch.setattr(loading, "shipped_rules", lambda: rules)
    monkeypatch.setattr(loading, "today", lambda: date(2026, 9, 1))
    return Folder(tmp_path)
