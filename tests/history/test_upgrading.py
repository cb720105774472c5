"""A store of the first version, brought up to date; `first_store.sql` is a dump of one."""

import signal
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory

from diagnose.errors import StoreUnusable
from diagnose.history import upgrading
from diagnose.history.brews import notes_of
from diagnose.history.kinds import EventNote
from diagnose.history.listing import list_batches
from diagnose.history.noting import write_note
from diagnose.history.opening import Store, open_store
from diagnose.history.place import Place
from diagnose.history.showing import show_batch
from diagnose.history.tables import HEAD, METADATA, REVISIONS, VERSION_TABLE
from tests.history.stores import NOW


@pytest.fixture
def first(tmp_path: Path) -> Path:
    file = tmp_path / "old.faultwort"
    with sqlite3.connect(file) as raw:
        raw.executescript((Path(__file__).parent / "first_store.sql").read_text("utf-8"))
    raw.close()
    return file


def _revision(file: Path) -> str:
    with sqlite3.connect(file) as raw:
        (found,) = raw.execute(f"SELECT version_num FROM {VERSION_TABLE}").fetchone()
    raw.close()
    return str(found)


def test_a_first_store_is_brought_up_to_date_with_all_it_holds(first):
    with open_store(Place(first, "")) as store:
        (line,) = list_batches(store)
        assert (line.name, line.version, line.verdict) == ("house pale", 2, "crashed_too_soon")
        assert [one.number for one in show_batch(store, "house").versions] == [1, 2]
        (event,) = notes_of(store, EventNote)
        assert event.note.typed == "a new fridge"
        assert write_note(store, EventNote(kind="other", typed="after"), NOW)
    assert _revision(first) == HEAD


def test_a_copy_of_it_is_kept_beside_it(first):
    open_store(Place(first, "")).close()
    copy = first.with_name(f"{first.name}.before-{HEAD}-was-0001")
    assert _revision(copy) == "0001"


def test_it_is_brought_up_to_date_once(first):
    for _ in range(2):
        open_store(Place(first, "")).close()
    assert len(list(first.parent.glob("old.faultwort.before-*"))) == 1


def test_an_upgrade_that_fails_half_way_leaves_the_store_as_it_was(first, monkeypatch):
    whole = upgrading.run_revisions

    def broken(connection, up_to):
        whole(connection, up_to)
        connection.exec_driver_sql("SELECT nonsense")

    monkeypatch.setattr(upgrading, "run_revisions", broken)
    with pytest.raises(StoreUnusable):
        open_store(Place(first, ""))
    assert _revision(first) == "0001"
    with sqlite3.connect(first) as raw:
        columns = [row[1] for row in raw.execute("PRAGMA table_info(versions)")]
    raw.close()
    assert "reason" not in columns


_KILLED = """
import os, signal, sys
from pathlib import Path
from diagnose.history import upgrading
from diagnose.history.opening import open_store
from diagnose.history.place import Place
whole = upgrading.run_revisions
def killed(connection, up_to):
    whole(connection, up_to)
    os.kill(os.getpid(), signal.SIGKILL)
upgrading.run_revisions = killed
open_store(Place(Path(sys.argv[1]), ""))
"""


def test_an_upgrade_that_is_killed_before_it_is_committed_is_done_at_the_next_start(first):
    done = subprocess.run(
        [sys.executable, "-c", _KILLED, str(first)], cwd=Path(__file__).parents[2], check=False
    )
    assert (done.returncode, _revision(first)) == (-signal.SIGKILL, "0001")
    with open_store(Place(first, "")) as store:
        assert [one.name for one in list_batches(store)] == ["house pale"]
    assert _revision(first) == HEAD


def test_an_upgrade_without_its_copy_does_not_happen(first, monkeypatch):
    def no_room(*_):
        raise StoreUnusable("the copy could not be made")

    monkeypatch.setattr(upgrading, "copy_file", no_room)
    with pytest.raises(StoreUnusable, match="could not be made"):
        open_store(Place(first, ""))
    assert _revision(first) == "0001"


def test_the_revisions_make_the_tables_that_are_used(store: Store):
    with store.reading() as connection:
        context = MigrationContext.configure(connection, opts={"version_table": VERSION_TABLE})
        assert compare_metadata(context, METADATA) == []


def test_the_revisions_known_are_those_in_the_folder():
    script = ScriptDirectory(str(Path(upgrading.__file__).parent / "migrations"))
    found = [one.revision for one in script.walk_revisions()]
    assert found[::-1] == list(REVISIONS) and script.get_heads() == [HEAD]
