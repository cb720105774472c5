"""The ids that cases use: an unknown one is named, a retired one is refused with its mend."""

from dataclasses import replace
from pathlib import Path
from shutil import copytree

import pytest

from diagnose.answers import FaultLine
from diagnose.casebook import check_rule_base, read_cases, score_cases
from diagnose.casebook.mentions import case_faults, refuse_retired
from diagnose.errors import UnusableInput
from diagnose.knowledge import RuleBase
from tests.knowledge.retired import retire
from tests.knowledge.shipped import CASES, RULES, TODAY, rule_base

OLD_CAUSE, NEW_CAUSE = "air_in_the_bottle", "oxygen_at_packaging"
CASE = """\
id: made
title: t
story: s
teaches: t
expect:
  first: [warm_storage,
    {first}]
  quiet: [{quiet}]
  asks: [{asks}]
exam:
  truth: [{truth}]
  also: [{also}]
  verdict: fault
  tier: A
  scored: true
  source: made by hand
"""
SOUND = {
    **{"first": NEW_CAUSE, "quiet": "musty_taint", "asks": "course"},
    **{"truth": "warm_storage", "also": "old_but_cool"},
}
RECORD = "style: bitter\nfault:\n  course: grows\nchecks:\n  gravity_now: falling\n"


@pytest.fixture(scope="module")
def rules() -> RuleBase:
    """The shipped rule base after a cause, a circumstance and two checks were retired."""
    return retire(
        rule_base(),
        (OLD_CAUSE, "causes", [NEW_CAUSE]),
        ("how_it_goes", "circumstances", ["course"]),
        ("sniff_it", "checks", ["smell_the_slurry", "sniff_the_grain"]),
        ("hold_it_up", "checks", []),
    )


def folder_with(folder: Path, card: dict[str, str], record: str = RECORD) -> Path:
    (folder / "made").mkdir()
    (folder / "made" / "case.yaml").write_text(CASE.format(**{**SOUND, **card}))
    (folder / "made" / "batch.yaml").write_text(record)
    return folder


def test_a_sound_case_has_no_fault(rules: RuleBase, tmp_path: Path) -> None:
    assert case_faults(rules, read_cases(folder_with(tmp_path, {}))) == []


def test_the_shipped_cases_use_only_ids_there_are() -> None:
    assert case_faults(rule_base(), read_cases(CASES)) == []


INSTEAD = f"{OLD_CAUSE} was replaced by {NEW_CAUSE} in 0.2.0"
ONE_OF_TWO = "sniff_it was replaced by smell_the_slurry or sniff_the_grain in 0.2.0"

# Source of the table: first principles; every place where a card of a case may name an id.
IN_CARDS = [
    ({"first": OLD_CAUSE}, 7, "expect.first[2]", INSTEAD),
    ({"quiet": OLD_CAUSE}, 8, "expect.quiet[1]", INSTEAD),
    ({"asks": "how_it_goes"}, 9, "expect.asks[1]", "how_it_goes was replaced by course in 0.2.0"),
    ({"asks": "sniff_it"}, 9, "expect.asks[1]", ONE_OF_TWO),
    ({"truth": OLD_CAUSE}, 11, "exam.truth[1]", INSTEAD),
    ({"also": OLD_CAUSE}, 12, "exam.also[1]", INSTEAD),
]


@pytest.mark.parametrize(("card", "line", "key", "mend"), IN_CARDS)
def test_a_retired_id_on_the_card_of_a_case_is_named_with_its_mend(
    rules: RuleBase, tmp_path: Path, card: dict[str, str], line: int, key: str, mend: str
) -> None:
    (fault,) = case_faults(rules, read_cases(folder_with(tmp_path, card)))
    assert (Path(fault.file).name, fault.line, fault.key) == ("case.yaml", line, key)
    assert fault.found.startswith("the retired id") and mend in fault.wanted


