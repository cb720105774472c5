"""What a record comes to: numbers worked by hand, classes, and what stays open."""

from textwrap import dedent

import pytest

from diagnose.evidence.finding import ClassFinding, NumberFinding
from tests.evidence.records import findings_of, measure_ids
from tests.evidence.worked import Worked
from tests.evidence.worked_brewday import BREWDAY
from tests.evidence.worked_cellar import CELLAR
from tests.evidence.worked_classes import CLASSED as CLASSED_AT_FIRST
from tests.evidence.worked_wider import WIDER
from tests.evidence.worked_wider_classes import WIDER_CLASSED
from tests.knowledge.shipped import rule_base

WORKED = (*BREWDAY, *CELLAR, *WIDER)
CLASSED = (*CLASSED_AT_FIRST, *WIDER_CLASSED)
# The sums beside the records are worked to three figures.
ROUNDED = 2e-3


@pytest.mark.parametrize("worked", WORKED, ids=lambda one: one.measure)
def test_a_number_comes_out_as_worked_by_hand(worked: Worked) -> None:
    finding = findings_of(dedent(worked.record))[worked.measure]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(worked.value, rel=ROUNDED, abs=1e-9)


@pytest.mark.parametrize(("measure", "value", "record"), CLASSED)
def test_a_class_comes_out_as_a_reader_would_say(measure: str, value: str, record: str) -> None:
    finding = findings_of(dedent(record))[measure]
    assert isinstance(finding, ClassFinding)
    assert finding.value == value


@pytest.mark.parametrize(("measure", "value", "record"), CLASSED)
def test_a_class_is_one_that_the_rule_base_lists(measure: str, value: str, record: str) -> None:
    assert value in rule_base().measures[measure].classes


def test_every_measure_is_worked_once_at_least() -> None:
    worked = {one.measure for one in WORKED} | {measure for measure, *_ in CLASSED}
    assert worked == set(rule_base().measures)


def test_the_measures_computed_are_those_of_the_rule_base() -> None:
    assert sorted(measure_ids()) == sorted(rule_base().measures)


def test_no_measure_is_computed_twice() -> None:
    assert len(set(measure_ids())) == len(measure_ids())


def test_measures_come_in_the_order_of_the_rule_base() -> None:
    record = "\n".join(
        dedent(one.record) for one in WORKED if one.measure in ("mash_ph", "chill_minutes")
    )
    order = list(rule_base().measures)
    found = list(findings_of(record))
    assert found == sorted(found, key=order.index)


@pytest.mark.parametrize("worked", WORKED, ids=lambda one: one.measure)
def test_a_number_says_where_it_stands_in_the_record(worked: Worked) -> None:
    finding = findings_of(dedent(worked.record))[worked.measure]
    assert finding.where.startswith("batch.yaml:")
