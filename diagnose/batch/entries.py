"""What one entry of a record can be: a reading, a word of a list, text, or not logged.

An entry that is absent, empty or `unknown` is `NOT_LOGGED`, a value of its own, never None
and never 0.
"""

from collections.abc import Callable, Iterator
from difflib import get_close_matches
from typing import Annotated, Any, Final, TypeAlias, TypeVar

from pydantic import BaseModel, ConfigDict, PlainValidator, WithJsonSchema

from diagnose.documents import Path
from diagnose.units import Field, Reading, read_quantity

UNKNOWN: Final = ("unknown", "not known", "?", "")
Value = TypeVar("Value")


class NotLogged:
    """The value of an entry nobody wrote down."""

    def __repr__(self) -> str:
        return "not logged"

    def __bool__(self) -> bool:
        return False


NOT_LOGGED: Final = NotLogged()


class Section(BaseModel):
    """A part of the record: frozen, and refusing keys it does not know."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True
    )


def logged_entries(section: Section, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every entry that was written down, with its path: readings, words, texts and moments."""
    for key in type(section).model_fields:
        yield from _entries_of(getattr(section, key), (*path, key))


def _entries_of(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    if isinstance(value, Section):
        yield from logged_entries(value, path)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from _entries_of(item, (*path, index))
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from _entries_of(item, (*path, key))
    elif not isinstance(value, NotLogged):
        yield path, value


def optional(read: Callable[[str], Value]) -> Callable[[Any], Value | NotLogged]:
    """`read`, but an empty or unknown entry is NOT_LOGGED and a list or mapping is refused."""

    def read_or_not_logged(typed: Any) -> Value | NotLogged:
        if typed is None or isinstance(typed, NotLogged):
            return NOT_LOGGED
        if isinstance(typed, dict | list):
            raise ValueError(f"found a {_shape(typed)}; wanted one entry on this line")
        text = str(typed).strip()
        return NOT_LOGGED if text.casefold() in UNKNOWN else read(text)

    return read_or_not_logged


def _shape(typed: Any) -> str:
    return "list" if isinstance(typed, list) else "mapping"


def _quantity(field: Field) -> Callable[[Any], Reading | NotLogged]:
    return optional(lambda text: read_quantity(text, field))


def one_of(*words: str) -> Callable[[Any], str | NotLogged]:
    """A validator for an entry that takes one of `words` (case and hyphens do not matter)."""
    known = {_folded(word): word for word in words}

    def read(text: str) -> str:
        if _folded(text) in known:
            return known[_folded(text)]
        near = get_close_matches(_folded(text), list(known), n=1)
        hint = f" ({known[near[0]]!r}, perhaps?)" if near else ""
        raise ValueError(f"found {text!r}; wanted one of {', '.join(words)}{hint}")

    return optional(read)


def _folded(text: str) -> str:
    return " ".join(text.casefold().replace("-", " ").replace("_", " ").split())


def _written(example: str, field: Field) -> WithJsonSchema:
    note = f"A quantity with its unit as text, for example {example!r}; or 'unknown'."
    return WithJsonSchema(
        {"type": ["string", "number", "null"], "description": note, "x-base-unit": field.unit}
    )


def words_schema(*words: str) -> WithJsonSchema:
    """The JSON Schema of an entry that takes one of `words`."""
    return WithJsonSchema({"enum": [*words, "unknown", None]})


_ANY_TEXT = WithJsonSchema({"type": ["string", "number", "null"]})
Entry: TypeAlias = Reading | NotLogged
Word: TypeAlias = str | NotLogged

Temperature = Annotated[
    Entry, PlainValidator(_quantity(Field.TEMPERATURE)), _written("66 F", Field.TEMPERATURE)
]
Volume = Annotated[
    Entry, PlainValidator(_quantity(Field.VOLUME)), _written("3.5 US gal", Field.VOLUME)
]
Mass = Annotated[Entry, PlainValidator(_quantity(Field.MASS)), _written("2 lb 8 oz", Field.MASS)]
Gravity = Annotated[
    Entry, PlainValidator(_quantity(Field.GRAVITY)), _written("1.052", Field.GRAVITY)
]
Duration = Annotated[
    Entry, PlainValidator(_quantity(Field.DURATION)), _written("60 min", Field.DURATION)
]
Concentration = Annotated[
    Entry, PlainValidator(_quantity(Field.CONCENTRATION)), _written("0.5 mg/L", Field.CONCENTRATION)
]
Acidity = Annotated[Entry, PlainValidator(_quantity(Field.PH)), _written("5.4", Field.PH)]
Percent = Annotated[Entry, PlainValidator(_quantity(Field.PERCENT)), _written("5 %", Field.PERCENT)]
Cells = Annotated[
    Entry, PlainValidator(_quantity(Field.CELLS)), _written("200 billion", Field.CELLS)
]
Carbonation = Annotated[
    Entry, PlainValidator(_quantity(Field.CARBONATION)), _written("2.4 volumes", Field.CARBONATION)
]
Text = Annotated[Word, PlainValidator(optional(str)), _ANY_TEXT]
YesNo = Annotated[Word, PlainValidator(one_of("yes", "no")), words_schema("yes", "no")]
