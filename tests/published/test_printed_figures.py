"""Printed figures against our models, with the tolerance the figure came with.

`independent` rows test the model against a table or measurement it did not come from;
`worked_example` and `identity` rows test the coding; `calibration` rows set a constant and
prove nothing, but must still hold; `recalled` rows were never seen in print.
"""

import pytest

from tests.published.tables import FOLDER, Row, answer_of, rows_of

OTHER_TABLES = {"mismatches", "situations"}
ALL_TABLES = {path.stem for path in FOLDER.glob("*.yaml")}
ROWS = rows_of(*sorted(ALL_TABLES - OTHER_TABLES))
KINDS = {"independent", "worked_example", "identity", "calibration", "recalled"}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_model_meets_a_printed_figure(row: Row) -> None:
    assert answer_of(row) == pytest.approx(row["expected"], abs=row["within"])


@pytest.mark.parametrize("table", sorted(ALL_TABLES))
def test_the_first_line_of_a_table_names_its_sources(table: str) -> None:
    first = (FOLDER / f"{table}.yaml").read_text(encoding="utf-8").splitlines()[0]
    assert first.startswith("# ")


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_row_says_what_it_proves(row: Row) -> None:
    assert row["kind"] in KINDS


def test_no_row_stands_twice() -> None:
    ids = [row["id"] for row in ROWS]
    assert len(ids) == len(set(ids))
