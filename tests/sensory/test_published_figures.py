"""Figures of others against ours: seen in print, recalled, or computed a second way.

`seen` rows were read in the source named; `recalled` rows only from memory, and prove little;
`computed-independently` rows come from a closed form, a simulation or other code.
"""

import pytest

from diagnose.sensory import METHODS, critical
from tests.sensory.tables import FOLDER, Row, answer_of, rows_of

ROWS = rows_of("check_values")
STATUSES = {"seen", "recalled", "computed-independently"}
# The printed line for 22 answers reads 13, 14, 15 where the binomial gives 14, 15, 16.
MISPRINTED = {22}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_we_meet_a_figure_of_others(row: Row) -> None:
    assert answer_of(row) == pytest.approx(row["expected"], abs=row["within"])


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_a_figure_names_its_source_and_says_whether_it_was_seen(row: Row) -> None:
    assert (row["status"] in STATUSES, bool(row["source"])) == (True, True)


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_first_line_of_a_table_names_its_source(path) -> None:
    assert path.read_text(encoding="utf-8").splitlines()[0].startswith("# ")


@pytest.mark.parametrize("row", rows_of("printed_triangle"), ids=lambda row: str(row["answers"]))
def test_our_triangle_limits_are_the_printed_ones(row: Row) -> None:
    found = {a: _least("triangle", row["answers"], a) for a in row["limits"]}
    assert found == row["limits"]


@pytest.mark.parametrize("row", rows_of("printed_duo_trio"), ids=lambda row: str(row["answers"]))
def test_our_duo_trio_limits_are_the_printed_ones_but_for_the_misprint(row: Row) -> None:
    found = {a: _least("duo-trio", row["answers"], a) for a in row["limits"]}
    assert (found == row["limits"]) is (row["answers"] not in MISPRINTED)


@pytest.mark.parametrize("row", rows_of("triangle_5_to_60"), ids=lambda row: str(row["answers"]))
def test_our_triangle_limits_from_5_to_60_are_the_exact_ones(row: Row) -> None:
    found = {a: _least("triangle", row["answers"], a) for a in row["limits"]}
    assert found == row["limits"]


@pytest.mark.parametrize("row", rows_of("triangle_5_to_60"), ids=lambda row: str(row["answers"]))
def test_the_true_risk_of_a_triangle_limit_is_the_exact_one(row: Row) -> None:
    found = {a: critical(METHODS["triangle"], row["answers"], a).exact_alpha for a in row["risks"]}
    assert found == pytest.approx(row["risks"], abs=6e-6)


def _least(test: str, answers: int, alpha: float) -> int | None:
    return critical(METHODS[test], answers, alpha).least_right
