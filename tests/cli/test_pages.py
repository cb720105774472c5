"""Pages for people: 80 columns are enough, colour is not needed, and help is at hand."""

import re
from pathlib import Path

import click
import pytest
import typer
from typer.testing import CliRunner

from diagnose import __version__
from diagnose.cli.app import app
from diagnose.knowledge import RuleBase
from diagnose.shipped import shipped
from tests.cli.running import CASES, NAMES, Faultwort

COLUMNS = 80
CASES_ROOT = shipped("cases")
LOGS = sorted(CASES_ROOT.glob("*/*.csv"))[:6]
ROOT: click.Command = typer.main.get_command(app)


def paths_of(command: click.Command, path: tuple[str, ...] = ()) -> list[tuple[str, ...]]:
    below = getattr(command, "commands", {})
    return [path, *(p for name, sub in below.items() for p in paths_of(sub, (*path, name)))]


@pytest.fixture(autouse=True)
def _beside_the_cases(monkeypatch: pytest.MonkeyPatch) -> None:
    """Commands to type next hold paths unbroken, as typed: none may depend on the machine."""
    monkeypatch.chdir(CASES_ROOT)


def too_wide(page: str) -> list[str]:
    return [line for line in page.splitlines() if len(line) > COLUMNS]


@pytest.mark.parametrize("command", paths_of(ROOT), ids=lambda path: " ".join(path) or "faultwort")
def test_every_command_explains_itself(command: tuple[str, ...]) -> None:
    result = CliRunner().invoke(app, [*command, "--help"], env={"COLUMNS": "80"})
    assert result.exit_code == 0
    assert "Usage:" in result.stdout
    assert too_wide(result.stdout) == []
    listed = result.stdout.partition("Commands:")[2]
    assert not re.search(r"\.\.\.$|…", listed, re.MULTILINE)


def test_every_command_of_this_issue_is_there() -> None:
    wanted = {("demo",), ("diagnose",), ("ask",), ("taste",), ("explain",), ("probe",)}
    wanted |= {("batch", word) for word in ("check", "show")}
    wanted |= {("rules", word) for word in ("check", "list", "sheet", "export", "score")}
    assert wanted <= set(paths_of(ROOT))


def test_the_version_is_the_packages_own(faultwort: Faultwort) -> None:
    assert faultwort("--version").out == f"faultwort {__version__}\n"


@pytest.mark.parametrize("name", NAMES[::3])
def test_a_diagnosis_fits_80_columns_without_colour(faultwort: Faultwort, name: str) -> None:
    folder = next(case.relative_to(CASES_ROOT) for case in CASES if case.name == name)
    outcome = faultwort("diagnose", folder, "--top", 8)
    assert outcome.code == 0
    assert too_wide(outcome.out) == []
    assert "\x1b" not in outcome.out


@pytest.mark.parametrize("name", NAMES[1::5])
@pytest.mark.parametrize("command", [("ask",), ("batch", "show"), ("batch", "check")], ids=" ".join)
def test_a_page_about_a_record_fits_80_columns(
    faultwort: Faultwort, command: tuple[str, ...], name: str
) -> None:
    folder = next(case.relative_to(CASES_ROOT) for case in CASES if case.name == name)
    assert too_wide(faultwort(*command, folder).out) == []


@pytest.mark.parametrize("log", LOGS, ids=[log.parent.name for log in LOGS])
def test_a_page_about_a_log_fits_80_columns(faultwort: Faultwort, log: Path) -> None:
    page = faultwort("probe", log).out.splitlines()
    # The file's name and its fingerprint are not broken, so that they can be copied.
    assert too_wide("\n".join(page[1:-1])) == []


@pytest.mark.parametrize("kind", ["causes", "compounds", "descriptors", "checks", "sources"])
def test_every_card_of_a_kind_explains_itself_within_80_columns(
    faultwort: Faultwort, rules: RuleBase, kind: str
) -> None:
    for card_id in getattr(rules, kind):
        outcome = faultwort("explain", card_id)
        assert (outcome.code, outcome.err, too_wide(outcome.out)) == (0, "", [])


@pytest.mark.parametrize("kind", ["causes", "compounds", "descriptors", "yeasts", "styles"])
def test_every_card_of_a_kind_can_be_printed_as_it_stands(
    faultwort: Faultwort, rules: RuleBase, kind: str
) -> None:
    for card_id in getattr(rules, kind):
        assert f"id: {card_id}" in faultwort("rules", "sheet", card_id).out


def test_the_demo_ends_with_a_diagnosis_and_what_to_type_next(faultwort: Faultwort) -> None:
    page = faultwort("demo").out
    assert "What may be behind" in page
    assert page.index("Heard") < page.index("What may be behind") < page.index("Now try")


def test_what_the_demo_says_to_type_next_works(faultwort: Faultwort) -> None:
    page = faultwort("demo").out
    typed = re.findall(r"^  faultwort (.+?)(?:  |$)", page[page.index("Now try") :], re.MULTILINE)
    words = [[a or b for a, b in re.findall(r'"([^"]*)"|(\S+)', line)] for line in typed]
    assert len(words) >= 3
    assert [faultwort(*line).code for line in words] == [0] * len(words)


def test_a_stop_comes_before_everything_else(faultwort: Faultwort) -> None:
    stops = [page for page in pages_of_stops(faultwort) if "STOP:" in page]
    assert stops
    assert all(page.index("STOP:") < page.index("Heard") for page in stops)


def pages_of_stops(faultwort: Faultwort) -> list[str]:
    gushing = [case for case in CASES if "spring_bitter" in case.name or "double" in case.name]
    return [faultwort("diagnose", case, "--taste", "gushes when opened").out for case in gushing]


def test_more_suspects_are_shown_on_request(faultwort: Faultwort) -> None:
    few, many = (faultwort("diagnose", "--taste", "butter", "--top", n).out for n in (1, 5))
    assert (few.count("to be behind it"), many.count("to be behind it")) == (1, 5)
