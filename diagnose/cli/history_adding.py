"""`history add`, and what became of the files or of a batch's versions."""

from dataclasses import dataclass
from pathlib import Path

import typer

from diagnose.cli.history_doing import now, opened
from diagnose.cli.loading import print_json, shipped_rules, today
from diagnose.errors import Fault, UnusableInput
from diagnose.history.filing import read_filing
from diagnose.history.keeping import Kept, Wish, keep_batch
from diagnose.report import terminal
from diagnose.report.history_pages import print_kept


@dataclass(frozen=True)
class Added:
    """What became of the files: those that were kept, and the faults of the others."""

    kept: tuple[Kept, ...]
    faults: tuple[Fault, ...]


def add_all(
    told: str | None, files: list[Path], wish: tuple[str | None, bool, str | None]
) -> Added:
    """Add each file on its own: one that cannot be read does not keep the others out."""
    of, apart, reason = wish
    rules, kept, faults = shipped_rules(), list[Kept](), list[Fault]()
    with opened(told, create=True) as history:
        for file in files:
            try:
                filing = read_filing(rules, file, today())
                kept.append(keep_batch(history, filing, now(), Wish(of, apart, reason)))
            except UnusableInput as refused:
                faults += refused.faults
    return Added(tuple(kept), tuple(faults))


def print_added(added: Added, as_json: bool) -> None:
    """Say what became of the files.

    Raises:
        UnusableInput: some could not be read; said after the others.
    """
    if as_json:
        faults = [vars(fault) for fault in added.faults]
        kept = [vars(one) for one in added.kept]
        print_json({"schema": "faultwort/history-add/1", "kept": kept, "faults": faults})
    else:
        print_kept(terminal(), added.kept)
    if added.faults:
        raise UnusableInput(*added.faults)


def print_returned(kept: Kept, as_json: bool) -> None:
    """Say which version is the current one now."""
    if as_json:
        print_json({"schema": "faultwort/history-version/1", **vars(kept)})
    else:
        typer.echo(f"{kept.key} is at version {kept.number} now; the earlier ones are kept.")
