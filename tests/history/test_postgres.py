"""The history on a server; FAULTWORT_TEST_POSTGRES is the URL of an empty database of its own."""

import os
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import create_engine

from diagnose.errors import StoreUnusable
from diagnose.history.brews import read_brews
from diagnose.history.exporting import export_to
from diagnose.history.filing import read_filing
from diagnose.history.importing import Imported, import_from
from diagnose.history.keeping import keep_batch, undo
from diagnose.history.kinds import Verdict
from diagnose.history.listing import Wanted, list_batches
from diagnose.history.noting import write_note
from diagnose.history.opening import Store, open_store
from diagnose.history.place import place_of
from diagnose.history.tables import VERSION_TABLE
from tests.history.stores import NOW, TODAY, WITH_A_LOG, filed, later

URL = os.environ.get("FAULTWORT_TEST_POSTGRES", "")
pytestmark = pytest.mark.skipif(
    not URL, reason="no PostgreSQL: FAULTWORT_TEST_POSTGRES names no empty database"
)


@pytest.fixture
def club() -> Iterator[Store]:
    """A store on the server, emptied first."""
    engine = create_engine(place_of(URL).url)
    with engine.begin() as connection:
        connection.exec_driver_sql("DROP SCHEMA public CASCADE")
        connection.exec_driver_sql("CREATE SCHEMA public")
    engine.dispose()
    with open_store(place_of(URL), create=True) as opened:
        yield opened


def _filled(store, rules, tmp_path):
    keep_batch(store, read_filing(rules, WITH_A_LOG, TODAY), NOW)
    keep_batch(store, filed(rules, tmp_path), NOW)
    keep_batch(store, filed(rules, tmp_path, pitch="{at: 90 F}"), later(1))
    write_note(store, Verdict(cause="under_pitched", typed="butter"), later(2), "house")
    undo(store, "christmas", later(3))
    undo(store, "christmas", later(4))


def test_a_server_and_a_file_hold_the_same(club, store, rules, tmp_path):
    for one in (club, store):
        _filled(one, rules, tmp_path)
    assert read_brews(club) == read_brews(store)
    assert list_batches(club) == list_batches(store)
    for wanted in (Wanted(style="PALE"), Wanted(style="%"), Wanted(since="2026-01-01")):
        assert list_batches(club, wanted) == list_batches(store, wanted)


def test_what_a_file_exports_a_server_exports_too(club, store, rules, tmp_path):
    _filled(store, rules, tmp_path)
    export_to(store, tmp_path / "file.jsonl")
    import_from(club, tmp_path / "file.jsonl")
    export_to(club, tmp_path / "server.jsonl")
    assert (tmp_path / "server.jsonl").read_bytes() == (tmp_path / "file.jsonl").read_bytes()
    assert import_from(club, tmp_path / "file.jsonl") == Imported()


def test_two_brewers_who_add_at_once_lose_nothing_and_double_nothing(club, rules, tmp_path):
    def filings(name):
        names = [f"{name} {number}" for number in range(8)]
        return [filed(rules, tmp_path, f"{one}.yaml", batch=one) for one in names]

    both, own = filings("shared"), [filings("left"), filings("right")]

    def add(mine):
        with open_store(place_of(URL)) as store:
            for pair in zip(mine, both, strict=True):
                for one in pair:
                    keep_batch(store, one, NOW)

    with ThreadPoolExecutor(2) as brewers:
        list(brewers.map(add, own))
    names = sorted(str(one.content.short["name"]) for one in (*both, *own[0], *own[1]))
    assert sorted(line.name for line in list_batches(club)) == names
    assert {line.version for line in list_batches(club)} == {1}


def test_an_older_store_on_a_server_waits_for_its_own_backup(club):
    with club.writing() as connection:
        connection.exec_driver_sql(f"UPDATE {VERSION_TABLE} SET version_num = '0001'")
    with pytest.raises(StoreUnusable, match="back it up with its own means, then run"):
        open_store(place_of(URL))


def test_a_server_that_does_not_answer_is_said_to():
    with pytest.raises(StoreUnusable, match="see that the server runs"):
        open_store(place_of("postgresql://nobody@127.0.0.1:1/none"))
