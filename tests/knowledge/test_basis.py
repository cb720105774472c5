"""What the numbers of the rule base rest on, held against a count of the raw files."""

from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, get_args

import pytest
import yaml

from diagnose.consult import basis_of
from diagnose.consult.basis import BASES, COUNTED, NONE_STATED
from diagnose.documents import Basis
from tests.knowledge.shipped import RULES, rule_base

KINDS = (*COUNTED, "words")


def files_of(kind: str) -> list[Path]:
    return sorted((RULES / kind).glob("*.yaml")) or [RULES / f"{kind}.yaml"]


def raw_bases(value: Any, basis: str) -> Iterator[str]:
    """The bases of the numbers in plain YAML: a range and a place on a curve are no numbers, nor
    is the definition of a number word."""
    if isinstance(value, dict):
        here = value.get("basis", basis)
        ranges = {"low", "high", "basis"} if "value" in value else {"give_or_take", "basis"}
        for key, item in value.items():
            if key in ("curve", "typical"):
                yield from (here for _ in item)
            elif key not in ranges | {"spans", "numbers"}:
                yield from raw_bases(item, here)
    elif isinstance(value, list):
        for item in value:
            yield from raw_bases(item, basis)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield basis


@cache
def counted_raw(kind: str) -> Counter[str]:
    texts = (path.read_text("utf-8") for path in files_of(kind))
    return Counter(one for text in texts for one in raw_bases(yaml.safe_load(text), NONE_STATED))


@pytest.mark.parametrize("kind", KINDS)
def test_the_numbers_of_a_kind_are_as_many_as_in_its_files(kind: str) -> None:
    (row,) = [row for row in basis_of(rule_base()).kinds if row.kind == kind]
    assert {basis: n for basis, n in row.numbers.items() if n} == dict(counted_raw(kind))
    assert row.total == counted_raw(kind).total()


@pytest.mark.parametrize("basis", BASES)
def test_the_total_of_a_basis_is_the_sum_over_the_kinds(basis: str) -> None:
    assert basis_of(rule_base()).totals[basis] == sum(counted_raw(kind)[basis] for kind in KINDS)


def test_the_total_of_all_is_the_sum_over_the_bases() -> None:
    answer = basis_of(rule_base())
    assert answer.total == sum(answer.totals.values()) == sum(row.total for row in answer.kinds)


def test_every_basis_that_a_card_may_state_has_a_column() -> None:
    assert (*get_args(Basis), NONE_STATED) == BASES


def test_a_share_and_a_weight_rest_on_what_their_table_states() -> None:
    causes = rule_base().causes.values()
    shares = sum(len(t.shares) for cause in causes for t in cause.circumstances.values())
    weights = sum(len(i.curve) + len(i.values) for cause in causes for i in cause.indicators)
    splits = sum(2 for cause in causes if cause.split is not None)  # litres and weeks
    (row,) = [row for row in basis_of(rule_base()).kinds if row.kind == "causes"]
    assert row.numbers["judgement"] == len(causes) + shares + weights + splits


def test_no_number_rests_on_nothing() -> None:
    assert basis_of(rule_base()).totals[NONE_STATED] == 0
