"""`rules list --coverage` and `--basis`, retired ids at the door, and a score that takes long."""

from collections.abc import Iterator
from io import StringIO
from pathlib import Path
from shutil import copytree

import pytest
from rich.console import Console

from diagnose.cli import loading
from diagnose.knowledge import RuleBase
from diagnose.report import ProgressBar, standing_by
from diagnose.report.progress import PATIENCE_SECONDS
from diagnose.shipped import shipped
from tests.cli.running import Faultwort
from tests.knowledge.retired import retire

COLUMNS = 80


@pytest.mark.parametrize("view", ["coverage", "basis"])
def test_a_view_of_the_rules_is_one_json_document_with_its_schema(
    faultwort: Faultwort, rules: RuleBase, view: str
) -> None:
    outcome = faultwort("rules", "list", f"--{view}", "--json")
    assert (outcome.code, outcome.err) == (0, "")
    assert outcome.json["schema"] == f"faultwort/rules-list-{view}/1"
    assert outcome.json["version"] == rules.version


def test_every_term_is_on_the_coverage_page_with_what_reaches_it(
    faultwort: Faultwort, rules: RuleBase
) -> None:
    lines = faultwort("rules", "list", "--coverage").out.splitlines()
    for term in rules.terms.values():
        (line,) = [line for line in lines if line.startswith(term.id)]
        assert (line[4] == "~") == (term.code_status == "recalled")
        assert term.name in line and (term.descriptor or "meant to be there") in line


def test_the_coverage_page_ends_with_the_counts_and_the_standard_s_source(
    faultwort: Faultwort, rules: RuleBase
) -> None:
    page = " ".join(faultwort("rules", "list", "--coverage").out.split())
    tail = page[page.index("Covered") :]
    assert f"{len(rules.terms)} terms, 44 of the first tier and 79 of the second" in tail
    assert "0 not reached" in tail
    assert "Meilgaard M.C., Dalgliesh C.E., Clapperton J.F. (1979)" in tail


def test_the_table_of_the_basis_page_adds_up(faultwort: Faultwort) -> None:
    page, answer = (faultwort("rules", "list", "--basis", *more) for more in ((), ("--json",)))
    rows = [line.split() for line in page.out.splitlines() if line.split()[1:2]]
    tables = {row[0]: [int(n) for n in row[1:]] for row in rows if row[-1].isdigit()}
    *kinds, total = tables.values()
    assert [sum(column) for column in zip(*kinds, strict=True)] == total
    assert all(sum(row[:-1]) == row[-1] for row in tables.values())
    assert total[-1] == answer.json["total"]


@pytest.mark.parametrize("view", ["--coverage", "--basis"])
def test_a_view_fits_80_columns_without_colour(faultwort: Faultwort, view: str) -> None:
    page = faultwort("rules", "list", view).out
    assert [line for line in page.splitlines() if len(line) > COLUMNS] == []
    assert "\x1b" not in page


# Source of the table: first principles; lists that cannot be one.
@pytest.mark.parametrize(
    ("typed", "found"),
    [
        (("--coverage", "--basis"), "--coverage with --basis"),
        (("causes", "--basis"), "causes with --basis"),
        (("causes", "--coverage"), "causes with --coverage"),
    ],
)
def test_two_lists_at_once_are_refused(
    faultwort: Faultwort, typed: tuple[str, ...], found: str
) -> None:
    outcome = faultwort("rules", "list", *typed)
    assert (outcome.code, outcome.out) == (2, "")
    assert f"found {found}; wanted one of them" in outcome.err


def test_the_terms_are_a_kind_of_card_like_any_other(faultwort: Faultwort) -> None:
    assert "0224" in faultwort("rules", "list", "terms").out
    assert 'id: "0224"' in faultwort("rules", "sheet", "0224").out


@pytest.mark.parametrize("command", [("explain",), ("rules", "sheet")], ids=" ".join)
def test_a_retired_id_is_refused_with_the_one_that_replaced_it(
    faultwort: Faultwort,
    rules: RuleBase,
    monkeypatch: pytest.MonkeyPatch,
    command: tuple[str, ...],
) -> None:
    changed = retire(rules, ("buttery", "compounds", ["diacetyl"]))
    monkeypatch.setattr(loading, "shipped_rules", lambda: changed)
    outcome = faultwort(*command, "buttery")
    assert (outcome.code, outcome.out) == (2, "")
    assert "buttery was replaced by diacetyl" in outcome.err


def test_a_rule_base_that_retires_an_id_in_use_does_not_pass_its_check(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    copytree(shipped("rules"), tmp_path / "rules")
    entry = "{id: diacetyl, kind: compounds, replaced_by: [], since: 0.2.0, why: x}"
    (tmp_path / "rules" / "retired.yaml").write_text(f"- {entry}\n")
    outcome = faultwort("rules", "check", tmp_path / "rules")
    assert outcome.code == 1
    assert "rules/retired.yaml:1: [1].id: found diacetyl" in outcome.out


def test_a_score_with_draws_is_one_json_document_and_nothing_else(
    faultwort: Faultwort, tmp_path: Path
) -> None:
    (tmp_path / "made").mkdir()
    card = "{id: made, title: t, story: s, teaches: t, expect: {}}"
    (tmp_path / "made" / "case.yaml").write_text(card)
    (tmp_path / "made" / "batch.yaml").write_text("tastings: [{words: butter}]")
    outcome = faultwort("rules", "score", tmp_path, "--perturb", 2, "--json")
    assert (outcome.code, outcome.err) == (0, "")
    assert [line["case"] for line in outcome.json["perturbed"]] == ["made"]


def run_of(seconds_a_step: float, *, terminal: bool) -> tuple[list[int], str]:
    """Four steps of so many seconds: what came through, and what was shown."""
    file, ticks = StringIO(), iter(float(n) * seconds_a_step for n in range(99))
    console = Console(file=file, force_terminal=terminal, width=COLUMNS)
    watch = ProgressBar(console, clock=lambda: next(ticks))
    return list(watch(range(4), "draws")), file.getvalue()


@pytest.mark.parametrize("seconds", [0.0, PATIENCE_SECONDS])
@pytest.mark.parametrize("terminal", [True, False])
def test_a_watched_run_goes_through_every_step_in_order(seconds: float, terminal: bool) -> None:
    assert run_of(seconds, terminal=terminal)[0] == [0, 1, 2, 3]


# Source of the table: first principles; a quarter of a second a step stays within the patience.
@pytest.mark.parametrize(
    ("seconds", "terminal", "shown"),
    [(1.0, True, True), (0.25, True, False), (0.0, True, False), (1.0, False, False)],
)
def test_progress_comes_up_on_a_terminal_after_a_second(
    seconds: float, terminal: bool, shown: bool
) -> None:
    page = run_of(seconds, terminal=terminal)[1]
    assert "draws" in page if shown else page == ""


def test_a_run_that_is_broken_off_leaves_no_bar_behind() -> None:
    def broken() -> Iterator[int]:
        for step in ProgressBar(console, clock=lambda: next(ticks))(range(9), "draws"):
            yield step
            if step == 4:
                raise KeyboardInterrupt

    file, ticks = StringIO(), iter(map(float, range(99)))
    console = Console(file=file, force_terminal=True, width=COLUMNS)
    with pytest.raises(KeyboardInterrupt):
        list(broken())
    assert not console._live_stack


def test_the_bar_stands_beside_the_answers_and_not_among_them(
    capsys: pytest.CaptureFixture[str],
) -> None:
    standing_by().print("draws")
    assert capsys.readouterr() == ("", "draws\n")
