"""Laws of the whole way from a record to its answers: any usable record gets them."""

import copy
import json
from datetime import date
from pathlib import Path as Folder
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from diagnose.batch import Batch, batch_from, logged_entries
from diagnose.consult import check_batch, consult_on, diagnose, show_batch
from diagnose.documents import Path, parse_yaml
from diagnose.documents.yaml12 import dotted
from diagnose.errors import UnusableInput
from diagnose.knowledge import RuleBase
from diagnose.units import Reading
from tests.batch.written import FULL, batch_of

TODAY = date(2026, 11, 25)
DATA = parse_yaml(FULL, "full", as_typed=True).data
del DATA["fermentation"]["probe_log"]
ENTRIES = list(logged_entries(batch_of(json.dumps(DATA)).record))
PATHS = {dotted(path): path for path, _ in ENTRIES}
# Far ends of what can be written, and the usual; by the unit that a reading is kept in.
ENDS = {
    "C": ["0 C", "-1 C", "45 C", "20-25 C", "about 4 C"],
    "L": ["1 mL", "100000 L", "19 L"],
    "g": ["0 g", "0.1 g", "10000 kg", "30 g"],
    "SG": ["1.000", "0.990", "1.200", "1.050"],
    "h": ["0 min", "1 s", "90 years", "10 days"],
    "mg/L": ["0 mg/L", "1000000 mg/L", "5 mg/L"],
    "pH": ["0", "14", "5.4"],
    "%": ["0 %", "100 %", "5 %"],
    "billion cells": ["0 billion", "100000 billion"],
    "volumes": ["0 volumes", "15 volumes"],
}
STYLES = st.sampled_from(["pale ale", "pale lager", "wheat ale", "dry stout", "saison"])
# For each entry: left out, as in the full record, or one of the far ends.
choices = st.lists(st.integers(-2, 4), min_size=len(ENTRIES), max_size=len(ENTRIES))
slowly = settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])


def place_of(data: dict[str, Any], path: Path) -> Any:
    """What holds the entry at `path`."""
    place: Any = data
    for step in path[:-1]:
        place = place[step]
    return place


def changed(choices: list[int], style: str) -> dict[str, Any]:
    data = copy.deepcopy(DATA)
    for (path, entry), choice in zip(ENTRIES, choices, strict=True):
        if choice < -1:
            del place_of(data, path)[path[-1]]
        elif choice >= 0 and isinstance(entry, Reading):
            ends = ENDS[entry.unit]
            place_of(data, path)[path[-1]] = ends[choice % len(ends)]
    return {**data, "style": style}


def usable(data: dict[str, Any]) -> Batch:
    """The batch, less the entries that are refused; each is named by its fault."""
    try:
        document = parse_yaml(json.dumps(data), "batch.json", as_typed=True)
        return batch_from(document, Folder(), TODAY)
    except UnusableInput as refused:
        for key in {fault.key for fault in refused.faults}:
            del place_of(data, PATHS[key])[PATHS[key][-1]]
        return usable(data)


@slowly
@given(choices, STYLES)
def test_any_usable_record_is_checked_shown_and_diagnosed(
    rules: RuleBase, choices: list[int], style: str
) -> None:
    consultation = consult_on(rules, usable(changed(choices, style)), ["buttery, sour"])
    for answer in (check_batch(rules, consultation), show_batch(rules, consultation)):
        json.dumps(answer.model_dump(mode="json"), allow_nan=False)
    diagnosis = diagnose(rules, consultation)
    json.dumps(diagnosis.model_dump(mode="json"), allow_nan=False)
    assert all(
        0 <= cause.responsible <= cause.happened + 1e-9 <= 1 + 2e-9
        for group in diagnosis.faults
        for cause in group.causes
    )
