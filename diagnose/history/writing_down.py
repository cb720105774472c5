"""How data is put into words for the store: JSON that is the same bytes for the same data."""

import json
import math
import re
from datetime import UTC, datetime
from typing import Any, Final

_NOT_A_LETTER: Final = re.compile(r"[\W_]+")


def compact(data: Any) -> str:
    """JSON in one line with sorted keys; a number that is not finite is written as its name."""
    return json.dumps(
        _finite(data), sort_keys=True, ensure_ascii=False, separators=(",", ":"), allow_nan=False
    )


def _finite(data: Any) -> Any:
    if isinstance(data, float) and not math.isfinite(data):
        return repr(data)
    if isinstance(data, dict):
        return {str(key): _finite(value) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [_finite(item) for item in data]
    return data


def stamp(moment: datetime) -> str:
    """A moment as the store writes it: ISO 8601, UTC, whole seconds."""
    return moment.astimezone(UTC).replace(microsecond=0).isoformat().replace("+00:00", "Z")


def slug(words: str) -> str:
    """Words as part of a key: lower case, one hyphen between them."""
    return _NOT_A_LETTER.sub("-", words.casefold()).strip("-") or "batch"
