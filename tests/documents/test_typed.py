"""Plain data to a typed record: every fault at once, each with its line and a next step."""

from typing import Annotated, Literal

import pytest
from pydantic import BaseModel, ConfigDict, Field, PlainValidator

from diagnose.documents import Number, parse_yaml, read_as
from diagnose.errors import UnusableInput


def _even(value: object) -> int:
    if not isinstance(value, int) or value % 2:
        raise ValueError(f"found {value!r}; wanted an even number")
    return value


class Hop(BaseModel):
    model_config = ConfigDict(extra="forbid")

    name: str
    minutes: float = 60.0


class Brew(BaseModel):
    model_config = ConfigDict(extra="forbid")

    title: str
    kind: Literal["ale", "lager"] = "ale"
    pairs: Annotated[int, PlainValidator(_even)] = 0
    hops: tuple[Hop, ...] = ()
    first: Hop | None = None
    shares: dict[str, float] = Field(default_factory=dict)


def faults_of(text: str) -> list[str]:
    with pytest.raises(UnusableInput) as refused:
        read_as(parse_yaml(text, "f.yaml"), Brew)
    return str(refused.value).split("\n")


# Source of the table: common practice, no source; one slip each.
SLIPS = [
    ("title: x\nkind: stout\n", "f.yaml:2: kind: found 'stout'; wanted input should be 'ale' or"),
    ("title: x\npairs: 3\n", "f.yaml:2: pairs: found 3; wanted an even number"),
    ("kind: ale\n", "f.yaml:1: found nothing; wanted the key 'title', which is required"),
    (
        "title: x\nhops:\n  - name: a\n  - minutes: 5\n",
        "f.yaml:4: hops[2]: found nothing; wanted the key 'name', which is required",
    ),
    ("title: x\nhop: []\n", "f.yaml:2: hop: found an unknown key 'hop'; wanted 'hops', perhaps"),
    (
        "title: x\nhops:\n  - name: a\n    minuts: 5\n",
        "f.yaml:4: hops[1].minuts: found an unknown key 'minuts'; wanted 'minutes', perhaps",
    ),
    (
        "title: x\nbalderdash: 1\n",
        "f.yaml:2: balderdash: found an unknown key 'balderdash'; wanted one of first, hops,",
    ),
    (
        "title: x\nminutes: 5\n",
        "f.yaml:2: minutes: found an unknown key 'minutes'; wanted it under 'first' or",
    ),
    ("title: x\nhops: {name: a}\n", "f.yaml:2: hops: found a mapping; wanted a list (each item on"),
    ("title: x\nhops: [a]\n", "f.yaml:2: hops[1]: found 'a'; wanted a mapping (lines of 'key:"),
    ("title: x\nhops:\n  -\n", "f.yaml:3: hops[1]: found nothing; wanted a mapping (lines of"),
    ("title: x\nshares: [1]\n", "f.yaml:2: shares: found a list; wanted a mapping (lines of"),
    (
        "title: x\nshares:\n  a: 1\n  b: x\n",
        "f.yaml:4: shares.b: found 'x'; wanted input should be",
    ),
    ("title: x\nfirst:\n  name: [1]\n", "f.yaml:3: first.name: found a list; wanted input should"),
    (
        "- title\n",
        "f.yaml:1: found a list; wanted a mapping (lines of 'key: value', indented below)",
    ),
    ("just words\n", "f.yaml:1: found 'just words'; wanted a mapping (lines of 'key: value'"),
    ("null\n", "f.yaml:1: found nothing; wanted a mapping (lines of 'key: value'"),
]


@pytest.mark.parametrize(("text", "said"), SLIPS, ids=lambda text: repr(text)[:30])
def test_a_slip_is_named_with_its_line(text: str, said: str) -> None:
    (fault,) = faults_of(text)
    assert fault.startswith(said)


def test_all_faults_of_a_file_come_at_once_in_the_order_of_its_lines() -> None:
    text = "title: [x]\nhops:\n  - name: a\n    minutes: soon\n  - minuts: 5\nkind: stout\nodd: 1\n"
    lines = [int(fault.split(":")[1]) for fault in faults_of(text)]
    assert lines == [1, 4, 5, 5, 6, 7]


def test_data_without_faults_become_the_record() -> None:
    text = "title: x\nhops: [{name: a}]\nfirst: {name: b, minutes: 5}\n"
    wanted = Brew(title="x", hops=(Hop(name="a"),), first=Hop(name="b", minutes=5))
    assert read_as(parse_yaml(text, "f.yaml"), Brew) == wanted


# Source of the table: the house; what a number of the trade must carry.
NUMBERS = [
    ("{value: 2, low: 3, high: 4, basis: practice, source: a}", "found low 3, value 2, high 4;"),
    (
        "{value: .nan, low: 0, high: 1, basis: practice, source: a}",
        "wanted input should be a finite",
    ),
    (
        "{value: 1, low: 0, high: .inf, basis: practice, source: a}",
        "wanted input should be a finite",
    ),
    ("{value: 1, low: 0, high: 2, basis: hearsay, source: a}", "found 'hearsay'; wanted"),
    ("{value: 1, low: 0, high: 2, basis: practice, source: ''}", "source: found ''; wanted"),
    ("{value: 1, low: 0, high: 2, basis: practice}", "wanted the key 'source', which is required"),
    ("{value: 1, low: 0, high: 2, source: a}", "wanted the key 'basis', which is required"),
]


@pytest.mark.parametrize(("text", "said"), NUMBERS)
def test_a_number_without_range_basis_or_source_is_refused(text: str, said: str) -> None:
    with pytest.raises(UnusableInput) as refused:
        read_as(parse_yaml(text, "f.yaml"), Number)
    assert said in str(refused.value)
