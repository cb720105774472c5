"""From a split that was read, or a spiked session, to a note in the store."""

import json
import re
from collections.abc import Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from diagnose.cli.loading import shipped_rules
from diagnose.consult.splits import ReadBack, read_back, reading_kept
from diagnose.documents import read_text
from diagnose.errors import Fault, UnreadableQuantity, UnusableInput
from diagnose.knowledge import fold
from diagnose.sensory.methods import method_named
from diagnose.units import Field, read_quantity

_SCHEMA = "faultwort/split-read/1"
_COUNT = re.compile(r"\s*(\d+)\s*(?:of|/)\s*(\d+)\s*", re.IGNORECASE)


def split_note(path: Path, arms: tuple[str, ...]) -> Mapping[str, Any]:
    """A split as it was read: its folder, or the file with what was printed.

    Raises:
        UnusableInput: the file is not what `split read --json` prints, or the panel in the folder
            cannot be read yet.
    """
    try:
        reading = _read_in(path) if path.is_dir() else json.loads(read_text(path))
        cause = str(reading["ratios"][0]["cause"])
        told = reading["schema"] == _SCHEMA
    except (ValueError, KeyError, IndexError, TypeError):
        told, cause, reading = False, "", {}
    if not told:
        wanted = "the folder of a split, or what 'faultwort split read FOLDER --json' prints"
        raise UnusableInput(Fault(str(path), 0, "", "something else", wanted))
    settings = ("suspect", "other")
    return {
        "name": str(reading["batch"]),
        "cause": cause,
        "arms": [
            {"batch": arm, "setting": settings[min(place, 1)]} for place, arm in enumerate(arms)
        ],
        "reading": reading,
    }


def _read_in(folder: Path) -> Any:
    """The reading kept in a folder, with the chances it was read with; else it is read now."""
    kept = reading_kept(folder)
    if kept is not None:
        return kept
    now = datetime.now().astimezone().isoformat(timespec="seconds")
    return read_back(folder, ReadBack(now)).model_dump(mode="json", by_alias=True)


def spiked_note(
    named: tuple[str, str], right: str, method: str, dose: str | None
) -> Mapping[str, Any]:
    """How often a taster found a known addition.

    Raises:
        UnusableInput: a test, a compound, a count or a dose that cannot be read.
    """
    taster, compound = named
    cards = shipped_rules().compounds
    known = next((c for c in cards.values() if fold(compound) in (fold(c.id), fold(c.name))), None)
    if known is None:
        wanted = "a compound, as 'faultwort rules list compounds' shows them"
        raise _refused("compound", compound, wanted)
    match = _COUNT.fullmatch(right)
    if match is None or int(match[1]) > int(match[2]) or not int(match[2]):
        raise _refused("right", right, "how often right and how often asked, as '4 of 6'")
    counts = {"correct": int(match[1]), "trials": int(match[2])}
    result = {"taster": taster, "compound": known.id, **counts, **_dose(dose)}
    typed = f"{right} of a known addition"
    return {"method": method_named(method).id, "results": [result], "typed": typed}


def _dose(dose: str | None) -> Mapping[str, Any]:
    if dose is None:
        return {}
    try:
        read = read_quantity(dose, Field.CONCENTRATION)
    except UnreadableQuantity as error:
        fault = Fault("history spiked", 0, "--dose", error.found, error.wanted)
        raise UnusableInput(fault) from error
    return {"dose": read.value, "dose_unit": read.unit}


def _refused(key: str, found: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault("history spiked", 0, key, repr(found), wanted))
