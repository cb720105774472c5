"""A brewer's folder with a split in it, and the split commands typed there."""

import json
import re
from pathlib import Path
from typing import Any

import yaml
from typer.testing import CliRunner, Result

from diagnose.cli.split import split_app
from diagnose.errors import UnusableInput
from tests.cli.running import written
from tests.trial.arms import CAUSE, FAULTY, TASTERS

RUNNER = CliRunner(env={"COLUMNS": "80"})


class Folder:
    """A brewer's folder, and the commands typed in it."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.split = path / "split"
        self.batch = written(path, FAULTY, "faulty.yaml")

    def typed(self, *words: object) -> Result:
        return RUNNER.invoke(split_app, [str(word) for word in words])

    def json(self, *words: object) -> Any:
        done = self.typed(*words, "--json")
        assert done.exit_code in (0, 1), done.exception
        return json.loads(done.stdout)

    def refused(self, *words: object) -> str:
        done = self.typed(*words)
        assert isinstance(done.exception, UnusableInput), done.stdout
        return str(done.exception)

    def plan(self) -> Any:
        return self.json(
            "plan", self.batch, CAUSE, "--seed", 7, "--start", "2026-07-01", "--out", self.split
        )

    def ballots(self, *more: object, tasters: int = len(TASTERS)) -> Any:
        names = ",".join(TASTERS[:tasters])
        return self.json("ballots", self.split, "--tasters", names, "--seed", 3, *more)

    def suspect_at(self, share: float) -> None:
        """Set the suspect's chance in the plan; the others keep their ratios."""
        file = self.split / "plan.yaml"
        plan = yaml.safe_load(file.read_text("utf-8"))
        rest = 1.0 - next(one["share"] for one in plan["explanations"] if one["id"] == CAUSE)
        for one in plan["explanations"]:
            one["share"] = share if one["id"] == CAUSE else one["share"] * (1.0 - share) / rest
        file.write_text(json.dumps(plan, default=str), "utf-8")

    def read(self, right: int, of: int = len(TASTERS), share: float = 0.5) -> Any:
        """A panel of so many, planned, served, answered and read."""
        self.plan()
        self.suspect_at(share)
        self.ballots(tasters=of)
        self.answer(right, of)
        return self.json("read", self.split)

    def poured(self) -> dict[str, int]:
        """Which vessel each code was poured from, as the pourer's sheet says."""
        text = (self.split / "pourer.html").read_text("utf-8")
        return {code: int(n) for code, n in re.findall(r"(\d{3}) from vessel (\d)", text)}

    def servings(self) -> list[Any]:
        return yaml.safe_load((self.split / "panel.yaml").read_text("utf-8"))["servings"]

    def answer(self, right: int, of: int = 9) -> None:
        """Nine ballots, so many of them naming the glass with the suspect setting."""
        plan = yaml.safe_load((self.split / "plan.yaml").read_text("utf-8"))
        suspect = next(one["number"] for one in plan["vessels"] if one["arm"] == "A")
        poured = self.poured()
        for place, serving in enumerate(self.servings()[:of]):
            is_suspect = {code: poured[code] == suspect for code in serving["codes"]}
            odd = [c for c in is_suspect if list(is_suspect.values()).count(is_suspect[c]) == 1]
            hits = odd if len(is_suspect) == 3 else [c for c in is_suspect if is_suspect[c]]
            misses = [code for code in is_suspect if code not in hits]
            chosen = hits[0] if place < right else misses[0]
            assert self.typed("enter", self.split, serving["taster"], chosen).exit_code == 0
