"""An entry set in the text of a record changes that entry and not one other sign."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.consult.guided_text import put_in, with_entry
from diagnose.documents import parse_yaml
from diagnose.errors import UnusableInput
from tests.knowledge.shipped import CASES

RECORDS = sorted(path for path in CASES.glob("*/batch.yaml"))[::3]
# Sections that a record may hold and that these cases leave out or write in many layouts.
PLACES = [
    ("checks", "ph_now"),
    ("fault", "season"),
    ("boil", "vigour"),
    ("pitch", "yeast", "stored_at"),
    ("packaging", "headspace"),
    ("notes",),
]
TEXTS = st.text(
    st.characters(exclude_categories=("Cs", "Cc", "Cn", "Co", "Zl", "Zp")), min_size=1
).filter(lambda text: text == text.strip() and text)


def data_of(text: str) -> object:
    return parse_yaml(text, "record", as_typed=True).data


@pytest.mark.parametrize("path", RECORDS, ids=lambda path: path.parent.name)
def test_what_a_brewer_wrote_stays_sign_for_sign(path: Path) -> None:
    text = path.read_text("utf-8")
    data = data_of(text)
    for place in PLACES:
        if data != put_in(data, place, "5 C") and not _is_there(data, place):
            after = with_entry(text, place, "5 C", note="What was it?")
            assert _is_subsequence(text, after)
            assert data_of(after) == put_in(data, place, "5 C")


def _is_there(data: object, place: tuple[str, ...]) -> bool:
    for step in place:
        if not isinstance(data, dict) or step not in data:
            return False
        data = data[step]
    return True


def _is_subsequence(part: str, whole: str) -> bool:
    signs = iter(whole)
    return all(sign in signs for sign in part)


@settings(max_examples=60)
@given(value=TEXTS, flow=st.booleans())
def test_any_text_comes_back_as_it_was_typed(value: str, flow: bool) -> None:
    before = "{batch: b, boil: {time: 1 h}}" if flow else "batch: b\nboil:\n  time: 1 h\n"
    after = with_entry(before, ("boil", "note"), value)
    assert data_of(after) == {"batch": "b", "boil": {"time": "1 h", "note": value}}


# Source of the table: YAML 1.2.2, chapters 7 and 8, the layouts in which people write records.
@pytest.mark.parametrize(
    ("before", "path", "after"),
    [
        ("a: 1\n", ("b",), "a: 1\nb: x\n"),
        ("a: 1", ("b",), "a: 1\nb: x\n"),
        ("a: 1\r\n", ("b",), "a: 1\r\nb: x\r\n"),
        ("a: {c: 1}  # kept\n", ("a", "b"), "a: {c: 1, b: x}  # kept\n"),
        ("a: {}\n", ("a", "b"), "a: {b: x}\n"),
        ("a:\n  c: 1  # kept\nd: 2\n", ("a", "b"), "a:\n  c: 1  # kept\n  b: x\nd: 2\n"),
        ("a: unknown  # kept\n", ("a",), "a: x  # kept\n"),
        ("a:  # kept\n", ("a", "b"), "a: {b: x}  # kept\n"),
        ("a: unknown\n", ("a", 0, "b"), "a: [{b: x}]\n"),
        ("a:\n  - c: 1\n", ("a", 1, "b"), "a:\n  - c: 1\n  - b: x\n"),
        ("a:\n- c: 1\n", ("a", 0, "b"), "a:\n- c: 1\n  b: x\n"),
        ("a:\n- {c: 1}\n", ("a", 0, "b"), "a:\n- {c: 1, b: x}\n"),
        ("a: [{c: 1}]\n", ("a", 1, "b"), "a: [{c: 1}, {b: x}]\n"),
        ("a: |\n  long\n  text\nc: 1\n", ("b",), "a: |\n  long\n  text\nc: 1\nb: x\n"),
        ("c:\n  a: |\n    long\n# kept\nd: 1\n", ("c", "b"), None),
        ('{"a": 1}', ("b",), '{"a": 1, "b": "x"}'),
        ('{\n "a": {\n  "c": 1\n }\n}\n', ("a", "b"), None),
        ("# only a comment\n", ("b",), "# only a comment\nb: x\n"),
    ],
)
def test_each_layout_is_kept(before: str, path: tuple[str | int, ...], after: str | None) -> None:
    found = with_entry(before, path, "x")
    assert after in (None, found)
    assert _is_subsequence(before.replace("unknown", ""), found)


@pytest.mark.parametrize("before", ["a: 5 C\n", "a: [1]\n"])
def test_what_says_something_else_is_not_written_over(before: str) -> None:
    with pytest.raises(UnusableInput, match="by hand"):
        with_entry(before, ("a", "b"), "x")


def test_the_comment_stands_above_its_entry() -> None:
    text = with_entry("batch: b\n", ("boil", "time"), "1 h", note="How long did it boil?")
    assert text == "batch: b\nboil:\n  # How long did it boil?\n  time: 1 h\n"


def test_a_list_is_one_item_a_line() -> None:
    lines = [{"name": "pale", "amount": "5 kg"}, {"name": "wheat", "amount": "0,5 kg"}]
    text = with_entry("batch: b\n", ("recipe", "fermentables"), lines)
    assert '    - {name: wheat, amount: "0,5 kg"}\n' in text
