"""What an instrument's error means for past batches: offered, and put right when asked."""

from collections.abc import Sequence
from datetime import datetime

from diagnose.answers.history_learning import CorrectedBatch, CorrectedEntry, HistoryCorrected
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
from diagnose.history.opening import Store
from diagnose.knowledge import RuleBase
from diagnose.units import Field

_BY_HAND = "cannot be rewritten safely; correct the file and add it again"


def corrections(
    store: Store, instrument: str, only: Sequence[str], now: datetime
) -> HistoryCorrected:
    """Which entries an instrument spoiled; nothing is changed.

    Raises:
        UnusableInput: no check found it off.
    """
    check = check_called(store, instrument)
    found = [_shown(one, None, "") for one in spoiled(store, check, only, now.date())]
    return _answer(check, found, applied=False)


def put_right(
    store: Store, rules: RuleBase, instrument: str, only: Sequence[str], now: datetime
) -> HistoryCorrected:
    """Correct the entries an instrument spoiled, each batch as a new version.

    Raises:
        UnusableInput: no check found it off, or nothing says which temperatures it read.
    """
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
    return (
        f"Batches brewed {_window(check)}. Nothing is changed yet.",
        "It may have been off for only a part of that time; and a probe log is not corrected.",
        "--only PART keeps to what it read (--only mash); --apply writes new versions.",
    )


def _window(check: OffCheck) -> str:
    since = f"since the check on {check.since}, " if check.since else ""
    return f"{since}up to {check.until}"


def _off_by(check: OffCheck) -> str:
    way = "high" if check.offset > 0 else "low"
    digits = {"SG": 3, "pH": 2}.get(check.unit, 1)
    unit = "" if check.unit in ("SG", "pH") else f" {check.unit}"
    return f"read {abs(check.offset):.{digits}f}{unit} too {way}"
