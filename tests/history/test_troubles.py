"""What can befall a store: nothing committed is lost, and the message says what to do."""

import os
import resource
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest
from sqlalchemy import event

from diagnose.errors import StoreUnusable
from diagnose.history import opening
from diagnose.history.backing_up import back_up
from diagnose.history.keeping import keep_batch
from diagnose.history.kinds import EventNote
from diagnose.history.listing import list_batches
from diagnose.history.noting import write_note
from diagnose.history.opening import open_store
from diagnose.history.place import Place, place_of
from tests.history.stores import NOW, filed, later

EVENT = EventNote(kind="other", typed="x" * 200_000)


@pytest.fixture
def file(store, rules, tmp_path) -> Path:
    """A closed store with one batch in it."""
    keep_batch(store, filed(rules, tmp_path), NOW)
    store.close()
    assert store.place.file is not None
    return store.place.file


def _emptied(file: Path) -> None:
    file.write_bytes(b"")


def _cut(file: Path) -> None:
    file.write_bytes(file.read_bytes()[: file.stat().st_size // 2])


def _cut_to_the_header(file: Path) -> None:
    file.write_bytes(file.read_bytes()[:60])


def _scribbled(file: Path) -> None:
    file.write_bytes(b"batch: house pale\n" * 100)


def _torn(file: Path) -> None:
    raw = bytearray(file.read_bytes())
    raw[100:4096] = b"\xff" * 3996
    file.write_bytes(bytes(raw))


def _made_a_folder(file: Path) -> None:
    file.unlink()
    file.mkdir()


def _anothers(file: Path) -> None:
    file.unlink()
    with sqlite3.connect(file) as other:
        other.execute("CREATE TABLE stamps (id INTEGER)")
    other.close()


def _newer(file: Path) -> None:
    with sqlite3.connect(file) as store:
        store.execute("UPDATE faultwort_version SET version_num = '0099'")
    store.close()


def _lost_a_table(file: Path) -> None:
    with sqlite3.connect(file) as store:
        store.execute("DROP TABLE verdicts")
    store.close()


# (what befell the file, what is found, what is to be done)
BEFALLEN = [
    (_emptied, "the file is empty", "delete it"),
    (_cut, "the file is cut short", "history backup"),
    (_cut_to_the_header, "the file is cut short", "history backup"),
    (_scribbled, "the file is no database", "--store"),
    (_torn, "the file is damaged", "history backup"),
    (_made_a_folder, "it is a folder", "--store"),
    (_anothers, "no store of Faultwort's", "--store"),
    (_newer, "a newer Faultwort made it", "install the newer Faultwort; nothing was changed"),
    (_lost_a_table, "something in it is missing", "history backup"),
]


@pytest.mark.parametrize(
    ("befall", "found", "to_do"), BEFALLEN, ids=lambda one: getattr(one, "__name__", str(one))[:24]
)
def test_what_befell_a_store_is_said_with_what_to_do(file, befall, found, to_do):
    befall(file)
    before = file.read_bytes() if file.is_file() else b""
    with pytest.raises(StoreUnusable) as refused, open_store(Place(file, "")) as store:
        list_batches(store)
    assert found in str(refused.value) and to_do in str(refused.value)
    assert refused.value.exit_code == 3
    assert not file.is_file() or file.read_bytes() == before


def test_a_store_that_may_only_be_read_is_read(file):
    url = f"sqlite:///file:{file}?mode=ro&uri=true"
    with open_store(place_of(url)) as store:
        assert len(list_batches(store)) == 1
        with pytest.raises(StoreUnusable, match="it may only be read; allow writing"):
            write_note(store, EVENT, NOW)


_READER = """
import sys
from tests.history.test_troubles import EVENT, NOW, Place, Path, list_batches, open_store
from tests.history.test_troubles import write_note
with open_store(Place(Path(sys.argv[1]), "")) as store:
    print(len(list_batches(store)))
    write_note(store, EVENT, NOW)
"""
# The superuser may write anything; without this leave it is held to what is allowed.
_AS_ANYBODY = ["setpriv", "--bounding-set=-dac_override,-dac_read_search"]


@pytest.mark.skipif(
    os.geteuid() == 0 and shutil.which("setpriv") is None, reason="the superuser may write anything"
)
@pytest.mark.parametrize("closed", ["file", "folder", "folder, with a ? in its name"])
def test_where_nothing_may_be_written_the_store_is_read_and_a_write_is_refused(
    file, closed, tmp_path
):
    folder = tmp_path / ("really?" if "?" in closed else "closed")
    folder.mkdir()
    store = Path(shutil.copy(file, folder))
    store.chmod(0o444)
    folder.chmod(0o755 if closed == "file" else 0o555)
    done = _program(_READER, store, under=_AS_ANYBODY if os.geteuid() == 0 else [])
    folder.chmod(0o755)
    assert done.stdout == "1\n", done.stderr
    assert "it may only be read; allow writing to the file and its folder" in done.stderr


def test_a_store_in_a_folder_with_any_name_is_the_file_of_that_name(rules, tmp_path):
    file = tmp_path / "r o%20?mode=ro" / "my#store?.faultwort"
    with open_store(Place(file, ""), create=True) as store:
        keep_batch(store, filed(rules, tmp_path), NOW)
    with open_store(Place(file, "")) as store:
        assert len(list_batches(store)) == 1
    assert sorted(one.name for one in tmp_path.iterdir()) == ["pale.yaml", "r o%20?mode=ro"]


def test_another_writer_is_waited_for_and_then_named(file, monkeypatch):
    monkeypatch.setattr(opening, "WAIT_S", 0.1)
    holder = sqlite3.connect(file, isolation_level=None)
    holder.execute("BEGIN IMMEDIATE")
    with open_store(Place(file, "")) as store:
        assert len(list_batches(store)) == 1
        with pytest.raises(StoreUnusable, match="another program is writing to it; wait"):
            write_note(store, EVENT, NOW)
        holder.execute("ROLLBACK")
        assert write_note(store, EVENT, NOW)
    holder.close()


def test_a_full_store_says_so_and_keeps_what_it_had(file):
    with open_store(Place(file, "")) as store:
        store.close()
        event.listen(store.engine, "connect", _nearly_full)
        with pytest.raises(StoreUnusable, match="the disk is full; make room"):
            write_note(store, EVENT, NOW)
    with open_store(Place(file, "")) as store:
        assert len(list_batches(store)) == 1 and write_note(store, EVENT, NOW)


def _nearly_full(connection: sqlite3.Connection, _record: object) -> None:
    (pages,) = connection.execute("PRAGMA page_count").fetchone()
    connection.execute(f"PRAGMA max_page_count = {pages + 2}")


_WRITER = """
import sys
from tests.history.test_troubles import EVENT, NOW, Place, Path, open_store, write_note
with open_store(Place(Path(sys.argv[1]), "")) as store:
    write_note(store, EVENT, NOW)
"""


def _program(
    text: str,
    *arguments: object,
    under: Sequence[str] = (),
    before: Callable[[], None] | None = None,
) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [*under, sys.executable, "-c", text, *map(str, arguments)],
        preexec_fn=before,
        cwd=Path(__file__).parents[2],
        env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"},
        capture_output=True,
        text=True,
        check=False,
    )


def _at_most(size: int) -> None:
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def test_a_disk_that_takes_no_more_says_so_and_loses_nothing(file):
    done = _program(_WRITER, file, before=lambda: _at_most(100_000))
    assert "the disk refused the write" in done.stderr and "make room" in done.stderr
    with open_store(Place(file, "")) as store:
        assert len(list_batches(store)) == 1
        assert write_note(store, EVENT, NOW)


def test_a_power_cut_between_journal_and_file_loses_nothing(file, rules, tmp_path):
    """What a disk holds when the journal is written and the file is not."""
    with open_store(Place(file, "")) as store:
        keep_batch(store, filed(rules, tmp_path, brewed="2026-06-01"), later(1))
        cut = tmp_path / "after.faultwort"
        shutil.copy(file, cut)
        shutil.copy(f"{file}-wal", f"{cut}-wal")
    with open_store(Place(cut, "")) as store:
        assert len(list_batches(store)) == 2


def test_half_a_journal_gives_what_was_committed_before_it(file, rules, tmp_path):
    with open_store(Place(file, "")) as store:
        keep_batch(store, filed(rules, tmp_path, brewed="2026-06-01"), later(1))
        cut = tmp_path / "after.faultwort"
        shutil.copy(file, cut)
        journal = Path(f"{file}-wal").read_bytes()
    Path(f"{cut}-wal").write_bytes(journal[: len(journal) - 5000])
    with open_store(Place(cut, "")) as store:
        assert len(list_batches(store)) == 1


def test_a_backup_made_while_the_store_is_written_is_whole(file, rules, tmp_path):
    with open_store(Place(file, "")) as store, open_store(Place(file, "")) as writer:
        keep_batch(writer, filed(rules, tmp_path, brewed="2026-06-01"), later(1))
        back_up(store, tmp_path / "copy.faultwort")
    with open_store(Place(tmp_path / "copy.faultwort", "")) as copy:
        assert len(list_batches(copy)) == 2


def test_a_backup_of_a_torn_store_is_refused_and_leaves_nothing(file, tmp_path):
    raw = bytearray(file.read_bytes())
    raw[-4096:] = b"\xff" * 4096
    file.write_bytes(bytes(raw))
    with open_store(Place(file, "")) as store, pytest.raises(StoreUnusable, match="damaged"):
        back_up(store, tmp_path / "copy.faultwort")
    assert not (tmp_path / "copy.faultwort").exists()
