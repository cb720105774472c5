"""Plain data with lines to a typed record; what pydantic refuses becomes faults with lines."""

from collections.abc import Iterator
from difflib import get_close_matches
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError

from diagnose.documents.document import Document, Path
from diagnose.errors import Fault, UnusableInput

Model = TypeVar("Model", bound=BaseModel)
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
        known = keys_of(model)
        found = error.errors(include_url=False)
        faults = {_fault(document, dict(one), known) for one in found}
        raise UnusableInput(*sorted(faults)) from error


def _fault(document: Document, error: dict[str, Any], known: list[str]) -> Fault:
    path = _written_path(document.data, tuple(error["loc"]))
    if error["type"] == "extra_forbidden":
        return document.fault(path, f"an unknown key {path[-1]!r}", _near_key(str(path[-1]), known))
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
    open_, seen, keys = [model], {model}, set[str]()
    while open_:
        for name, field in open_.pop().model_fields.items():
            keys.add(field.alias or name)
            inner = set(_models_in(field.annotation)) - seen
            seen |= inner
            open_ += inner
    return sorted(keys)


def _models_in(annotation: Any) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for part in get_args(annotation):
        yield from _models_in(part)


def _near_key(key: str, known: list[str]) -> str:
    near = get_close_matches(key, known, n=1)
    if near:
        return f"{near[0]!r}, perhaps"
    if key[:1].isdigit() or " " in key:
        return "a key; inside {} a text with a comma needs quotes, as in {ph: '5,4'}"
    return "a key this kind of file knows"


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
