"""The published JSON Schema says what the reader reads."""

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from diagnose.batch.schema import PUBLISHED, record_schema, schema_text
from diagnose.documents import parse_yaml
from diagnose.shipped import shipped
from tests.batch.written import FULL, faults_of, nested

SCHEMA = record_schema()
RECORDS = sorted(shipped("cases").rglob("batch.yaml"))


def complaints(text: str) -> list[str]:
    data = parse_yaml(text, "batch.yaml", as_typed=True).data
    return [error.message for error in Draft202012Validator(SCHEMA).iter_errors(data)]


def objects(schema: dict[str, Any]) -> list[dict[str, Any]]:
    return [schema, *schema["$defs"].values()]


def test_the_published_schema_is_current() -> None:
    assert PUBLISHED.read_text("utf-8") == schema_text()


def test_the_schema_is_valid_json_schema_of_2020_12() -> None:
    assert SCHEMA["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMA)


def test_the_schema_accepts_a_record_with_every_entry() -> None:
    assert complaints(FULL) == []


@pytest.mark.parametrize("path", RECORDS, ids=[path.parent.name for path in RECORDS])
def test_the_schema_accepts_every_shipped_record(path: Path) -> None:
    assert complaints(path.read_text("utf-8")) == []


def test_every_part_of_the_schema_is_closed() -> None:
    assert {part["additionalProperties"] for part in objects(SCHEMA)} == {False}


def test_no_entry_of_the_schema_is_required() -> None:
    assert [part["title"] for part in objects(SCHEMA) if part.get("required")] == []


def test_every_quantity_names_the_unit_it_is_kept_in() -> None:
    entries = [entry for part in objects(SCHEMA) for entry in part["properties"].values()]
    units = {entry["x-base-unit"] for entry in entries if "x-base-unit" in entry}
    wanted = {"C", "L", "g", "SG", "h", "mg/L", "pH", "%", "billion cells", "volumes"}
    assert units == wanted


# Source of the table: the record's own models; what the reader refuses by its shape.
REFUSED = [
    *("colour: red", "mash: {temp: 66 C}", "recipe: {hops: [{alfa: 5 %}]}"),
    *("packaging: {package: jug}", "water: {source: tap}", "boil: [60 min]", "boil: {time: [1 h]}"),
    *("gravity: {readings: {ph: 4.4}}", "fault: [first_weeks]", "- style: bitter"),
]


@pytest.mark.parametrize("text", REFUSED)
def test_the_schema_refuses_what_the_reader_refuses(text: str) -> None:
    assert complaints(text)
    assert faults_of(text)


@pytest.mark.parametrize(
    "path", ["mash.at", "packaging.package", "brewed", "notes", "fault.spread"]
)
@pytest.mark.parametrize("value", ["unknown", "~"])
def test_the_schema_accepts_unknown_for_any_kind_of_entry(path: str, value: str) -> None:
    assert complaints(nested(path, value)) == []