# Source of the table: first principles; the two places where a record names ids.
IN_RECORDS = [
    ("fault:\n  how_it_goes: grows\n", 2, "fault.how_it_goes", "replaced by course"),
    ("checks:\n\n  sniff_it: clean\n", 3, "checks.sniff_it", ONE_OF_TWO),
    ("checks: {hold_it_up: cloudy}\n", 1, "checks.hold_it_up", "hold_it_up was dropped in 0.2.0"),
]


@pytest.mark.parametrize(("record", "line", "key", "mend"), IN_RECORDS)
def test_a_retired_id_in_the_record_of_a_case_is_named_with_its_mend(
    rules: RuleBase, tmp_path: Path, record: str, line: int, key: str, mend: str
) -> None:
    (fault,) = case_faults(rules, read_cases(folder_with(tmp_path, {}, record)))
    assert (Path(fault.file).name, fault.line, fault.key) == ("batch.yaml", line, key)
    assert mend in fault.wanted


@pytest.mark.parametrize("name", [OLD_CAUSE, "nobody_knows_it"])
def test_an_id_of_another_kind_is_unknown_where_it_stands(
    rules: RuleBase, tmp_path: Path, name: str
) -> None:
    (fault,) = case_faults(rules, read_cases(folder_with(tmp_path, {"asks": name})))
    assert fault.found == name
    assert fault.wanted == "the id of one of the measures or circumstances or checks or descriptors"


@pytest.mark.parametrize(
    ("card", "record"),
    [({"truth": OLD_CAUSE}, RECORD), ({}, "fault: {how_it_goes: grows}\n")],
)
def test_a_case_that_uses_a_retired_id_is_not_scored(
    rules: RuleBase, tmp_path: Path, card: dict[str, str], record: str
) -> None:
    with pytest.raises(UnusableInput, match=r"\.yaml:\d+: .* was replaced by "):
        score_cases(rules, [folder_with(tmp_path, card, record)], TODAY)


def test_a_cause_that_is_unknown_is_a_miss_and_no_refusal(rules: RuleBase, tmp_path: Path) -> None:
    refuse_retired(rules, read_cases(folder_with(tmp_path, {"truth": "nobody_knows_it"})))


def test_an_id_that_came_back_to_life_is_used(tmp_path: Path) -> None:
    rules = retire(rule_base(), ("course", "circumstances", ["spread"]))
    assert case_faults(rules, read_cases(folder_with(tmp_path, {}))) == []


@pytest.fixture(scope="module")
def checked(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, tuple[FaultLine, ...]]:
    """Copies of the rules and the cases, in which one case uses an id that was retired."""
    folder = tmp_path_factory.mktemp("shipped")
    copytree(RULES, folder / "rules")
    copytree(CASES, folder / "cases")
    listed = (
        f"- {{id: {OLD_CAUSE}, kind: causes, replaced_by: [{NEW_CAUSE}], since: 0.2.0, why: x}}"
    )
    (folder / "rules" / "retired.yaml").write_text(listed)
    card = folder / "cases" / "crashed_too_soon" / "case.yaml"
    card.write_text(card.read_text("utf-8").replace("quiet: [", f"quiet: [{OLD_CAUSE}, "), "utf-8")
    return card, check_rule_base(folder / "rules", folder / "cases").faults


def test_the_check_of_a_rule_base_names_the_case_that_uses_a_retired_id(
    checked: tuple[Path, tuple[FaultLine, ...]],
) -> None:
    card, (fault,) = checked
    lines = card.read_text("utf-8").splitlines()
    assert fault.file == str(card)
    assert OLD_CAUSE in lines[fault.line - 1]
    assert f"{OLD_CAUSE} was replaced by {NEW_CAUSE}" in fault.wanted


def test_a_retired_id_changes_no_fingerprint(rules: RuleBase) -> None:
    assert rules.version == replace(rules, retired={}, retired_places={}).version
