"""Opening a store: made new, checked, brought up to date, and never opened half-made."""

import os
import sqlite3
from collections.abc import Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from importlib import import_module
from pathlib import Path
from typing import Any, Final
from urllib.parse import quote

from sqlalchemy import URL, Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from diagnose.errors import Fault, StoreUnusable, UnusableInput
from diagnose.history.place import Place
from diagnose.history.soundness import file_trouble
from diagnose.history.tables import HEAD, REVISIONS, VERSION_TABLE
from diagnose.history.trouble import said_plainly, trouble_with

# How long one program waits for another that is writing, in s. Judgement: a write takes less
# than one.
WAIT_S: Final = 30.0
# Any number does that no other program of a club's server uses; the letters FAULTWRT.
_WRITERS_LOCK: Final = 0x4641554C54575254
_WRITES: Final = "faultwort_writes"


@dataclass(frozen=True)
class Store:
    """An open store."""

    place: Place
    engine: Engine

    def __enter__(self) -> "Store":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def reading(self) -> AbstractContextManager[Connection]:
        """A connection that sees the store as it was at one moment."""
        return transaction(self.place, self.engine, writes=False)

    def writing(self) -> AbstractContextManager[Connection]:
        """A connection for one transaction, which is kept whole or not at all."""
        return transaction(self.place, self.engine, writes=True)

    def close(self) -> None:
        """Let go of the file or the server."""
        self.engine.dispose()


def open_store(place: Place, *, create: bool = False) -> Store:
    """Open the store at a place.

    An SQLite store from an older version is brought up to date, after a copy is made beside it.

    Args:
        place: where it is.
        create: make a new one where there is none.

    Raises:
        UnusableInput: there is none, and it is not to be made; or the address cannot be read.
        StoreUnusable: it cannot be opened, is damaged, or is from a newer version.
    """
    file = place.file
    if file is not None and not file.exists():
        if not create:
            wanted = "a store; 'faultwort history add FILE' starts one"
            raise UnusableInput(Fault(str(file), 0, "", "no such file", wanted))
        import_module("diagnose.history.upgrading").make_new(place, file)
    if file is not None:
        found = file_trouble(file)
        if found is not None:
            raise trouble_with(str(place), *found)
    engine = engine_at(place)
    try:
        _bring_up_to_date(place, engine, create=create)
    except BaseException:
        engine.dispose()
        raise
    return Store(place, engine)


def engine_at(place: Place) -> Engine:
    """The engine of a place, with what makes each connection safe.

    Raises:
        UnusableInput: the address is no database URL.
        StoreUnusable: the driver of that database is not installed.
    """
    url = _file_url(place.file) if place.file is not None else place.url
    try:
        sqlite = make_url(url).get_backend_name() == "sqlite"
        engine = create_engine(url, connect_args={"timeout": WAIT_S} if sqlite else {})
    except ArgumentError as error:
        wanted = "a file's path, or a URL such as postgresql://user@host/name"
        raise UnusableInput(Fault("--store", 0, "", repr(url), wanted)) from error
    except ModuleNotFoundError as error:
        to_do = "install it, for PostgreSQL with: pip install 'faultwort[postgres]'"
        raise trouble_with(str(place), f"its driver {error.name} is not here", to_do) from error
    if sqlite:
        event.listen(engine, "connect", _make_safe)
        event.listen(engine, "begin", _begin)
    return engine


def _file_url(file: Path) -> URL:
    # SQLite keeps its journal beside the file even to read it. Where nothing can be written there
    # and no journal waits, the file alone is the whole store, and nobody changes it meanwhile.
    journal = file.with_name(f"{file.name}-wal")
    if os.access(file.parent, os.W_OK) or journal.exists():
        return URL.create("sqlite", database=str(file))
    only_read = {"mode": "ro", "immutable": "1", "uri": "true"}
    return URL.create("sqlite", database=f"file:{quote(str(file.absolute()))}", query=only_read)


@contextmanager
def transaction(place: Place, engine: Engine, *, writes: bool) -> Iterator[Connection]:
    """One transaction; a failure inside undoes all of it."""
    with said_plainly(str(place)), engine.connect() as raw:
        connection = raw.execution_options(**{_WRITES: writes})
        with connection.begin():
            if writes and connection.dialect.name == "postgresql":
                connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_WRITERS_LOCK})")
            yield connection


def _make_safe(connection: sqlite3.Connection, _record: Any) -> None:
    # None hands BEGIN to `_begin`; otherwise the driver would leave DDL outside the transaction.
    connection.isolation_level = None
    # FULL: what is committed survives a power cut, also in the write-ahead journal.
    for setting in ("foreign_keys = ON", "synchronous = FULL"):
        connection.execute(f"PRAGMA {setting}")


def _begin(connection: Connection) -> None:
    # A writer takes its lock at once: taken later, two of them could each wait for the other.
    writes = connection.get_execution_options().get(_WRITES, False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _bring_up_to_date(place: Place, engine: Engine, *, create: bool) -> None:
    with transaction(place, engine, writes=False) as connection:
        at = revision_of(connection)
    if at == HEAD:
        return
    if at is None and place.file is None and create:
        import_module("diagnose.history.upgrading").raise_to_head(place, engine)
    elif at is None:
        found = "it is a database, but no store of Faultwort's"
        raise trouble_with(str(place), found, "name the right one with --store")
    elif at not in REVISIONS:
        found = f"a newer Faultwort made it (revision {at}, this one knows {HEAD})"
        raise trouble_with(str(place), found, "install the newer Faultwort; nothing was changed")
    elif place.file is None:
        found = f"an older Faultwort made it (revision {at}, wanted {HEAD})"
        to_do = "back it up with its own means, then run 'faultwort history upgrade'"
        raise trouble_with(str(place), found, to_do)
    else:
        import_module("diagnose.history.upgrading").upgrade_file(place, place.file, engine)


def revision_of(connection: Connection) -> str | None:
    """Which revision the store is at; None where it is not ours."""
    if not connection.dialect.has_table(connection, VERSION_TABLE):
        return None
    found = connection.exec_driver_sql(f"SELECT version_num FROM {VERSION_TABLE}").scalar()
    return None if found is None else str(found)


def file_of(store: Store) -> Path:
    """The file of an SQLite store.

    Raises:
        StoreUnusable: it is on a server.
    """
    if store.place.file is None:
        to_do = "use the database's own means, for PostgreSQL pg_dump"
        raise StoreUnusable(f"the store {store.place} is not a file; {to_do}")
    return store.place.file
