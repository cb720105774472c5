"""A store as a folder of CSV files with a descriptor, for a spreadsheet or any statistics program.

Source: RFC 4180 (CRLF, quotes doubled, every row of one length); the Frictionless data package
(specs.frictionlessdata.io, tabular data package). Cells that a spreadsheet would run as a formula
are defused as the OWASP page on CSV injection says: an apostrophe goes before them.
"""

import csv
import json
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Final

from diagnose.errors import Fault, UnusableInput
from diagnose.history.csv_tables import TABLES, Rows
from diagnose.history.opening import Store

# A full-width sign starts a formula too where the keyboard is Japanese or Chinese.
_STARTS_A_FORMULA: Final = frozenset("=+-@\t\r\n＝＋－＠")
_NOTE: Final = (
    "A text cell that begins with an apostrophe had it put in front, as a spreadsheet would "
    "have run the cell as a formula or the text began with an apostrophe itself: take one off."
)
DESCRIPTOR: Final = "datapackage.json"


def export_csv(store: Store, folder: Path) -> dict[str, int]:
    """Write the folder, which is whole or not there at all.

    Returns:
        the number of rows by file.

    Raises:
        UnusableInput: there is a file or a folder with something in it at that place.
        StoreUnusable: the store cannot be read.
        OSError: the folder cannot be written.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        found = "a folder with something in it" if folder.is_dir() else "a file"
        raise UnusableInput(Fault(str(folder), 0, "", found, "a new name or an empty folder"))
    folder.parent.mkdir(parents=True, exist_ok=True)
    counts = {}
    with TemporaryDirectory(dir=folder.parent, prefix=".exporting-") as unfinished:
        made = Path(unfinished) / "made"
        made.mkdir()
        for table in TABLES:
            counts[f"{table.name}.csv"] = _write(made / f"{table.name}.csv", table, store)
        text = json.dumps(_descriptor(), indent=2, ensure_ascii=False)
        (made / DESCRIPTOR).write_text(f"{text}\n", "utf-8")
        if folder.exists():
            folder.rmdir()
        made.rename(folder)
    return counts


def _write(file: Path, table: Rows, store: Store) -> int:
    count = 0
    with file.open("w", encoding="utf-8", newline="") as out:
        writer = csv.writer(out, lineterminator="\r\n")
        writer.writerow(table.columns)
        for row in table.rows(store):
            writer.writerow(cells(row[name] for name in table.columns))
            count += 1
    return count


def cells(values: Iterable[Any]) -> Iterator[str]:
    """Values as they stand in a file: nothing for None, and no text that is a formula."""
    for value in values:
        if value is None:
            yield ""
        elif isinstance(value, bool):
            yield "true" if value else "false"
        elif isinstance(value, int | float):
            yield repr(value)
        else:
            yield defused(str(value))


def defused(text: str) -> str:
    """A text with an apostrophe before it where a spreadsheet would take it for a formula."""
    first = text.lstrip(" \u00a0\u3000")[:1]
    return f"'{text}" if text[:1] == "'" or (first in _STARTS_A_FORMULA and first) else text


def _descriptor() -> Mapping[str, Any]:
    return {
        "profile": "tabular-data-package",
        "name": "faultwort-history",
        "title": "Flaw history",
        "description": _NOTE,
        "resources": [_resource(table) for table in TABLES],
    }


def _resource(table: Rows) -> Mapping[str, Any]:
    fields = [
        {"name": name, "type": kind, "description": says}
        for name, (kind, says) in table.columns.items()
    ]
    return {
        "profile": "tabular-data-resource",
        "name": table.name.replace("_", "-"),
        "path": f"{table.name}.csv",
        "description": table.says,
        "format": "csv",
        "mediatype": "text/csv",
        "encoding": "utf-8",
        "dialect": {"delimiter": ",", "lineTerminator": "\r\n", "quoteChar": '"', "header": True},
        "schema": {"fields": fields, "missingValues": [""]},
    }
