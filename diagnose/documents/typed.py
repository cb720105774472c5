"""Plain data with lines to a typed record; what pydantic refuses becomes faults with lines."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from diagnose.documents.document import Document, Path
from diagnose.errors import Fault, UnusableInput

Model = TypeVar("Model", bound=BaseModel)
# A key of another place is offered only where it is hardly to be mistaken; so many are named at
# most. Judgement.
_NEAR_ELSEWHERE, _MOST_NAMED = 0.75, 12
_QUOTES = "inside {} a text with a comma needs quotes, as in {ph: '5,4'}"
_LIST = "a list (each item on a line that starts with '- ')"
_MAPPING = "a mapping (lines of 'key: value', indented below)"
_SHAPES = {
    "tuple_type": _LIST,
    "list_type": _LIST,
    "dict_type": _MAPPING,
    "model_type": _MAPPING,
    "model_attributes_type": _MAPPING,
}


def read_as(document: Document, model: type[Model]) -> Model:
    """The document as a `model`.

    Raises:
        UnusableInput: every fault of the file at once, each with its line.
    """
    try:
        return model.model_validate(document.data)
    except ValidationError as error:
        found = error.errors(include_url=False)
        faults = {_fault(document, dict(one), model) for one in found}
        raise UnusableInput(*sorted(faults)) from error


def _fault(document: Document, error: dict[str, Any], model: type[BaseModel]) -> Fault:
    path = _written_path(document.data, tuple(error["loc"]))
    if error["type"] == "extra_forbidden":
        wanted = _key_wanted(path, model)
        # Behind a comma inside {} a word of a text is read as a key without a value.
        if error.get("input") in (None, "") and _QUOTES not in wanted:
            wanted += f"; {_QUOTES}"
        return document.fault(path, f"an unknown key {path[-1]!r}", wanted)
    if error["type"] == "missing":
        return document.fault(path, "nothing", f"the key {error['loc'][-1]!r}, which is required")
    found, wanted = _sides(error)
    return document.fault(path, found, wanted)


def _written_path(data: Any, loc: Path) -> Path:
    """`loc` without the steps pydantic adds for unions and validators."""
    path: Path = ()
    for step in loc:
        if _holds(data, step):
            data = data[step]
        elif step == loc[-1] and isinstance(data, dict):
            return path
        else:
            continue
        path = (*path, step)
    return path


def _holds(data: Any, step: str | int) -> bool:
    if isinstance(data, list):
        return isinstance(step, int) and step < len(data)
    return isinstance(data, dict) and step in data


def keys_of(model: type[BaseModel]) -> list[str]:
    """Every key of the model and of the models inside it, in the order of the alphabet."""
    return sorted({key for one in _models_within(model) for key in _fields_of(one)})


def _models_within(model: type[BaseModel]) -> list[type[BaseModel]]:
    """The model and every model inside it, each once."""
    found = [model]
    for one in found:
        inner = (part for kinds in _fields_of(one).values() for part in kinds)
        found += [part for part in dict.fromkeys(inner) if part not in found]
    return found


def _fields_of(model: type[BaseModel]) -> dict[str, list[type[BaseModel]]]:
    """Its keys as they are written, each with the models that may stand there."""
    fields = model.model_fields.items()
    return {field.alias or name: list(_models_in(field.annotation)) for name, field in fields}


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _models_in(part)


def _key_wanted(path: Path, model: type[BaseModel]) -> str:
    """What the key may have been meant for: one of this place first, then one of another."""
    key, here = str(path[-1]), _keys_at(path[:-1], model)
    near = get_close_matches(key, here, n=1)
    homes = [home for home in _homes_of(key, model) if home not in path]
    if not near and homes:
        return f"it under {' or '.join(repr(home) for home in homes)}"
    near = near or get_close_matches(key, keys_of(model), n=1, cutoff=_NEAR_ELSEWHERE)
    if near:
        return f"{near[0]!r}, perhaps"
    if key[:1].isdigit() or " " in key:
        return f"a key; {_QUOTES}"
    if 0 < len(here) <= _MOST_NAMED:
        return f"one of {', '.join(here)}"
    return "a key this kind of file knows"


def _keys_at(path: Path, model: type[BaseModel]) -> list[str]:
    """The keys that may stand at a place of the file."""
    models = [model]
    for step in path:
        if isinstance(step, str):
            models = [part for one in models for part in _fields_of(one).get(step, ())]
    return sorted({key for one in models for key in _fields_of(one)})


def _homes_of(key: str, model: type[BaseModel]) -> list[str]:
    """The blocks right below the top that know a key."""
    blocks = _fields_of(model).items()
    return sorted(name for name, parts in blocks if any(key in _fields_of(p) for p in parts))


def _sides(error: dict[str, Any]) -> tuple[str, str]:
    """What was found and what is wanted, from our own message or pydantic's."""
    message = str(error["msg"]).removeprefix("Value error, ")
    if message.startswith("found ") and "; wanted " in message:
        found, _, wanted = message.removeprefix("found ").partition("; wanted ")
        return found, wanted
    shown = error.get("input")
    if error["type"] in _SHAPES:
        return _shape(shown), _SHAPES[error["type"]]
    found = repr(shown) if isinstance(shown, str | int | float | bool) else _shape(shown)
    return found, message[:1].lower() + message[1:]


def _shape(value: Any) -> str:
    if isinstance(value, dict):
        return "a mapping"
    if isinstance(value, list):
        return "a list"
    return "nothing" if value is None else repr(value)
