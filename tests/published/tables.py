"""Tables of printed figures, and the models they are held against."""

import inspect
from collections.abc import Callable
from importlib import import_module
from pathlib import Path
from typing import Any

from diagnose.documents import parse_yaml, read_text
from tests.process.cards import constants

FOLDER = Path(__file__).parent
_ROOMS = {"units": "diagnose.units", "combined": "tests.published.combined"}

Row = dict[str, Any]


def rows_of(*tables: str) -> list[Row]:
    documents = [parse_yaml(read_text(FOLDER / f"{table}.yaml"), table) for table in tables]
    return [row for document in documents for row in document.data]


def answer_of(row: Row) -> float:
    model = _model(row["model"])
    values = {**constants(), **row.get("constants", {})}
    if "constants" in inspect.signature(model).parameters:
        return float(model(**row["given"], constants=values))
    return float(model(**row["given"]))


def _model(dotted: str) -> Callable[..., float]:
    room, name = dotted.split(".")
    module = import_module(_ROOMS.get(room, f"diagnose.process.{room}"))
    model: Callable[..., float] = getattr(module, name)
    return model
