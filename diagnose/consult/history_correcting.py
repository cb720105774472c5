"""What an instrument's error means for past batches: offered, and put right when asked."""

from collections.abc import Sequence
from datetime import datetime
from difflib import get_close_matches
from re import sub

from diagnose.answers.history_learning import CorrectedBatch, CorrectedEntry, HistoryCorrected
from diagnose.consult.entry_names import entry_names
from diagnose.documents.document import dotted
from diagnose.errors import Fault, UnusableInput
from diagnose.history.correcting import (
    OffCheck,
    Spoiled,
    check_called,
    correct,
    in_doubt,
    named_parts,
    off_checks,
    spoiled,
)
from diagnose.history.off_by import off_by
from diagnose.history.opening import Store
from diagnose.knowledge import RuleBase
from diagnose.units import Field

_BY_HAND = "cannot be rewritten safely; correct the file and add it again"


def corrections(
    store: Store, instrument: str, only: Sequence[str], now: datetime
) -> HistoryCorrected:
    """Which entries an instrument spoiled; nothing is changed.

    Raises:
        UnusableInput: no check found it off, or no entry begins with one of `only`.
    """
    _refuse_unknown(only)
    check = check_called(store, instrument)
    found = [_shown(one, None, "") for one in spoiled(store, check, only, now.date())]
    return _answer(check, found, applied=False)


def put_right(
    store: Store, rules: RuleBase, instrument: str, only: Sequence[str], now: datetime
) -> HistoryCorrected:
    """Correct the entries an instrument spoiled, each batch as a new version.

    Raises:
        UnusableInput: no check found it off, nothing says which temperatures it read, or no
            entry begins with one of `only`.
    """
    _refuse_unknown(only)
    check = check_called(store, instrument)
    if check.unit == Field.TEMPERATURE.unit and not only and not named_parts(instrument):
        wanted = "--only mash, --only fermentation.peak …: which temperatures it read"
        raise UnusableInput(Fault("history correct", 0, "--only", "nothing", wanted))
    found = []
    for one in list(spoiled(store, check, only, now.date())):
        version = correct(store, rules, (one, check), now)
        found.append(_shown(one, version, "" if version is not None else _BY_HAND))
    return _answer(check, found, applied=True)


def offers(store: Store) -> tuple[str, ...]:
    """A sentence for every check that left past batches in doubt."""
    said = []
    for check in off_checks(store):
        number = len(in_doubt(store, check, named_parts(check.instrument)))
        if number:
            batches = "1 batch" if number == 1 else f"{number} batches"
            said.append(
                f"The {check.instrument} {_off_by(check)} on {check.until}: {batches} brewed "
                f"{_window(check)} may be wrong by that. Nothing was changed; see "
                f"'faultwort history correct \"{check.instrument}\"'."
            )
    return tuple(said)


def offers_for(store: Store, batch: str) -> tuple[str, ...]:
    """A sentence for every check that left this batch in doubt."""
    return tuple(
        f"The {check.instrument} {_off_by(check)} on {check.until}; what it read of this batch may "
        f"be wrong by that. See 'faultwort history correct \"{check.instrument}\"'."
        for check in off_checks(store)
        if batch in dict(in_doubt(store, check, named_parts(check.instrument)))
    )


def _shown(one: Spoiled, version: int | None, note: str) -> CorrectedBatch:
    entries = tuple(
        CorrectedEntry(entry=dotted(each.path), typed=each.typed, corrected=each.corrected)
        for each in one.entries
    )
    return CorrectedBatch(
        batch=one.batch, brewed_on=one.brewed_on, entries=entries, version=version, note=note
    )


def _answer(check: OffCheck, found: Sequence[CorrectedBatch], *, applied: bool) -> HistoryCorrected:
    return HistoryCorrected(
        instrument=check.instrument,
        check=check.uid,
        off_by=f"{_off_by(check)} on {check.until}",
        since=check.since,
        until=check.until,
        applied=applied,
        batches=tuple(found),
        says=_says(check, found, applied=applied),
    )


def _says(check: OffCheck, found: Sequence[CorrectedBatch], *, applied: bool) -> tuple[str, ...]:
    if not found:
        return (f"No batch brewed {_window(check)} has an entry left to correct.",)
    if applied:
        return (
            "What was read stands beside each entry and in the version before.",
            "'faultwort history undo BATCH' takes a correction back.",
            "Your own files are as they were; one added again unchanged brings its figures back.",
        )
    number = "1 batch" if len(found) == 1 else f"{len(found)} batches"
    return (
        f"{number} brewed {_window(check)} may be wrong by that. Nothing is changed yet.",
        "'--only mash' keeps to what it read at the mash; '--apply' writes new versions.",
        "It may have been off for only a part of that time; and a probe log is not corrected.",
    )


def _window(check: OffCheck) -> str:
    since = f"since the check on {check.since}, " if check.since else ""
    return f"{since}up to {check.until}"


def _off_by(check: OffCheck) -> str:
    return f"read {off_by(check.offset, check.unit)}"


def _refuse_unknown(only: Sequence[str]) -> None:
    """Every one of `only` is the name of an entry, or what some begin with."""
    paths = [name.path for name in entry_names()]
    known = {".".join(path[:end]): None for path in paths for end in range(1, len(path) + 1)}
    for one in only:
        if sub(r"\[\d+\]", "", one) not in known:
            near = get_close_matches(one, known, n=2)
            such = f"{' or '.join(near)}" if near else "a part of a record: mash, pitch.at"
            raise UnusableInput(Fault("history correct", 0, "--only", repr(one), such))
