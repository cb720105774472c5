"""What commands need before they can answer: the rules, today's date, a batch, JSON out."""

import json
from datetime import date
from pathlib import Path
from typing import Any

from diagnose.batch import Batch, empty_batch, read_batch
from diagnose.errors import DamagedInstallation, UnusableInput
from diagnose.knowledge import RuleBase, load_rules
from diagnose.shipped import shipped


def today() -> date:
    """Today, by the clock of the place."""
    return date.today()


def shipped_rules() -> RuleBase:
    """The rule base that ships with Faultwort.

    Raises:
        DamagedInstallation: it cannot be read.
    """
    try:
        return load_rules(shipped("rules"))
    except UnusableInput as error:
        raise DamagedInstallation(f"the rule base cannot be read:\n{error}") from error


def batch_at(path: Path | None) -> Batch:
    """The batch in a file or in a case's folder; an empty one when no path is given."""
    if path is None:
        return empty_batch("this beer", Path())
    return read_batch(path / "batch.yaml" if path.is_dir() else path, today())


def print_json(document: Any) -> None:
    """One JSON document on stdout; a number that is not finite is a defect and raises.

    In ASCII, so that it is the same document on a terminal or in a pipe of any encoding.
    """
    print(json.dumps(document, indent=2, allow_nan=False))
