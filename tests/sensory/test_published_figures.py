"""Figures of others against ours: seen in print, recalled, or computed a second way.

`seen` rows were read in the source named; `recalled` rows only from memory, and prove little;
`computed-independently` rows come from a closed form, a simulation or other code.
"""

import pytest

from diagnose.sensory import METHODS, critical
from tests.sensory.tables import FOLDER, Row, answer_of, rows_of

ROWS = rows_of("check_values")
LEFT_OUT = rows_of("not_run")
STATUSES = {"seen", "recalled", "computed-independently"}
# Fewer words than these give no reason.
WORDS_OF_A_REASON = 4
# The printed line for 22 answers reads 13, 14, 15 where the binomial gives 14, 15, 16.
MISPRINTED = {22}


@pytest.mark.parametrize("row", ROWS, ids=[row["id"] for row in ROWS])
def test_we_meet_a_figure_of_others(row: Row) -> None:
    assert answer_of(row) == pytest.approx(row["expected"], abs=row["within"])


def test_every_figure_names_its_source_and_says_whether_it_was_seen() -> None:
    assert [row["id"] for row in ROWS if row["status"] not in STATUSES or not row["source"]] == []


def test_every_figure_of_the_notes_is_run_once_or_left_out_for_a_reason() -> None:
    run, left_out = ([row["id"] for row in rows] for rows in (ROWS, LEFT_OUT))
    assert sorted(run + left_out) == [f"C{number:03d}" for number in range(1, 302)]


def test_every_figure_left_out_says_why() -> None:
    assert [row["id"] for row in LEFT_OUT if len(row["reason"].split()) < WORDS_OF_A_REASON] == []


@pytest.mark.parametrize("path", sorted(FOLDER.glob("*.yaml")), ids=lambda path: path.stem)
def test_the_first_line_of_a_table_names_its_source(path) -> None:
    assert path.read_text(encoding="utf-8").splitlines()[0].startswith("# ")


def test_our_triangle_limits_are_the_printed_ones() -> None:
    assert _limits_like("printed_triangle", "triangle") == _limits_in("printed_triangle")


def test_our_duo_trio_limits_are_the_printed_ones_but_for_the_misprint() -> None:
    ours, printed = _limits_like("printed_duo_trio", "duo-trio"), _limits_in("printed_duo_trio")
    assert {answers for answers in printed if ours[answers] != printed[answers]} == MISPRINTED


def test_our_triangle_limits_from_5_to_60_answers_are_the_exact_ones() -> None:
    ours, exact = _limits_like("triangle_5_to_60", "triangle"), _limits_in("triangle_5_to_60")
    assert (ours, sorted(exact)) == (exact, list(range(5, 61)))


@pytest.mark.parametrize("alpha", [0.05, 0.1, 0.2])
def test_the_true_risks_from_5_to_60_answers_are_the_exact_ones(alpha: float) -> None:
    exact = {row["answers"]: row["risks"][alpha] for row in rows_of("triangle_5_to_60")}
    ours = {n: critical(METHODS["triangle"], n, alpha).exact_alpha for n in exact}
    # The table keeps five places.
    assert ours == pytest.approx(exact, abs=6e-6)


def _limits_in(table: str) -> dict[int, dict[float, int | None]]:
    return {row["answers"]: row["limits"] for row in rows_of(table)}


def _limits_like(table: str, test: str) -> dict[int, dict[float, int | None]]:
    return {
        answers: {a: critical(METHODS[test], answers, a).least_right for a in limits}
        for answers, limits in _limits_in(table).items()
    }
