"""Tables of printed figures, and the models they are held against."""

import inspect
from collections import Counter
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


def tables_listed() -> list[str]:
    """One line for each table: rows by kind, and the source in its first line; then the total."""
    paths = sorted(FOLDER.glob("*.yaml"))
    kinds = sum((_kinds(path) for path in paths), Counter[str]())
    counted = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    return [*map(_listed, paths), f"all: {kinds.total()} rows ({counted})"]


def _kinds(path: Path) -> Counter[str]:
    return Counter(str(row.get("kind", path.stem)) for row in rows_of(path.stem))


def _listed(path: Path) -> str:
    kinds = _kinds(path)
    counted = ", ".join(f"{count} {kind}" for kind, count in sorted(kinds.items()))
    source = path.read_text(encoding="utf-8").splitlines()[0].lstrip("# ")
    return f"{path.stem}: {kinds.total()} rows ({counted}); {source}"


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
