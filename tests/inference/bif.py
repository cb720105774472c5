"""Tables of a network in the Interchange Format, in double precision."""

import re
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats

STATES = ("off", "on")
VARIABLE = re.compile(r"variable (\w+) \{\s*type discrete \[ 2 \] \{ off, on \};\s*\}")
TABLE = re.compile(r"probability \( (\w+)(?: \| ([^)]*?))? \) \{(.*?)\}", re.DOTALL)
ROW = re.compile(r"(?:\(([^)]*)\)|table) (\S+), (\S+);")


@dataclass(frozen=True)
class Table:
    """The probabilities of one variable; the parents' axes first, in their order, its own last."""

    name: str
    parents: tuple[str, ...]
    values: Floats


def read_tables(text: str) -> dict[str, Table]:
    """Every table of the text by the name of its variable, parents before their children."""
    tables = {}
    for name, given, rows in TABLE.findall(text):
        parents = tuple(given.split(", ")) if given else ()
        values = np.full((2,) * (len(parents) + 1), np.nan)
        for setting, off, on in ROW.findall(rows):
            labels = setting.split(", ") if setting else []
            values[tuple(STATES.index(label) for label in labels)] = float(off), float(on)
        tables[name] = Table(name, parents, values)
    if sorted(tables) != sorted(VARIABLE.findall(text)):
        raise ValueError("found a variable without a table, or a table without a variable")
    return tables
