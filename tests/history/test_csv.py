"""The CSV folder: strict, described, and harmless in a spreadsheet."""

import csv
import io
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.history.csv_folder import DESCRIPTOR, cells, export_csv
from diagnose.history.filing import read_filing
from diagnose.history.keeping import keep_batch
from diagnose.history.kinds import EventNote, Verdict
from diagnose.history.noting import write_note
from tests.history.stores import NOW, TODAY, WITH_A_LOG, filed

# OWASP, CSV injection: what starts a formula; and what must stay as it is.
CELLS = [
    ("=1+1", "'=1+1"),
    ("+1", "'+1"),
    ("-2+3", "'-2+3"),
    ("@SUM(A1)", "'@SUM(A1)"),
    ("\t=1", "'\t=1"),
    ("\r=1", "'\r=1"),
    (" =cmd|' /C calc'!A0", "' =cmd|' /C calc'!A0"),
    ("＝1", "'＝1"),
    ("'=1", "''=1"),
    ("buttery - a hint", "buttery - a hint"),
    ("", ""),
    (-2.5, "-2.5"),
    (0.1 + 0.2, "0.30000000000000004"),
    (True, "true"),
    (None, ""),
]


@pytest.mark.parametrize(("value", "cell"), CELLS)
def test_a_cell_is_never_a_formula(value, cell):
    assert list(cells([value])) == [cell]


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"])), min_size=2, max_size=5))
def test_a_row_of_any_texts_comes_back(texts):
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\r\n").writerow(cells(texts))
    (row,) = csv.reader(io.StringIO(out.getvalue(), newline=""), strict=True)
    assert [cell.removeprefix("'") if cell[:1] == "'" else cell for cell in row] == texts


@pytest.fixture
def folder(store, rules, tmp_path):
    keep_batch(store, read_filing(rules, WITH_A_LOG, TODAY), NOW)
    words = '[{who: Wren, words: "=butter,\\n \\"slick\\""}]'
    keep_batch(store, filed(rules, tmp_path, batch='"=HYPERLINK(1)"', tastings=words), NOW)
    note = Verdict(cause="under_pitched", typed="@home", who="Tansy")
    write_note(store, note, NOW, "christmas")
    write_note(store, EventNote(kind="water", typed="-new filter"), NOW)
    export_csv(store, tmp_path / "out")
    return tmp_path / "out"


def _rows(file):
    with file.open(encoding="utf-8", newline="") as opened:
        return list(csv.reader(opened, strict=True))


def test_every_file_is_described_with_its_columns_in_order(folder):
    descriptor = json.loads((folder / DESCRIPTOR).read_text("utf-8"))
    described = {
        one["path"]: [field["name"] for field in one["schema"]["fields"]]
        for one in descriptor["resources"]
    }
    assert described == {file.name: _rows(file)[0] for file in folder.glob("*.csv")}


def test_every_row_has_as_many_cells_as_the_header_and_ends_as_rfc_4180_says(folder):
    for file in folder.glob("*.csv"):
        assert len({len(row) for row in _rows(file)}) == 1, file.name
        assert file.read_bytes().endswith(b"\r\n")


def test_numbers_are_numbers_and_texts_no_formulas(folder):
    descriptor = json.loads((folder / DESCRIPTOR).read_text("utf-8"))
    for one in descriptor["resources"]:
        kinds = [field["type"] for field in one["schema"]["fields"]]
        for row in _rows(folder / one["path"])[1:]:
            for kind, cell in zip(kinds, row, strict=True):
                if kind in ("number", "integer"):
                    assert cell == "" or float(cell) == float(cell)
                else:
                    assert cell[:1] not in set("=+-@\t\r\n"), (one["path"], cell)


def test_what_was_typed_is_in_it(folder):
    typed = {cell for file in folder.glob("*.csv") for row in _rows(file) for cell in row}
    assert {"'=HYPERLINK(1)", "'@home", "'-new filter", "100 billion"} <= typed


def test_a_folder_with_something_in_it_is_left_alone(store, folder):
    with pytest.raises(UnusableInput, match="wanted a new name or an empty folder"):
        export_csv(store, folder)
