"""A copy of a store by the database's own online backup, checked before it gets its name."""

import os
import sqlite3
from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Final

from diagnose.errors import Fault, StoreUnusable, UnusableInput
from diagnose.history.opening import Store, file_of

Progress = Callable[[int, int], None]
_PAGES_AT_A_TIME: Final = 2048


def back_up(store: Store, copy: Path, progress: Progress | None = None) -> int:
    """Copy a store that may be in use; the copy is whole or not there at all.

    Args:
        store: an SQLite store.
        copy: the file to make.
        progress: told (pages done, pages in all) as it goes.

    Returns:
        the size of the copy [bytes].

    Raises:
        UnusableInput: there is a file of that name.
        StoreUnusable: the store is on a server, or cannot be copied.
    """
    file = file_of(store)
    if copy.exists():
        raise UnusableInput(Fault(str(copy), 0, "", "a file that exists", "a new name"))
    copy_file(file, copy, progress)
    return copy.stat().st_size


def copy_file(file: Path, copy: Path, progress: Progress | None = None) -> None:
    """Copy the SQLite file at `file`; see `back_up`."""
    try:
        with TemporaryDirectory(dir=copy.parent, prefix=".copying-") as folder:
            unfinished = Path(folder) / copy.name
            _copy_pages(file, unfinished, progress)
            with unfinished.open("rb") as written:
                os.fsync(written.fileno())
            unfinished.rename(copy)
    except (OSError, sqlite3.Error) as error:
        why = (getattr(error, "strerror", None) or str(error)).lower()
        to_do = "nothing was changed; see that there is room and that the folder may be written"
        raise StoreUnusable(f"the copy {copy} could not be made ({why}); {to_do}") from error


def _copy_pages(file: Path, copy: Path, progress: Progress | None) -> None:
    source, target = sqlite3.connect(file), sqlite3.connect(copy)
    try:
        told = None if progress is None else _told(progress)
        source.backup(target, pages=_PAGES_AT_A_TIME, progress=told)
        # A copy is one file: without a journal beside it that could be left behind.
        target.execute("PRAGMA journal_mode = DELETE")
        found = target.execute("PRAGMA quick_check(1)").fetchone()[0]
        if found != "ok":
            raise sqlite3.DatabaseError(f"the store is damaged: {found}")
    finally:
        source.close()
        target.close()


def _told(progress: Progress) -> Callable[[int, int, int], None]:
    def tell(_status: int, remaining: int, total: int) -> None:
        progress(total - remaining, total)

    return tell
