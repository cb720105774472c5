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

from diagnose.errors import DamagedInstallation, Fault, UnusableInput
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


def batch_at(path: Path | None, store: str | None = None) -> "Batch":
    """The batch in a file, in a case's folder or in the history; an empty one without a path.

    Args:
        path: the file or folder, else the batch as 'history list' shows it, or its beginning.
        store: the history's place as typed; None for the brewer's own.

    Raises:
        UnusableInput: there is none, or it cannot be read.
    """
    from diagnose.batch import empty_batch, read_batch

    if path is None:
        return empty_batch("this beer", Path())
    # A folder or an ending is a file's; only a bare name can be a batch of the history.
    if path.exists() or path.suffix or path.name != str(path):
        return read_batch(path / "batch.yaml" if path.is_dir() else path, today())
    return _kept_batch(str(path), store)


def _kept_batch(typed: str, store: str | None) -> "Batch":
    from diagnose.cli.history_doing import opened
    from diagnose.history.place import place_of
    from diagnose.history.replaying import kept_batch

    found, file = None, place_of(store).file
    if file is None or file.exists():
        with opened(store) as history:
            found = kept_batch(history, typed, today())
    if found is None:
        wanted = "the path of a file that exists, or a batch that 'faultwort history list' shows"
        raise UnusableInput(Fault(typed, 0, "", "no such file or batch", wanted))
    return found


def print_json(document: Any) -> None:
    """One JSON document on stdout; a number that is not finite is a defect and raises.

    In ASCII, so that it is the same document on a terminal or in a pipe of any encoding.
    """
    print(json.dumps(document, indent=2, allow_nan=False))
