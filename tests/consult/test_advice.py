"""Advice fits the package that the beer is in."""

import pytest

from diagnose.consult import diagnose
from diagnose.report import print_diagnosis
from diagnose.report.diagnosis_page import STOP_FIRST
from tests.consult.asked import asked
from tests.knowledge.shipped import rule_base
from tests.report.printed import printed, words_of

PACKAGES = ("bottle", "can", "cask", "keg")
RECORD = "packaging: {{package: {}}}\nfermentation: {{temperature: 18 C}}\n"


# Source: the cards themselves; each says for which packages a line is meant.
@pytest.mark.parametrize("package", PACKAGES)
def test_advice_for_another_package_is_left_out(package: str) -> None:
    told = diagnose(rule_base(), asked("buttery, slick", RECORD.format(package)))
    for cause in told.faults[0].causes:
        other = [
            line.says
            for line in rule_base().causes[cause.id].now
            if not isinstance(line, str) and package not in line.packages
        ]
        assert not set(other) & set(cause.now)


# Source of the table: common practice, no source.
@pytest.mark.parametrize(
    ("package", "said", "unsaid"),
    [("bottle", "If it is bottled", "If it is kegged"), ("keg", "If it is kegged", "is bottled")],
)
def test_butter_in_a_package_is_mended_as_that_package_allows(
    package: str, said: str, unsaid: str
) -> None:
    told = diagnose(rule_base(), asked("buttery, slick", RECORD.format(package)))
    (first,) = [one for one in told.faults[0].causes if one.id == "diacetyl_left_at_packaging"]
    assert any(said in line for line in first.now)
    assert not any(unsaid in line for line in first.now)


def test_all_is_said_where_the_package_is_not_known() -> None:
    for cause in rule_base().causes.values():
        assert len(cause.advice()) == len(cause.now)


@pytest.mark.parametrize("package", PACKAGES)
def test_every_cause_that_is_possible_in_a_package_has_advice_for_it(package: str) -> None:
    for cause in rule_base().causes.values():
        barred = [c for c in cause.possible_when if c.measure == "package"]
        if all(package in condition.any_of for condition in barred):
            assert cause.advice(package), cause.id


# Source: the caution on pressure itself, which says to cool such bottles.
@pytest.mark.parametrize(("volumes", "said"), [("2.4", True), ("3.3", False), ("4.5", False)])
def test_no_bottle_is_kept_warm_where_the_gas_is_cautioned_against(
    volumes: str, said: bool
) -> None:
    record = f"packaging: {{package: bottle, carbonation: {volumes} volumes}}\n"
    told = diagnose(rule_base(), asked("buttery, slick", record))
    (first,) = [one for one in told.faults[0].causes if one.id == "diacetyl_left_at_packaging"]
    assert any("keep the bottles at 18 to 20 C" in line for line in first.now) == said


# Source: the rule that nothing else is done before what is dangerous is seen to.
def test_all_advice_waits_where_there_is_a_danger() -> None:
    record = "packaging: {package: bottle, carbonation: 4.5 volumes}\n"
    told = diagnose(rule_base(), asked("buttery, slick", record))
    told = told.model_copy(update={"verdict": "separated"})
    words = words_of(printed(lambda console: print_diagnosis(console, told)))
    page = " ".join(words)
    assert page.index("With this beer, now") < page.index(STOP_FIRST) < page.index("Next time")
