"""What a bare word means: the core schema of YAML 1.2, and nothing of 1.1."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from ruamel.yaml import YAML

from diagnose.documents import parse_yaml

ORACLE = YAML(typ="safe", pure=True)


def ours(scalar: str) -> Any:
    return parse_yaml(f"a: {scalar}\n", "f.yaml").data["a"]


def theirs(scalar: str) -> Any:
    return ORACLE.load(f"a: {scalar}\n")["a"]


def same(one: Any, other: Any) -> bool:
    if isinstance(one, float) and math.isnan(one):
        return isinstance(other, float) and math.isnan(other)
    return type(one) is type(other) and bool(one == other)


@given(st.from_regex(r"[-+]?[0-9]{1,6}(\.[0-9]{0,4})?([eE][-+]?[0-9]{1,2})?", fullmatch=True))
def test_any_number_reads_as_the_reference_reads_it(scalar: str) -> None:
    assert same(ours(scalar), theirs(scalar))


@given(st.text("nulNULtrueTRfasFAyYoO~.inIN", min_size=1, max_size=5))
def test_any_short_word_reads_as_the_reference_reads_it(scalar: str) -> None:
    assert same(ours(scalar), theirs(scalar))


# Source of the table: YAML 1.2.2, section 10.3.2, with what 1.1 made of the same words.
CORE = [
    *("no", "yes", "on", "off", "y", "n", "No", "YES"),
    *("true", "True", "TRUE", "tRUE", "false", "False", "FALSE"),
    *("~", "null", "Null", "NULL", "nULL"),
    *("12:30", "1:30:15", "190:20:30"),
    *("0", "-0", "+12", "010", "08", "0o17", "0o8", "0o", "0x1f", "0xG", "0X1F"),
    *("1e3", "1E+3", "1.e2", "1e", "e3", "1.050", ".5", "-.5", "5.", "+", ".", "1.2.3", "0,4"),
    *(".inf", "-.inf", "+.Inf", ".INF", "inf", ".nan", ".NaN", "nan", "NaN"),
]


@pytest.mark.parametrize("scalar", CORE)
def test_a_scalar_reads_as_in_the_core_schema(scalar: str) -> None:
    assert same(ours(scalar), theirs(scalar))


# Source of the table: YAML 1.2.2, section 10.3.2, where the reference library is laxer.
STAYS_TEXT = [
    *("1_000", "685_230.15", "0b11", "-0x1f", "+0o17", "<<", "="),
    *("2026-09-12", "2026-09-12T10:30Z", "2026-09-12 10:30"),
]


@pytest.mark.parametrize("scalar", STAYS_TEXT)
def test_what_the_core_schema_does_not_name_stays_text(scalar: str) -> None:
    assert ours(scalar) == scalar


# Source of the table: common practice, no source; entries as brewers type them.
AS_TYPED = ["1.050", "010", "0x1f", "1e3", "true", "False", ".nan", "-0", "1_000", "12:30", "66 F"]


@pytest.mark.parametrize("scalar", AS_TYPED)
def test_as_typed_keeps_every_sign_that_was_typed(scalar: str) -> None:
    assert parse_yaml(f"a: {scalar}\n", "f.yaml", as_typed=True).data == {"a": scalar}


@pytest.mark.parametrize("scalar", ["", "~", "null"])
def test_as_typed_still_knows_nothing_from_a_word(scalar: str) -> None:
    assert parse_yaml(f"a: {scalar}\n", "f.yaml", as_typed=True).data == {"a": None}


@pytest.mark.parametrize("quoted", ['"no"', "'12'", '"~"', "'true'", '"1.050"'])
def test_a_quoted_scalar_is_always_text(quoted: str) -> None:
    assert ours(quoted) == quoted[1:-1]
