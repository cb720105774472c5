"""Laws of reading documents: JSON in, the same data out; any text, a refusal at worst."""

import json
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.documents import parse_yaml
from diagnose.documents.yaml12 import dotted
from diagnose.errors import UnusableInput

printable = st.text(st.characters(exclude_categories=["Cc", "Cs"]), max_size=12)
keys = st.text(st.characters(categories=["Ll", "Lu", "Nd"]), min_size=1, max_size=8)
scalars = st.none() | st.booleans() | st.integers(-(10**9), 10**9) | printable
plain = st.recursive(
    scalars | st.floats(allow_nan=False, allow_infinity=False),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(keys, inner, max_size=4),
    max_leaves=12,
)
# Signs that mean something to YAML, so that a short text has a fair chance to be broken by them.
pieces = [
    *"ab01.:-[]{},#&*!|>'\"%@`~?=\\\t\n \x00\x07\x85é",
    "\n  ",
    ": ",
    "- ",
    "---\n",
    "\\ud83c",
]
yaml_like = st.lists(st.sampled_from(pieces), max_size=40).map("".join)


@given(plain)
def test_json_reads_as_the_data_that_was_written(data: Any) -> None:
    assert parse_yaml(json.dumps(data), "f.json").data == data


@given(plain)
def test_indented_json_reads_as_the_data_that_was_written(data: Any) -> None:
    assert parse_yaml(json.dumps(data, indent=2), "f.json").data == data


@settings(max_examples=300)
@given(yaml_like, st.booleans())
def test_any_text_is_read_or_refused_in_a_sentence(text: str, as_typed: bool) -> None:
    try:
        parse_yaml(text, "f.yaml", as_typed=as_typed)
    except UnusableInput as refused:
        assert all(fault.found and fault.wanted for fault in refused.faults)


@settings(max_examples=300)
@given(yaml_like)
def test_a_fault_lies_on_a_line_of_the_text(text: str) -> None:
    try:
        parse_yaml(text, "f.yaml")
    except UnusableInput as refused:
        # One more than there are: libyaml also points to just after the end.
        last = len(text.replace("\x85", "\n").split("\n")) + 1
        assert all(0 <= fault.line <= last for fault in refused.faults)


@given(st.lists(keys, min_size=1, max_size=9, unique=True))
def test_each_key_is_found_on_the_line_where_it_stands(names: list[str]) -> None:
    text = "".join(f'"{name}": 1\n' for name in names)
    document = parse_yaml(text, "f.yaml")
    assert [document.line((name,)) for name in names] == list(range(1, len(names) + 1))


@given(st.lists(keys, min_size=1, max_size=9, unique=True), st.data())
def test_a_repeated_key_is_refused_wherever_it_stands(names: list[str], data: Any) -> None:
    again = data.draw(st.sampled_from(names))
    text = "".join(f'"{name}": 1\n' for name in [*names, again])
    try:
        parse_yaml(text, "f.yaml")
        refused = ""
    except UnusableInput as error:
        refused = str(error)
    assert refused.startswith(f"f.yaml:{len(names) + 1}: {dotted((again,))}: found the same key")


def test_a_path_without_a_line_of_its_own_takes_the_line_above_it() -> None:
    document = parse_yaml("a:\n  b: 1\n", "f.yaml")
    assert document.line(("a", "b", "c", 3)) == 2


def test_a_path_reads_with_its_items_counted_from_one() -> None:
    assert dotted(("recipe", "hops", 1, "amount")) == "recipe.hops[2].amount"
