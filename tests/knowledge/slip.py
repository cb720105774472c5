"""A slip of the hand that edits a card: what is changed, and what must be said about it."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from shutil import copytree

from diagnose.errors import Fault
from tests.knowledge.shipped import RULES


@dataclass(frozen=True)
class Slip:
    """One slip: in every file of `glob`, the first `pattern` becomes `text`.

    The fault must stand in `file` (by default the file edited) on the first line that `at`
    matches, and say `key`, `found` and `wanted`.
    """

    name: str
    glob: str
    pattern: str
    text: str
    at: str
    key: str
    found: str
    wanted: str
    file: str = ""

    def make(self, rules: Path) -> None:
        """Edit the files of a copy of the rule base."""
        edits = 0
        for path in sorted(rules.glob(self.glob)):
            before = path.read_text(encoding="utf-8")
            after, count = re.subn(self.pattern, self.text, before, count=1, flags=re.MULTILINE)
            path.write_text(after, encoding="utf-8")
            edits += count
        assert edits, f"{self.name}: nothing in {self.glob} matches {self.pattern!r}"

    def fault(self, rules: Path) -> Fault:
        """The fault that must be reported of the edited copy."""
        file = self.file or self.glob
        lines = (rules / file).read_text(encoding="utf-8").splitlines()
        line = next(number for number, text in enumerate(lines, 1) if re.search(self.at, text))
        return Fault(f"rules/{file}", line, self.key, self.found, self.wanted)


def copy_with(slips: Iterable[Slip], folder: Path) -> Path:
    """A copy of the shipped rules with every slip made in it."""
    rules = folder / "rules"
    copytree(RULES, rules)
    for slip in slips:
        slip.make(rules)
    return rules


# How most cards end a number; the slips write numbers of their own.
JUDGED = "basis: judgement, source: trade_judgement"
