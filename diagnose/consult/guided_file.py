"""The file of a guided entry: found, begun, and written whole after every answer."""

from collections.abc import Callable
from datetime import date
from pathlib import Path

from diagnose.consult.gathering import consult_on
from diagnose.consult.guided import Sitting, begun
from diagnose.consult.split_files import write_whole
from diagnose.documents import read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.knowledge import RuleBase

_MOST_A_DAY = 100


def new_name(folder: Path, today: date) -> Path:
    """A name that no file of the folder has."""
    stem = f"batch-{today.isoformat()}"
    names = (f"{stem}.yaml", *(f"{stem}-{n}.yaml" for n in range(2, _MOST_A_DAY)))
    return next((folder / name for name in names if not (folder / name).exists()), folder / stem)


def record_in(path: Path) -> Path:
    """The record at a path, which may be a case's folder."""
    return path / "batch.yaml" if path.is_dir() else path


def sitting_at(rules: RuleBase, path: Path, today: date, *, ask: bool = False) -> Sitting:
    """A sitting at the record in a file; at a new one where there is no file and none is asked of.

    Args:
        rules: the rule base.
        path: the record.
        today: dates after this day are refused.
        ask: the record is there, and checks are asked about too.

    Raises:
        UnusableInput: the file is no record that can be used; it is left as it is.
    """
    text = _read(path) if ask or _is_begun(path) else ""
    sitting = Sitting(rules, path, today, begun(text, path), checks=ask, words_only=ask)
    consult_on(rules, sitting.batch)
    return sitting


def _is_begun(path: Path) -> bool:
    """Whether something is written there; a folder is none of it and is refused in reading."""
    return path.is_dir() or (path.exists() and path.stat().st_size > 0)


def _read(path: Path) -> str:
    read_text(path)
    with path.open(encoding="utf-8-sig", newline="") as file:
        return file.read()


def keep_at(path: Path) -> Callable[[str, str], None]:
    """What puts a record on the disk, unless somebody else has changed it there."""
    place = path.resolve()

    def keep(before: str, after: str) -> None:
        there = _read(place) if _is_begun(place) else ""
        if there not in (before, after) and there.strip():
            found = "changes made by another program meanwhile"
            wanted = "one at a time; start again, and give the last answer once more"
            raise UnusableInput(Fault(str(path), 0, "", found, wanted))
        mode = place.stat().st_mode if place.exists() else None
        write_whole(place, after)
        if mode is not None:
            place.chmod(mode)

    return keep
