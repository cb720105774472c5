"""Laws of reading a record: a record or a refusal and nothing else, from JSON as from YAML."""

import json
import re
from typing import Any

import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch import BatchRecord, logged_entries
from diagnose.documents import keys_of, parse_yaml
from diagnose.errors import UnusableInput
from tests.batch.written import FULL, batch_of, record_of

KEYS = st.sampled_from(keys_of(BatchRecord)) | st.sampled_from(["", "4", "alfa", "a b", "é"])
# What is typed into records, whole and broken, so that many entries are nearly right.
PIECES = ["1.050", "66", "F", "C", "5", "US gal", "gal", "1,5", "g", "lb", "oz", "-", "about", "~"]
PIECES += ["day", "2026-05-02", "10:30", "+01:00", "0001-01-01", "9" * 30, "1e9", "%", "pH", "P"]
PIECES += ["unknown", "yes", "bottle", "nan", "inf", "∞", "½", "(", ")", "=", "/", "'", "Europe/"]
typed = st.lists(st.sampled_from(PIECES), max_size=5).map(" ".join) | st.text(max_size=8)
values = st.recursive(
    typed | st.none() | st.booleans() | st.integers() | st.floats(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=4),
    max_leaves=10,
)
records = st.dictionaries(st.sampled_from(sorted(BatchRecord.model_fields)), values, max_size=6)
# The lines of a full record: any choice of them, each left whole, cut short or garbled.
LINES = FULL.splitlines()
CHANGES = [lambda line: line, lambda line: line[: len(line) // 2], lambda line: line + " x"]
CHANGES += [lambda line: line.replace("2026", "2036"), lambda line: re.sub(r"\d", "9", line)]
CHANGES += [lambda line: line.replace(": ", ":"), lambda line: " " + line, lambda line: "- " + line]
changed_lines = st.lists(
    st.tuples(st.integers(0, len(LINES) - 1), st.sampled_from(CHANGES)), max_size=4
)


def read_or_refused(text: str) -> str:
    """The refusal of a text; empty where it can be read. Anything else is a defect and raises."""
    try:
        batch_of(text)
    except UnusableInput as refused:
        assert all(fault.found and fault.wanted for fault in refused.faults)
        return str(refused)
    return ""


@settings(max_examples=300)
@given(records)
def test_any_record_is_read_or_refused(record: dict[str, Any]) -> None:
    read_or_refused(json.dumps(record, allow_nan=True))


@settings(max_examples=200)
@given(changed_lines)
def test_a_full_record_with_slips_is_read_or_refused(slips: list[tuple[int, Any]]) -> None:
    lines = list(LINES)
    for number, change in slips:
        lines[number] = change(lines[number])
    read_or_refused("\n".join(lines))


@settings(max_examples=100)
@given(st.sets(st.integers(0, len(LINES) - 1), max_size=30))
def test_a_full_record_with_lines_left_out_is_read_or_refused(gone: set[int]) -> None:
    read_or_refused("\n".join(line for n, line in enumerate(LINES) if n not in gone))


@given(st.sets(st.sampled_from(sorted(BatchRecord.model_fields))))
def test_any_choice_of_sections_makes_a_record(kept: set[str]) -> None:
    data = parse_yaml(FULL, "full", as_typed=True).data
    record = record_of(json.dumps({key: value for key, value in data.items() if key in kept}))
    assert {path[0] for path, _ in logged_entries(record)} == kept


@given(records)
def test_a_refusal_says_the_same_each_time(record: dict[str, Any]) -> None:
    text = json.dumps(record)
    assert read_or_refused(text) == read_or_refused(text)


def test_a_record_written_as_json_reads_as_the_same_record() -> None:
    data = parse_yaml(FULL, "full", as_typed=True).data
    assert record_of(json.dumps(data, indent=2)) == record_of(FULL)


def test_a_record_written_out_by_another_yaml_writer_reads_as_the_same_record() -> None:
    data = parse_yaml(FULL, "full", as_typed=True).data
    assert record_of(yaml.safe_dump(data, allow_unicode=True)) == record_of(FULL)


def test_numbers_of_json_need_no_quotes() -> None:
    quoted = '{"gravity": {"original": "1.05", "final": "1.012"}, "mash": {"ph": "5.4"}}'
    assert record_of(re.sub(r'"([\d.]+)"', r"\1", quoted)) == record_of(quoted)
