"""The files of a split: written whole or not at all, and a ballot box that only grows."""

import os
from dataclasses import dataclass
from pathlib import Path

from diagnose.documents import parse_yaml, read_as, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.trial.ballots import Box, box_of
from diagnose.trial.panel import Panel
from diagnose.trial.plan import Plan
from diagnose.trial.plan_file import plan_of

PLAN, PLAN_PAGE, CALENDAR, CHECK = "plan.yaml", "plan.html", "waiting.ics", "check.yaml"
PANEL, KEY, BOX = "panel.yaml", "key.sealed", "ballots.jsonl"
BALLOTS_PAGE, HOST_PAGE, POURER_PAGE = "ballots.html", "host.html", "pourer.html"


@dataclass(frozen=True)
class PlanAt:
    """A plan and the folder that it stands in."""

    plan: Plan
    folder: Path


def plan_at(path: Path) -> PlanAt:
    """The plan in a file, or in a folder that holds one.

    Raises:
        UnusableInput: there is none, or it has faults.
    """
    file = path / PLAN if path.is_dir() else path
    return PlanAt(plan_of(read_text(file), str(file)), file.parent)


def panel_at(folder: Path) -> Panel:
    """The panel in a folder.

    Raises:
        UnusableInput: no ballots were made there, or the file has faults.
    """
    file = folder / PANEL
    if not file.is_file():
        wanted = "a folder with a panel; `faultwort split ballots PLAN` makes one"
        raise UnusableInput(Fault(str(folder), 0, "", f"no {PANEL}", wanted))
    return read_as(parse_yaml(read_text(file), str(file)), Panel)


def box_at(folder: Path) -> Box:
    """The ballot box in a folder; an empty one where nothing is in it."""
    file = folder / BOX
    return box_of(file.read_text("utf-8") if file.is_file() else "")


def require_new(folder: Path, names: tuple[str, ...]) -> None:
    """Refuse to write over what is there.

    Raises:
        UnusableInput: one of the files exists.
    """
    for name in names:
        if (folder / name).exists():
            wanted = "a folder without one; ballots and plans are never written over"
            raise UnusableInput(Fault(str(folder / name), 0, "", "a file that exists", wanted))


def write_whole(path: Path, text: str) -> None:
    """A file written beside its place and moved there, so that it is never half a file.

    Args:
        path: where it goes; its folder is made if need be.
        text: its text; line ends are kept as they are.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    beside = path.with_name(f".{path.name}.new")
    with beside.open("w", encoding="utf-8", newline="") as file:
        file.write(text)
        file.flush()
        os.fsync(file.fileno())
    beside.replace(path)


def append_line(path: Path, line: str) -> None:
    """One more line, on the disk before this returns; what is there is never touched.

    Args:
        path: the file.
        line: the line, without its end.
    """
    cut_short = path.is_file() and path.stat().st_size > 0 and not _ends_well(path)
    data = f"{chr(10) if cut_short else ''}{line}\n".encode()
    descriptor = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o644)
    try:
        os.write(descriptor, data)
        os.fsync(descriptor)
    finally:
        os.close(descriptor)


def _ends_well(path: Path) -> bool:
    with path.open("rb") as file:
        file.seek(-1, os.SEEK_END)
        return file.read(1) == b"\n"
