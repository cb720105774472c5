"""What was read from a file, with the line of every entry."""

from dataclasses import dataclass
from typing import Any

from diagnose.errors import Fault

Path = tuple[str | int, ...]

# What was found is shown in one sentence, however much of it there is.
_LONGEST_SHOWN = 160


@dataclass(frozen=True)
class Document:
    """Plain data and, for each path into it, the line it stands on (counted from 1)."""

    name: str
    data: Any
    lines: dict[Path, int]

    def line(self, path: Path) -> int:
        """The line of `path`, or of the nearest entry above it that has one."""
        for end in range(len(path), -1, -1):
            if path[:end] in self.lines:
                return self.lines[path[:end]]
        return 0

    def fault(self, path: Path, found: str, wanted: str) -> Fault:
        """A fault at `path`, with its file and line filled in."""
        shown = found if len(found) <= _LONGEST_SHOWN else f"{found[: _LONGEST_SHOWN - 3]}..."
        return Fault(self.name, self.line(path), dotted(path), shown, wanted)


def dotted(path: Path) -> str:
    """A path as a person reads it: `recipe.hops[2].amount` (entries counted from 1)."""
    text = ""
    for step in path:
        text += f"[{step + 1}]" if isinstance(step, int) else f".{step}"
    return text.lstrip(".")
