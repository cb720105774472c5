"""Retired ids: who asks for one is told what stands in its place, and the list itself is sound."""

from collections.abc import Callable
from pathlib import Path
from shutil import copytree
from typing import Any

import pytest

from diagnose.batch import Batch, read_batch
from diagnose.consult import card_sheet, consult_on, explain_card
from diagnose.errors import UnusableInput
from diagnose.knowledge import RuleBase, load_rules, retired_sides, rule_faults
from tests.knowledge.retired import SINCE, WHY, retire
from tests.knowledge.shipped import RULES, TODAY, rule_base


@pytest.fixture(scope="module")
def rules() -> RuleBase:
    return retire(
        rule_base(),
        ("buttery", "compounds", ["diacetyl"]),
        ("soured", "causes", ["acetic_contamination", "lactic_contamination"]),
        ("moon_phase", "circumstances", []),
        ("how_it_goes", "circumstances", ["course"]),
        ("sniff_it", "checks", ["smell_the_slurry"]),
    )


# Source of the table: worked by hand from the list above.
MENDS = [
    ("buttery", f"diacetyl (buttery was replaced by diacetyl in {SINCE}: {WHY})"),
    (
        "soured",
        "acetic_contamination or lactic_contamination (soured was replaced by acetic_contamination "
        f"or lactic_contamination in {SINCE}: {WHY})",
    ),
    ("moon_phase", f"another id, or none (moon_phase was dropped in {SINCE}: {WHY})"),
]


@pytest.mark.parametrize("ask", [explain_card, card_sheet], ids=["explain", "sheet"])
@pytest.mark.parametrize(("name", "mend"), MENDS)
def test_who_asks_for_a_retired_id_is_told_the_new_one(
    rules: RuleBase, ask: Callable[[RuleBase, str], Any], name: str, mend: str
) -> None:
    with pytest.raises(UnusableInput) as refusal:
        ask(rules, name)
    assert str(refusal.value) == f"rules: found the retired id {name}; wanted {mend}"


def test_a_card_that_is_there_goes_before_a_retired_id() -> None:
    rules = retire(rule_base(), ("diacetyl", "causes", ["crashed_too_soon"]))
    assert explain_card(rules, "diacetyl").kind == "compounds"


def test_a_retired_id_is_not_offered_for_a_slip(rules: RuleBase) -> None:
    with pytest.raises(UnusableInput) as refusal:
        explain_card(rules, "sniff_itt")
    assert "sniff_it," not in str(refusal.value)


def recorded(folder: Path, text: str) -> Batch:
    path = folder / "batch.yaml"
    path.write_text(text)
    return read_batch(path, TODAY)


# Source of the table: first principles; the two places where a record names ids.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("style: bitter\nfault: {how_it_goes: grows}\n", "how_it_goes was replaced by course"),
        ("fault: {moon_phase: full}\nstyle: bitter\n", "moon_phase was dropped in 0.2.0"),
        ("style: bitter\nchecks: {sniff_it: y}\n", "sniff_it was replaced by smell_the_slurry"),
    ],
)
def test_a_record_with_a_retired_id_is_refused_with_the_new_one(
    rules: RuleBase, tmp_path: Path, text: str, said: str
) -> None:
    batch = recorded(tmp_path, text)
    with pytest.raises(UnusableInput) as refusal:
        consult_on(rules, batch)
    line = 1 + text.split("\n").index(next(part for part in text.split("\n") if "{" in part))
    assert f"batch.yaml:{line}: " in str(refusal.value) and said in str(refusal.value)


def test_an_id_retired_as_another_kind_is_merely_unknown(rules: RuleBase, tmp_path: Path) -> None:
    batch = recorded(tmp_path, "fault: {sniff_it: grows}\n")
    with pytest.raises(UnusableInput, match="found sniff_it; wanted one of"):
        consult_on(rules, batch)


@pytest.mark.parametrize(
    ("kinds", "known"), [((), True), (("checks", "causes"), True), (("causes",), False)]
)
def test_a_retired_id_is_known_as_its_own_kind(
    rules: RuleBase, kinds: tuple[str, ...], known: bool
) -> None:
    assert (retired_sides(rules, "sniff_it", kinds) is not None) == known


def test_an_id_in_use_is_not_retired(rules: RuleBase) -> None:
    assert retired_sides(rules, "diacetyl") is None


# Source of the table: first principles; slips of a hand that retires an id.
SLIPS = [
    ("kind: causes, replaced_by: [diacetyl]", "soured", "replaced_by", "diacetyl"),
    ("kind: causes, replaced_by: [soured_too]", "soured", "replaced_by", "soured_too"),
    ("kind: compounds, replaced_by: []", "diacetyl", "id", "diacetyl"),
]


@pytest.mark.parametrize(("entry", "name", "key", "found"), SLIPS)
def test_a_slip_in_the_list_is_named_with_its_line(
    tmp_path: Path, entry: str, name: str, key: str, found: str
) -> None:
    copytree(RULES, tmp_path / "rules")
    listed = f"# a remark\n- {{id: {name}, {entry}, since: 0.2.0, why: x}}\n"
    (tmp_path / "rules" / "retired.yaml").write_text(listed)
    before = set(rule_faults(rule_base()))
    (fault,) = set(rule_faults(load_rules(tmp_path / "rules"))) - before
    assert (fault.file, fault.line, fault.key) == ("rules/retired.yaml", 2, f"[1].{key}")
    assert fault.found == found


# Source of the table: first principles; a list that cannot be read.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("- {id: a, kind: reasons, replaced_by: [], since: x, why: y}", "retired.yaml:1: [1].kind"),
        ("- {id: a, kind: causes, since: x, why: y}", "'replaced_by', which is required"),
        ("- {id: a, kind: causes, replaced_by: [], since: x, why: y}\n" * 2, "a again"),
    ],
)
def test_a_list_that_cannot_be_read_is_refused(tmp_path: Path, text: str, said: str) -> None:
    copytree(RULES, tmp_path / "rules")
    (tmp_path / "rules" / "retired.yaml").write_text(text)
    with pytest.raises(UnusableInput) as refusal:
        load_rules(tmp_path / "rules")
    assert said in str(refusal.value)
