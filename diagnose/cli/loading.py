"""What commands need before they can answer: the rules, today's date, a batch, JSON out.

The rooms are imported where they are used: a command waits for no other command's rooms.
"""

import json
import os
import sys
from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

from diagnose.errors import DamagedInstallation, UnusableInput
from diagnose.shipped import shipped
from diagnose.shipped.cache_folder import cache_folder

if TYPE_CHECKING:
    from diagnose.batch import Batch
    from diagnose.flavour import Lexicon
    from diagnose.knowledge import RuleBase

Rules = TypeVar("Rules")


def today() -> date:
    """Today, by the clock of the place."""
    return date.today()


def shipped_rules() -> "RuleBase":
    """The rule base that ships with Faultwort.

    Raises:
        DamagedInstallation: it cannot be read.
    """
    from diagnose.knowledge.compiled import compiled_rules

    return _of_the_shipped(compiled_rules)


def shipped_lexicon() -> "Lexicon":
    """The words that ship with Faultwort.

    Raises:
        DamagedInstallation: they cannot be read.
    """
    from diagnose.flavour.compiled import compiled_lexicon

    return _of_the_shipped(compiled_lexicon)


def _of_the_shipped(compiled: Callable[[Path, Path | None], Rules]) -> Rules:
    try:
        return compiled(shipped("rules"), cache_folder(os.environ, sys.platform))
    except UnusableInput as error:
        raise DamagedInstallation(f"the rule base cannot be read:\n{error}") from error


def batch_at(path: Path | None) -> "Batch":
    """The batch in a file or in a case's folder; an empty one when no path is given."""
    from diagnose.batch import empty_batch, read_batch

    if path is None:
        return empty_batch("this beer", Path())
    return read_batch(path / "batch.yaml" if path.is_dir() else path, today())


def print_json(document: Any) -> None:
    """One JSON document on stdout; a number that is not finite is a defect and raises.

    In ASCII, so that it is the same document on a terminal or in a pipe of any encoding.
    """
    print(json.dumps(document, indent=2, allow_nan=False))
