"""What is taken from the record, what from the words, and what is refused by name."""

from pathlib import Path

import pytest

from diagnose.batch import read_batch
from diagnose.consult import consult_on, diagnose
from diagnose.errors import UnusableInput
from tests.consult.asked import asked
from tests.evidence.records import batch_of
from tests.knowledge.shipped import TODAY, rule_base

TASTED = """
tastings:
  - {when: 2026-05-01, words: butter}
  - {when: 2026-05-08, who: Moth, words: "slick, in every bottle"}
  - {when: 2026-05-09, who: Pike}
"""


def heard(record: str, *tastes: str) -> list[str]:
    known = consult_on(rule_base(), batch_of(record), tastes).known
    return [one.descriptor for one in known.heard]


def test_the_record_s_tastings_are_used_when_nothing_is_said() -> None:
    assert heard(TASTED) == ["butter", "slick"]


def test_what_is_said_now_stands_in_place_of_the_record_s_tastings() -> None:
    assert heard(TASTED, "sour milk") == ["sour_milk"]


def test_what_tasters_tell_of_the_fault_is_known() -> None:
    assert asked("", TASTED).known.circumstances == {"spread": "every_package"}


TWICE = "tastings:\n  - {words: FIRST}\n  - {words: 'butter, a month later'}"


@pytest.mark.parametrize(
    ("first", "noticed"),
    [("butter", None), ("butter at bottling", "at_packaging"), ("fine", "after_a_month")],
)
def test_the_first_tasting_that_finds_a_fault_tells_when_it_was_noticed(
    first: str, noticed: str | None
) -> None:
    known = asked("", TWICE.replace("FIRST", first)).known
    assert known.circumstances.get("first_noticed") == noticed


def test_where_a_glass_was_poured_from_tells_whether_it_was_the_first() -> None:
    record = "tastings:\n  - {words: sour, poured_from: first pour of the day}"
    assert asked("", record).known.circumstances == {"first_pour": "first_glass_only"}


def test_what_the_record_tells_of_the_fault_outweighs_the_words() -> None:
    known = asked("butter, every bottle", "fault: {spread: one_package}").known
    assert known.circumstances == {"spread": "one_package"}


def test_a_record_without_words_gives_no_fault_and_an_open_verdict() -> None:
    diagnosis = diagnose(rule_base(), asked("", "style: bitter"))
    assert (diagnosis.faults, diagnosis.verdict) == ((), "open")


def test_words_without_a_record_still_give_suspects() -> None:
    (group,) = diagnose(rule_base(), asked("butter")).faults
    assert group.causes[0].id == "diacetyl_left_at_packaging"


# Source of the table: first principles; slips of a hand that keeps records.
@pytest.mark.parametrize(
    ("record", "line", "key", "found"),
    [
        ("fault:\n  spraed: every_package", 2, "fault.spraed", "spraed"),
        ("fault:\n  spread: evry_package", 2, "fault.spread", "evry_package"),
        ("checks:\n  warm_hold: both", 2, "checks.warm_hold", "warm_hold"),
        ("checks:\n  chlorine_strip: purple", 2, "checks.chlorine_strip", "purple"),
        ("batch: b\nstyle: bittre", 2, "style", "'bittre'"),
        ("fermentation:\n  probe_log: no_such.csv", 2, "fermentation.probe_log", "no_such.csv"),
    ],
)
def test_a_word_the_rules_do_not_know_is_refused_by_name(
    record: str, line: int, key: str, found: str
) -> None:
    with pytest.raises(UnusableInput) as refusal:
        asked("butter", record)
    (fault,) = refusal.value.faults
    assert (fault.file, fault.line, fault.key, fault.found) == ("batch.yaml", line, key, found)


def test_everything_the_rules_do_not_know_is_refused_at_once() -> None:
    record = "style: bittre\nfault: {spread: evry}\nchecks: {chlorine_strip: purple}"
    with pytest.raises(UnusableInput) as refusal:
        asked("butter", record)
    assert {fault.key for fault in refusal.value.faults} == {
        "style",
        "fault.spread",
        "checks.chlorine_strip",
    }


def test_a_probe_log_is_found_beside_its_record(tmp_path: Path) -> None:
    (tmp_path / "probe.csv").write_text(
        "time,beer temperature (C)\n2026-03-14 12:00,18.0\n2026-03-14 13:00,18.1\n"
    )
    record = tmp_path / "batch.yaml"
    record.write_text("zone: Europe/Lisbon\nfermentation: {probe_log: probe.csv}\n")
    log = consult_on(rule_base(), read_batch(record, TODAY)).log
    assert log is not None
    assert log.zone.what == "Europe/Lisbon"
