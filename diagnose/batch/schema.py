"""The JSON Schema of the batch record, as published beside this module."""

import json
from pathlib import Path
from typing import Any

from diagnose.batch.record import BatchRecord

PUBLISHED = Path(__file__).with_name("batch_record.schema.json")


def record_schema() -> dict[str, Any]:
    """The JSON Schema (2020-12) of a batch record, from the models themselves."""
    schema = BatchRecord.model_json_schema()
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}


def schema_text() -> str:
    """The schema as it stands in the published file."""
    return json.dumps(record_schema(), indent=1, sort_keys=True) + "\n"
