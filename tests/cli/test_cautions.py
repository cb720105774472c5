"""Cautions come first on every page that shows a diagnosis, a record or a card.

Source: the rule that what can hurt is said before anything else; the record is invented.
"""

import io
import sys
from pathlib import Path

import pytest

from diagnose.knowledge import RuleBase
from tests.cli.running import Faultwort, written

RECORD = """\
batch: corner shelf
tastings:
  - words: butter
packaging: {package: bottle, carbonation: %s volumes}
"""
MARKS = {"3.2": "TAKE CARE:", "4.5": "STOP:"}
# What is typed, with the record in place of FILE, and how many lines may stand before a caution:
# the name, or where answers go.
PAGES = [
    ("diagnose FILE", 1),
    ("diagnose FILE --suppose style=bitter", 1),
    ("diagnose FILE --html PAGE", 0),
    ("ask FILE", 0),
    ("ask FILE --answer course=growing", 0),
    ("batch check FILE", 0),
    ("batch show FILE", 1),
    ("batch new FILE", 3),
]


@pytest.fixture(params=MARKS)
def dangerous(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, request: pytest.FixtureRequest
) -> tuple[str, str]:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(sys, "stdin", io.StringIO(""))
    return written(tmp_path, RECORD % request.param).name, MARKS[request.param]


@pytest.mark.parametrize(("typed", "before"), PAGES, ids=[typed for typed, _ in PAGES])
def test_a_danger_comes_first(
    faultwort: Faultwort, dangerous: tuple[str, str], typed: str, before: int
) -> None:
    file, mark = dangerous
    outcome = faultwort(*typed.replace("FILE", file).replace("PAGE", "page.html").split())
    lines = [line for line in outcome.out.splitlines() if line.strip()]
    assert outcome.code == 0
    assert lines.index(next(line for line in lines if line.startswith(mark))) <= before


@pytest.mark.parametrize("typed", [("ask",), ("diagnose",)], ids=" ".join)
def test_json_holds_the_same_cautions(
    faultwort: Faultwort, dangerous: tuple[str, str], typed: tuple[str, ...]
) -> None:
    file, mark = dangerous
    level = {"STOP:": "stop", "TAKE CARE:": "warn"}[mark]
    assert level in {one["level"] for one in faultwort(*typed, file, "--json").json["cautions"]}


def test_a_card_begins_with_its_own_dangers(faultwort: Faultwort, rules: RuleBase) -> None:
    cards = [card for card in (*rules.causes.values(), *rules.checks.values()) if card.cautions]
    assert cards
    for card in cards:
        answer = faultwort("explain", card.id, "--json").json
        assert {one["text"] for one in answer["cautions"]} >= {
            rules.cautions[key].text for key in card.cautions
        }
        second = faultwort("explain", card.id).out.split("\n\n")[1]
        assert second.startswith(("STOP:", "TAKE CARE:", "Note:"))


def test_a_flavour_that_is_a_danger_by_itself_is_explained_with_its_caution(
    faultwort: Faultwort, rules: RuleBase
) -> None:
    words = {one.descriptor for card in rules.cautions.values() for one in card.when} - {None}
    assert words
    for word in words:
        assert faultwort("explain", word, "--json").json["cautions"]
