"""Which arm of a split brings the fault: what the cards say, against what they say elsewhere."""

import re
from itertools import product

import pytest

from diagnose.evidence.weighing import read_curve
from diagnose.knowledge import Cause
from tests.knowledge.shipped import rule_base

SPLIT = [cause for cause in rule_base().causes.values() if cause.split]
FIGURE = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?) ([A-Za-z/%]+)")
# Common practice, no source: how a brewer calls what was done all along.
ALL_ALONG = re.compile(r"\b(before|as used|as brewed|as (it|they) (comes?|came|were)|usual|old)\b")


def arms_of(cause: Cause) -> tuple[str, str]:
    """The suspect's arm and the other."""
    assert cause.split
    first, second = cause.split.arms
    return (first, second) if cause.split.suspect == "first" else (second, first)


def judged_by_figures() -> list[tuple[str, str, float, float]]:
    """Cause, measure, and what it weighs in the suspect's arm and in the other.

    Only where both arms name a figure in the unit of a curve on the same card.
    """
    found = []
    for cause in SPLIT:
        suspect, other = ({u: float(n) for n, u in FIGURE.findall(arm)} for arm in arms_of(cause))
        for indicator, unit in product(cause.indicators, suspect.keys() & other.keys()):
            if indicator.curve and rule_base().measures[indicator.measure].unit == unit:
                weights = [read_curve(indicator.curve, arm[unit]) for arm in (suspect, other)]
                found.append((cause.id, indicator.measure, *weights))
    return found


@pytest.mark.parametrize(("cause", "measure", "suspect", "other"), judged_by_figures())
def test_no_figure_of_the_other_arm_speaks_louder_for_the_cause(
    cause: str, measure: str, suspect: float, other: float
) -> None:
    assert suspect >= other


def test_some_arms_are_judged_by_their_figures() -> None:
    assert {"served_wrong_temperature", "warm_storage"} <= {one[0] for one in judged_by_figures()}


@pytest.mark.parametrize("cause", SPLIT, ids=lambda cause: cause.id)
def test_what_was_done_all_along_is_the_arm_of_the_suspect(cause: Cause) -> None:
    suspect, other = (bool(ALL_ALONG.search(arm)) for arm in arms_of(cause))
    assert suspect or not other
