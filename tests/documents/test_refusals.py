"""Documents that are refused: what was found, what is wanted, and on which line."""

import pytest

from diagnose.documents import parse_yaml
from tests.documents.refused import refusal_of

# Source of the table: YAML 1.2.2 for what is no YAML; the house for what is not wanted in it.
REFUSED = [
    ("a: 1\nb: 2\na: 3\n", "f.yaml:3: a: found the same key a second time; wanted each key once"),
    ('1: a\n"1": b\n', "f.yaml:2: 1: found the same key a second time; wanted each key once"),
    ("a: {b: 1, b: 2}\n", "f.yaml:1: a.b: found the same key a second time; wanted each key once"),
    ("a: 1\r\na: 2\r\n", "f.yaml:2: a: found the same key a second time; wanted each key once"),
    ("a: &x 1\nb: 2\nc: *x\n", "f.yaml:3: c: found an alias (*name); wanted the entry written out"),
    (
        "a: &x 1\nb:\n - *x\n",
        "f.yaml:2: b[1]: found an alias (*name); wanted the entry written out",
    ),
    ("a: &x {}\nb:\n <<: *x\n", "f.yaml:3: b.<<: found an alias (*name); wanted the entry written"),
    ("&a [*a]\n", "f.yaml:1: [1]: found an alias (*name); wanted the entry written out"),
    ("a: *x\n", "f.yaml:1: found text that is not YAML (found undefined alias)"),
    ("b: 1\na: !!str 5\n", "f.yaml:2: a: found the tag !!str; wanted a plain value without a tag"),
    ("a: !!int x\n", "f.yaml:1: a: found the tag !!int; wanted a plain value without a tag"),
    ("a: !!float x\n", "f.yaml:1: a: found the tag !!float; wanted a plain value without a tag"),
    ("a: !!binary aGk=\n", "f.yaml:1: a: found the tag !!binary; wanted a plain value without"),
    ("a: !!set {b}\n", "f.yaml:1: a: found the tag !!set; wanted a plain value without a tag"),
    ("a: !beer {b: 1}\n", "f.yaml:1: a: found the tag !beer; wanted a plain value without a tag"),
    ("a: !!python/name:os.system\n", "f.yaml:1: a: found the tag !!python/name:os.system; wanted"),
    ("!beer a: 1\n", "f.yaml:1: found a key that is not a word; wanted a plain word as key"),
    ("? [a, b]\n: 1\n", "f.yaml:1: found a key that is not a word; wanted a plain word as key"),
    (
        "a: 1\n---\nb: 2\n",
        "f.yaml:2: found a second document ('---'); wanted one document in a file",
    ),
    ("a:\n\tb: 1\n", "f.yaml:2: found a tab in the indent; wanted spaces in the indent"),
    (
        "a: [1, 2\nb: 3\n",
        "f.yaml:2: found text that is not YAML (did not find expected ',' or ']')",
    ),
    # a quote that never closes: where it was opened, not where the file ends
    ('a: 1\nb: "2\nc: 3\nd: 4\n', "f.yaml:2: found text that is not YAML (found unexpected end"),
    ("a: b: c\n", "f.yaml:1: found text that is not YAML (mapping values are not allowed"),
    (
        "a: 1\nb: \x07\n",
        "f.yaml:2: found text that is not YAML (control characters are not allowed",
    ),
    ('a: 1\nb: "\\e[31m"\n', "f.yaml:2: b: found the control character 0x1b; wanted text that can"),
    ("", "f.yaml: found no entries; wanted at least one entry"),
    ("# a note\n", "f.yaml: found no entries; wanted at least one entry"),
    (f"a: {'9' * 5000}\n", "f.yaml:1: a: found a number of 5000 digits; wanted at most 100 digits"),
    (
        "[" * 900 + "]" * 900,
        "f.yaml:1: [1]: found entries nested too deep; wanted at most 50 levels",
    ),
    ("[" * 99_999, "f.yaml:1: found text that is not YAML (exceeded maximum nesting depth)"),
    ("{a: " * 900 + "}" * 900, "f.yaml:1: a: found entries nested too deep; wanted at most 50"),
]


@pytest.mark.parametrize(("text", "said"), REFUSED, ids=lambda text: repr(text)[:30])
def test_a_document_is_refused_in_one_sentence_with_its_line(text: str, said: str) -> None:
    refusal = refusal_of(text)
    assert refusal.startswith(said)
    assert "\n" not in refusal


def test_all_faults_of_a_document_are_shown_at_once() -> None:
    faults = refusal_of("a: &x 1\na: 2\nb: {c: 1, c: 2}\nd: *x\ne: !f 1\n").split("\n")
    assert [fault.split(" ")[0] for fault in faults] == [f"f.yaml:{line}:" for line in (2, 3, 4, 5)]


def test_a_million_laughs_are_refused_without_being_written_out() -> None:
    levels = "".join(f"b{n}: &b{n} [{', '.join([f'*b{n - 1}'] * 9)}]\n" for n in range(1, 9))
    assert refusal_of("b0: &b0 [ha]\n" + levels).startswith("f.yaml:2: b1[1]: found an alias")


def test_an_anchor_that_nothing_refers_to_does_no_harm() -> None:
    assert parse_yaml("a: &x 1\n", "f.yaml").data == {"a": 1}


def test_a_tag_that_changes_nothing_does_no_harm() -> None:
    assert parse_yaml("a: !!str butter\n", "f.yaml").data == {"a": "butter"}


def test_a_sign_beyond_the_first_plane_may_stand_as_two_json_escapes() -> None:
    assert parse_yaml('{"a": "\\ud83c\\udf7a"}', "f.json").data == {"a": "\U0001f37a"}


def test_a_directive_of_yaml_1_1_does_not_bring_back_its_words() -> None:
    assert parse_yaml("%YAML 1.1\n---\na: no\n", "f.yaml").data == {"a": "no"}
