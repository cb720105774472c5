"""The story that the main job tells: words alone, then the record, then the probe log."""

from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from tests.cli.running import Faultwort, written

Ask = Callable[..., Any]
FAVOURITE = "diacetyl_left_at_packaging"
# A lager of our own: pitched on 1 March, at its final gravity from the 13th, kegged on the 29th.
LAGER = """\
zone: Europe/Lisbon
brewed: 2026-03-01
style: pale lager
pitch: {when: 2026-03-01 18:00, at: 10 C, yeast: {family: lager, form: dry, amount: 23 g}}
gravity:
  original: 1.048
  final: 1.010
  readings:
    - {when: 2026-03-13 18:00, gravity: 1.010}
    - {when: 2026-03-16, gravity: 1.010}
packaging: {when: 2026-03-29, package: keg}
"""
PITCHED = datetime(2026, 3, 1, 18)


def crashed_at_once(day: float) -> float:
    return 10.0 if day < 12.1 else 2.0


def rested_warm(day: float) -> float:
    return 10.0 if day < 11 else 18.0


def log_of(beer_c: Callable[[float], float]) -> str:
    """A probe log of four weeks, a reading every two hours."""
    hours = range(0, 24 * 28, 2)
    rows = [
        f"{(PITCHED + timedelta(hours=hour)).isoformat()}Z,{beer_c(hour / 24) + hour % 3 / 10:.1f}"
        for hour in hours
    ]
    return "\n".join(["time,beer temperature (C)", *rows]) + "\n"


@pytest.fixture
def ask(faultwort: Faultwort, tmp_path: Path) -> Ask:
    """The diagnosis of words, with a record and a log where they are given."""

    def diagnosis(words: str, record: str = "", beer_c: Any = None) -> Any:
        if beer_c is not None:
            written(tmp_path, log_of(beer_c), "log.csv")
            record += "fermentation: {probe_log: log.csv, probe_place: in the beer}\n"
        typed = [written(tmp_path, record)] if record else []
        return faultwort("diagnose", *typed, "--taste", words, "--json").json

    return diagnosis


def cause(answer: Any, cause_id: str) -> Any:
    """A suspect of the first group; one that is not listed is out of the question."""
    found = [one for one in answer["faults"][0]["causes"] if one["id"] == cause_id]
    return found[0] if found else {"responsible": 0.0, "happened": 0.0, "evidence": []}


def test_words_alone_give_a_sensible_ranking(ask: Ask) -> None:
    (group,) = ask("buttery")["faults"]
    assert group["causes"][0]["id"] == FAVOURITE


def test_words_alone_do_not_settle_it(ask: Ask) -> None:
    assert ask("buttery")["verdict"] in {"open", "close"}


def test_words_alone_are_told_what_is_missing_and_what_to_find_out(ask: Ask) -> None:
    answer = ask("buttery")
    assert answer["missing"]
    assert answer["next"]


def test_words_alone_are_the_only_evidence_there_is(ask: Ask) -> None:
    kinds = {line["kind"] for line in cause(ask("buttery"), FAVOURITE)["evidence"]}
    assert kinds == {"word"}


def test_a_log_closes_what_was_missing(ask: Ask) -> None:
    without, with_log = ask("buttery", LAGER), ask("buttery", LAGER, crashed_at_once)
    assert set(without["missing"]) - set(with_log["missing"])


def test_a_log_changes_the_ranking(ask: Ask) -> None:
    ranked = [
        [one["id"] for one in ask("buttery", LAGER, beer_c)["faults"][0]["causes"]]
        for beer_c in (None, rested_warm)
    ]
    assert ranked[0][0] == FAVOURITE
    assert ranked[1][0] != FAVOURITE


def test_a_log_that_fits_the_favourite_raises_it(ask: Ask) -> None:
    without, fits = (cause(ask("buttery", LAGER, c), FAVOURITE) for c in (None, crashed_at_once))
    assert fits["responsible"] > 1.2 * without["responsible"]


