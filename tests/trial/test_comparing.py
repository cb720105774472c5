"""The check of two arms: confounds found and weighed, harmless differences left alone."""

from pathlib import Path

import pytest

from diagnose.consult.split_checking import check
from diagnose.consult.split_files import PlanAt
from diagnose.errors import UnusableInput
from diagnose.trial.comparing import CARE_FROM, STOP_FROM
from diagnose.trial.parity import SPOILED_BY_PARITY
from tests.knowledge.shipped import rule_base
from tests.trial.arms import arm_text, consultation_of, usual_plan


def checked(first: str, second: str, planned: bool = True):
    plan = PlanAt(usual_plan(), Path("plan")) if planned else None
    arms = [consultation_of(text) for text in (first, second)]
    # Both are read from one imagined file; a file of its own is a record of its own.
    for number, arm in enumerate(arms):
        object.__setattr__(arm.batch.document, "name", f"arm-{number}.yaml")
    return check(rule_base(), arms[0], arms[1], plan)


def kinds(answer, kind: str) -> set[str]:
    return {line.measure for line in answer.differences if line.kind == kind}


def test_arms_that_differ_in_the_factor_alone_may_be_tasted():
    answer = checked(arm_text("A"), arm_text("B"))
    assert answer.advice == "go"
    assert "packaged_oxygen_mg_per_l" in kinds(answer, "factor")
    assert not kinds(answer, "confound")
    assert answer.harmless == pytest.approx(usual_plan().harmless, abs=0.01)


def test_a_confound_is_found_named_and_weighed():
    answer = checked(arm_text("A"), arm_text("B", kept="28 C"))
    found = [line for line in answer.differences if line.kind == "confound"]
    assert any("stored too warm" in line.says for line in found)
    assert answer.advice == "stop"
    assert answer.spoils >= STOP_FROM
    assert answer.harmless > answer.spoils


def test_the_factor_is_not_taken_for_a_confound_when_another_thing_differs():
    answer = checked(arm_text("A"), arm_text("B", kept="28 C"))
    assert "packaged_oxygen_mg_per_l" in kinds(answer, "factor")


def test_a_worse_confound_spoils_more():
    spoils = [checked(arm_text("A"), arm_text("B", kept=f"{c} C")).spoils for c in (12, 16, 20, 28)]
    assert spoils == sorted(spoils)
    assert spoils[0] < CARE_FROM < spoils[-1]


def test_arms_given_the_wrong_way_round_are_noticed():
    answer = checked(arm_text("B"), arm_text("A"))
    assert answer.advice == "care"
    assert any("other way round" in words for words in answer.remarks)


def test_arms_without_the_factor_are_not_to_be_tasted():
    text = arm_text("A")
    answer = checked(text, text.replace("1.011", "1.012"))
    assert answer.advice == "stop"
    assert "no difference in the factor" in answer.says
    assert not any("other way round" in words for words in answer.remarks)


def test_gravities_that_part_too_far_are_named_and_counted():
    answer = checked(arm_text("A"), arm_text("B", final="1.014"))
    assert kinds(answer, "parity") == {"gravity_final"}
    assert answer.spoils >= SPOILED_BY_PARITY * 0.99


def test_gravities_within_the_tolerance_are_let_be():
    assert not kinds(checked(arm_text("A"), arm_text("B", final="1.0115")), "parity")


def test_arms_packaged_on_two_days_are_named():
    late = arm_text("B").replace("{when: 2026-04-21", "{when: 2026-04-25")
    assert "packaging_day" in kinds(checked(arm_text("A"), late), "parity")


def test_what_is_logged_for_one_arm_only_is_a_doubt_to_settle():
    silent = arm_text("B").replace("\nstorage: [{since: 2026-04-21, time: 6 weeks, at: 12 C}]", "")
    answer = checked(arm_text("A"), silent)
    assert kinds(answer, "one_arm_only")
    assert not any(line.spoils for line in answer.differences if line.kind == "one_arm_only")


def test_one_record_given_twice_is_refused():
    with pytest.raises(UnusableInput, match="the same record"):
        checked(arm_text("A"), arm_text("A"))


def test_a_record_with_another_name_alone_is_the_same_record():
    with pytest.raises(UnusableInput, match="the same record"):
        checked(arm_text("A"), arm_text("A").replace("arm A", "arm B"))


def test_without_a_plan_every_difference_counts():
    answer = checked(arm_text("A"), arm_text("B"), planned=False)
    assert "packaged_oxygen_mg_per_l" in kinds(answer, "confound")
    assert "no plan" in answer.about
