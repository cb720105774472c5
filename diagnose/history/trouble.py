"""What a database says when it cannot go on, in a sentence that says what to do."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Final

from sqlalchemy.exc import DBAPIError, SQLAlchemyError

from diagnose.errors import StoreUnusable

_WITH_A_BACKUP: Final = (
    "keep the damaged file, and put the latest copy that 'faultwort history backup' made in its "
    "place"
)
# SQLite's own names of what went wrong, by how they begin; the first that fits is used.
_SQLITE: Final = (
    (
        "SQLITE_BUSY",
        "another program is writing to it",
        "wait until that has ended, and try again",
    ),
    ("SQLITE_LOCKED", "another program holds it", "wait until that has ended, and try again"),
    (
        "SQLITE_READONLY",
        "it may only be read",
        "allow writing to the file and its folder, or name another store with --store",
    ),
    (
        "SQLITE_FULL",
        "the disk is full",
        "make room and try again; everything written before is safe",
    ),
    ("SQLITE_IOERR_SHORT_READ", "the file is cut short", _WITH_A_BACKUP),
    ("SQLITE_IOERR_READ", "the disk cannot be read", "see to the disk, then try again"),
    (
        "SQLITE_IOERR",
        "the disk refused the write (full, over a quota, or failing)",
        "make room and try again; everything written before is safe",
    ),
    ("SQLITE_CORRUPT", "the file is damaged", _WITH_A_BACKUP),
    ("SQLITE_NOTADB", "the file is no database", "name the right file with --store"),
    (
        "SQLITE_CANTOPEN",
        "the file cannot be opened",
        "see that the folder exists and may be read and written, or name another with --store",
    ),
    ("SQLITE_PERM", "the file may not be opened", "allow reading and writing it"),
    ("SQLITE_AUTH", "the file may not be opened", "allow reading and writing it"),
)
_NO_SUCH_TABLE: Final = "something in it is missing"


@contextmanager
def said_plainly(store: str) -> Iterator[None]:
    """Turn whatever a database raises inside into StoreUnusable.

    Args:
        store: how the store is called in messages.

    Raises:
        StoreUnusable: the database failed.
    """
    try:
        yield
    except SQLAlchemyError as error:
        raise StoreUnusable(_sentence(store, error)) from error


def trouble_with(store: str, found: str, to_do: str) -> StoreUnusable:
    """One sentence for one trouble."""
    return StoreUnusable(f"the store {store}: {found}; {to_do}")


def _sentence(store: str, error: SQLAlchemyError) -> str:
    original = error.orig if isinstance(error, DBAPIError) else error
    name = str(getattr(original, "sqlite_errorname", ""))
    for start, found, to_do in _SQLITE:
        if name.startswith(start):
            return str(trouble_with(store, found, to_do))
    lines = [line.strip() for line in str(original).splitlines() if line.strip()]
    why = lines[0] if lines else type(error).__name__
    if name == "SQLITE_ERROR":
        return str(trouble_with(store, f"{_NO_SUCH_TABLE} ({why})", _WITH_A_BACKUP))
    to_do = "see that the server runs and that the address, name and password are right"
    return str(trouble_with(store, f"the database says: {why}", to_do))
