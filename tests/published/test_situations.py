"""Situations out of print, and the side of a limit on which our models put them."""

import pytest

from tests.published.tables import Row, answer_of, rows_of

ROWS = rows_of("situations")


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_situation_turns_out_as_printed(row: Row) -> None:
    assert row["at_least"] <= answer_of(row) <= row["at_most"]
