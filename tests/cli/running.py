"""Running `faultwort` in this process as a shell would, and what came of it."""

import json
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from diagnose.cli import main
from diagnose.shipped import shipped

CASES = sorted(card.parent for card in shipped("cases").rglob("case.yaml"))
NAMES = [case.name for case in CASES]


@dataclass(frozen=True)
class Outcome:
    """What a shell sees of a command."""

    code: int
    out: str
    err: str

    @property
    def json(self) -> Any:
        return json.loads(self.out, parse_constant=_not_json)


def _not_json(constant: str) -> None:
    raise AssertionError(f"{constant} is no JSON")


@dataclass(frozen=True)
class Faultwort:
    """The program; called with what would be typed behind its name."""

    monkeypatch: pytest.MonkeyPatch
    capsys: pytest.CaptureFixture[str]

    def __call__(self, *typed: object) -> Outcome:
        self.monkeypatch.setattr(sys, "argv", ["faultwort", *map(str, typed)])
        self.capsys.readouterr()
        code = 0
        try:
            main()
        except SystemExit as end:
            code = int(end.code or 0)
        out, err = self.capsys.readouterr()
        return Outcome(code, out, err)


def written(folder: Path, text: str, name: str = "batch.yaml") -> Path:
    """A file in `folder` with `text` in it."""
    path = folder / name
    path.write_text(text, "utf-8")
    return path
