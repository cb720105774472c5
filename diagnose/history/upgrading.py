"""Making a store and bringing an older one up to date, by the revisions in `migrations`."""

import os
import sqlite3
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

from alembic.operations import Operations
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine

from diagnose.errors import StoreUnusable
from diagnose.history.backing_up import copy_file
from diagnose.history.opening import engine_at, revision_of, transaction
from diagnose.history.place import Place
from diagnose.history.tables import HEAD, VERSION_TABLE

_MIGRATIONS: Final = Path(__file__).parent / "migrations"
# So that `file` and a rescuer can tell whose database it is; the letters FLTW.
_APPLICATION_ID: Final = 0x464C5457


def make_new(place: Place, file: Path) -> None:
    """Make an empty store, whole or not at all; one that another program made first is kept.

    Raises:
        StoreUnusable: nothing can be written there.
    """
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        with TemporaryDirectory(dir=file.parent, prefix=".new-store-") as folder:
            made = Path(folder) / file.name
            _make_at(made)
            _put_in_place(made, file)
    except OSError as error:
        why = (error.strerror or str(error)).lower()
        to_do = "allow writing in its folder, or name another place with --store"
        raise StoreUnusable(f"the store {place}: it cannot be made ({why}); {to_do}") from error


def _make_at(file: Path) -> None:
    with sqlite3.connect(file, isolation_level=None) as raw:
        raw.execute(f"PRAGMA application_id = {_APPLICATION_ID}")
        raw.execute("PRAGMA journal_mode = WAL")
    raw.close()
    place = Place(file, "")
    engine = engine_at(place)
    raise_to_head(place, engine)
    engine.dispose()


def _put_in_place(made: Path, file: Path) -> None:
    with made.open("rb") as written:
        os.fsync(written.fileno())
    try:
        os.link(made, file)
    except FileExistsError:
        return
    except OSError:
        # A disk without hard links; the last of two programs that start at once would win.
        if not file.exists():
            made.rename(file)


def raise_to_head(place: Place, engine: Engine) -> None:
    """Run every revision that is missing, in one transaction."""
    with transaction(place, engine, writes=True) as connection:
        if revision_of(connection) != HEAD:
            run_revisions(connection, HEAD)


def run_revisions(connection: Connection, up_to: str) -> None:
    """Run the revisions from where the store is up to `up_to`."""
    script = ScriptDirectory(str(_MIGRATIONS))

    def steps(revision: Any, _context: MigrationContext) -> Any:
        return script._upgrade_revs(up_to, revision)

    options = {"version_table": VERSION_TABLE, "fn": steps, "script": script}
    context = MigrationContext.configure(connection, opts=options)
    with Operations.context(context):
        context.run_migrations()


def upgrade_file(place: Place, file: Path, engine: Engine) -> Path:
    """Bring an SQLite store up to date, after a copy of it was made beside it.

    Returns:
        where the copy is.

    Raises:
        StoreUnusable: the copy or the change failed; the store is as it was.
    """
    with transaction(place, engine, writes=False) as connection:
        at = revision_of(connection)
    copy = _unused(file.with_name(f"{file.name}.before-{HEAD}-was-{at}"))
    copy_file(file, copy)
    raise_to_head(place, engine)
    return copy


def _unused(path: Path) -> Path:
    names = (path.with_name(f"{path.name}-{number}") for number in range(2, 10_000))
    return next(name for name in (path, *names) if not name.exists())
