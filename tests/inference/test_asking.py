"""Asking by what an answer is worth finds the cause sooner than asking in a fixed order."""

from statistics import fmean

import pytest

from diagnose.knowledge import RuleBase
from tests.inference.asking import Tries, as_listed, by_gain, race

BATCHES = 25  # more, and other orders, with `python -m tests.inference.asking`


@pytest.fixture(scope="module")
def tries(rules: RuleBase) -> dict[str, Tries]:
    return race(rules, 1, BATCHES, {"by gain": by_gain, "as listed": as_listed})


def test_asking_by_gain_takes_fewer_questions_than_a_fixed_order(tries: dict[str, Tries]) -> None:
    assert fmean(tries["by gain"].questions) < fmean(tries["as listed"].questions)


def test_asking_by_gain_finds_the_cause_at_least_as_often(tries: dict[str, Tries]) -> None:
    assert tries["by gain"].found >= tries["as listed"].found
