"""The JSON Schema of the batch record, as published beside this module."""

import json
from pathlib import Path
from typing import Any

from pydantic.json_schema import GenerateJsonSchema

from diagnose.batch.record import BatchRecord

PUBLISHED = Path(__file__).with_name("batch_record.schema.json")


class _WithoutDefaults(GenerateJsonSchema):
    """Says nothing of defaults: "not logged" has no place in JSON but the key's absence."""

    ignored_warning_kinds = {"non-serializable-default", "skipped-choice"}  # noqa: RUF012


def record_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a batch record, from the models themselves."""
    schema = BatchRecord.model_json_schema(schema_generator=_WithoutDefaults)
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def schema_text() -> str:
    """The schema as it stands in the published file."""
    return json.dumps(record_schema(), indent=1, sort_keys=True) + "\n"
