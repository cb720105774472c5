"""A page in a file: written whole, and over nothing but an earlier page of ours."""

from pathlib import Path

from diagnose.consult.split_files import write_whole
from diagnose.errors import Fault, UnusableInput


def write_page(path: Path, page: str, opening: str) -> None:
    """Write a page to a new file, or over an earlier page that begins as all of ours do.

    Args:
        path: where it goes.
        page: its text.
        opening: how every page of this kind begins.

    Raises:
        UnusableInput: something else is there, or the place cannot be written to.
    """
    try:
        if path.exists() and not _is_ours(path, opening):
            wanted = "a new file, or an earlier page of this command to write over"
            raise UnusableInput(Fault(str(path), 0, "--html", "something else there", wanted))
        write_whole(path, page)
    except OSError as refused:
        wanted = "a place that can be written to"
        found = refused.strerror or "no access"
        raise UnusableInput(Fault(str(path), 0, "--html", found, wanted)) from refused


def _is_ours(path: Path, opening: str) -> bool:
    if not path.is_file():
        return False
    start = opening.encode()
    with path.open("rb") as file:
        return file.read(len(start)) == start
