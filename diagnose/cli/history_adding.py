"""`history add`, and what became of the files or of a batch's versions."""

from dataclasses import dataclass
from pathlib import Path

from diagnose.cli.history_doing import now, opened, say
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
    _refuse_at_odds(files, of, apart=apart)
    rules, kept, faults = shipped_rules(), list[Kept](), list[Fault]()
    with opened(told, create=True) as history:
        for file in files:
            try:
                filing = read_filing(rules, file, today())
                kept.append(keep_batch(history, filing, now(), Wish(of, apart, reason)))
            except UnusableInput as refused:
                faults += refused.faults
    return Added(tuple(kept), tuple(faults))


def _refuse_at_odds(files: list[Path], of: str | None, *, apart: bool) -> None:
    if of is not None and apart:
        raise UnusableInput(Fault("history add", 0, "", "both --of and --apart", "one of the two"))
    if of is not None and len(files) > 1:
        found, wanted = f"{len(files)} files for one batch", "one file with --of"
        raise UnusableInput(Fault("history add", 0, "--of", found, wanted))


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
        say(_returned(kept))


def _returned(kept: Kept) -> str:
    if kept.of_number:
        back = f"{kept.key} is as it was in version {kept.of_number}"
        return f"{back}; that is version {kept.number} now, and the earlier ones are kept."
    return (
        f"{kept.key} is withdrawn; that is version {kept.number} now. It is kept, and no list or "
        f"statistic counts it; 'faultwort history undo {kept.key}' brings it back."
    )