def test_a_log_that_contradicts_the_favourite_lowers_it(ask: Ask) -> None:
    without, against = (cause(ask("buttery", LAGER, c), FAVOURITE) for c in (None, rested_warm))
    assert against["responsible"] < 0.5 * without["responsible"]


@pytest.mark.parametrize(("beer_c", "sign"), [(crashed_at_once, 1), (rested_warm, -1)])
def test_the_log_says_why_it_speaks_for_or_against(ask: Ask, beer_c: Any, sign: int) -> None:
    answer = ask("buttery", LAGER, beer_c)
    (line,) = [e for e in cause(answer, FAVOURITE)["evidence"] if e["key"] == "diacetyl_half_lives"]
    assert sign * line["decibans"] > 1
    assert "half-lives of the precursor" in line["text"]
    assert line["source"]


def test_a_warmer_rest_never_makes_the_favourite_likelier(ask: Ask) -> None:
    chances = [
        cause(ask("buttery", LAGER, lambda day, c=c: 10.0 if day < 12 else c), FAVOURITE)
        for c in (4.0, 10.0, 14.0, 18.0)
    ]
    responsible = [one["responsible"] for one in chances]
    assert responsible == sorted(responsible, reverse=True)


WHEAT = "style: wheat ale\npitch: {yeast: {family: wheat ale}}\n"
PALE = "style: pale lager\npitch: {yeast: {family: lager}}\n"


def test_banana_and_clove_are_expected_in_a_wheat_ale(ask: Ask) -> None:
    answer = ask("banana and clove", WHEAT)
    assert answer["verdict"] == "expected"
    assert all(group["expected_here"] > 0.5 for group in answer["faults"])


def test_banana_and_clove_are_not_expected_in_a_lager(ask: Ask) -> None:
    answer = ask("banana and clove", PALE)
    assert answer["verdict"] != "expected"
    assert all(group["expected_here"] < 0.1 for group in answer["faults"])


def test_corn_is_less_of_a_surprise_in_a_pale_lager_than_in_a_stout(ask: Ask) -> None:
    lager, stout = (
        ask("cooked corn", f"style: {style}\n") for style in ("pale lager", "dry stout")
    )
    assert lager["faults"][0]["expected_here"] > stout["faults"][0]["expected_here"]


# Sixteen warm weeks in bottles filled by an open pour, and butter in them.
WARM = LAGER.replace("keg}", "bottle, fill: open pour, purged: no}")
WARM += "storage: [{since: 2026-03-29, time: 16 weeks, at: 30 C}]\n"


def group_with(answer: Any, word: str) -> Any:
    return next(group for group in answer["faults"] if word in group["descriptors"])


def blamed(group: Any, cause_id: str) -> float:
    return next((one["responsible"] for one in group["causes"] if one["id"] == cause_id), 0.0)


def test_warm_storage_probably_happened_and_is_blamed_for_the_cardboard(ask: Ask) -> None:
    papery = group_with(ask("butter, wet cardboard", WARM), "wet_cardboard")
    (stored,) = [one for one in papery["causes"] if one["id"] == "warm_storage"]
    assert stored["happened"] > 0.5
    assert stored["responsible"] > 0.3


def test_warm_storage_is_not_blamed_for_the_butter_beside_it(ask: Ask) -> None:
    buttery = group_with(ask("butter, wet cardboard", WARM), "butter")
    assert buttery["causes"][0]["id"] != "warm_storage"
    assert blamed(buttery, "warm_storage") < 0.1


def test_butter_alone_in_a_warm_stored_batch_does_not_rank_warm_storage_first(ask: Ask) -> None:
    answer = ask("butter", WARM)
    assert answer["faults"][0]["causes"][0]["id"] == FAVOURITE
    assert cause(answer, "warm_storage")["responsible"] < 0.05


def test_a_word_that_is_denied_lowers_what_would_bring_it(ask: Ask) -> None:
    said = [cause(ask(words), "lactic_contamination") for words in ("buttery", "buttery, not sour")]
    assert said[1]["responsible"] < said[0]["responsible"]
