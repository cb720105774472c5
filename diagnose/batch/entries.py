"""What one entry of a record can be: a reading, a word of a list, text, or not logged.

An entry that is absent, empty or `unknown` is `NOT_LOGGED`, a value of its own, never None
and never 0.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Annotated, Any, Final, TypeAlias, TypeVar

from pydantic import BaseModel, ConfigDict, GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

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


@dataclass(frozen=True)
class ReadBy:
    """How what was typed becomes the value of an entry, and what its JSON Schema says of it.

    One annotation in place of a validator and a schema: a record has two hundred entries, and
    each start of the program makes the schema of them all.
    """

    read: Callable[[Any], Any]
    json_schema: Mapping[str, Any]

    def __get_pydantic_core_schema__(self, _: Any, __: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, _: CoreSchema, __: GetJsonSchemaHandler) -> Any:
        return dict(self.json_schema)


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


def _one_of(words: Sequence[str]) -> Callable[[Any], str | NotLogged]:
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


def chosen_from(*words: str) -> ReadBy:
    """An entry that takes one of `words`; case and hyphens do not matter."""
    return ReadBy(_one_of(words), {"enum": [*words, "unknown", None]})


def _quantity(field: Field, example: str) -> ReadBy:
    note = f"A quantity with its unit as text, for example {example!r}; or 'unknown'."
    schema = {"type": ["string", "number", "null"], "description": note, "x-base-unit": field.unit}
    return ReadBy(optional(lambda text: read_quantity(text, field)), schema)


Entry: TypeAlias = Reading | NotLogged
Word: TypeAlias = str | NotLogged

Temperature = Annotated[Entry, _quantity(Field.TEMPERATURE, "66 F")]
Volume = Annotated[Entry, _quantity(Field.VOLUME, "3.5 US gal")]
Mass = Annotated[Entry, _quantity(Field.MASS, "2 lb 8 oz")]
Gravity = Annotated[Entry, _quantity(Field.GRAVITY, "1.052")]
Duration = Annotated[Entry, _quantity(Field.DURATION, "60 min")]
Concentration = Annotated[Entry, _quantity(Field.CONCENTRATION, "0.5 mg/L")]
Acidity = Annotated[Entry, _quantity(Field.PH, "5.4")]
Percent = Annotated[Entry, _quantity(Field.PERCENT, "5 %")]
Cells = Annotated[Entry, _quantity(Field.CELLS, "200 billion")]
Carbonation = Annotated[Entry, _quantity(Field.CARBONATION, "2.4 volumes")]
Text = Annotated[Word, ReadBy(optional(str), {"type": ["string", "number", "null"]})]
YesNo = Annotated[Word, chosen_from("yes", "no")]
