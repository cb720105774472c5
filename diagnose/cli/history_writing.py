"""From what was typed to a note in the store."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from diagnose.cli.history_doing import now, opened, say
from diagnose.cli.loading import print_json, shipped_rules, today
from diagnose.errors import Fault, UnreadableQuantity, UnusableInput
from diagnose.history.finding_batches import numbered
from diagnose.history.keeping import restore
from diagnose.history.kinds import KINDS, Note, TastingNote
from diagnose.history.noting import (
    correct_note,
    known_note,
    note_called,
    restore_note,
    withdraw_note,
    write_note,
)
from diagnose.history.opening import Store
from diagnose.knowledge import named_cause, near_causes_said
from diagnose.units import Field, read_quantity
from diagnose.units.day import read_day


def known_cause(cause: str) -> str:
    """The id of the cause that is called so, by its id or its name.

    Raises:
        UnusableInput: the rule base knows none.
    """
    rules = shipped_rules()
    found = named_cause(rules, cause)
    if found in rules.causes:
        return found
    wanted = "the id of a cause, as 'faultwort rules list causes' shows them"
    wanted += near_causes_said(rules, cause)
    raise UnusableInput(Fault("history verdict", 0, "cause", repr(cause), wanted))


def understood(words: str) -> Mapping[str, Any]:
    """What a taster's words mean.

    Raises:
        UnusableInput: there are none.
    """
    if not words.strip():
        wanted = "what it tastes of, as 'buttery, no sourness'; 'nothing wrong' if it is clean"
        raise UnusableInput(Fault("history tasting", 0, "words", "nothing", wanted))
    from diagnose.flavour import load_lexicon
    from diagnose.history.tasted import read_words
    from diagnose.shipped import shipped

    return read_words(words, load_lexicon(shipped("rules")))


def compared(name: str, typed: tuple[str, str], kind: str) -> Mapping[str, Any]:
    """What an instrument shows and what it should show, in one unit.

    Raises:
        UnusableInput: a kind nobody knows, or a quantity that cannot be read.
    """
    fields = {field.name.casefold(): field for field in Field}
    if kind.casefold() not in fields:
        wanted = f"one of {', '.join(sorted(fields))}"
        raise UnusableInput(Fault("history instrument", 0, "--kind", repr(kind), wanted))
    field = fields[kind.casefold()]
    try:
        reads, true = (read_quantity(text, field) for text in typed)
    except UnreadableQuantity as error:
        fault = Fault("history instrument", 0, "", error.found, error.wanted)
        raise UnusableInput(fault) from error
    values = {"reads": reads.value, "true": true.value, "unit": field.unit}
    return {"instrument": name, "typed": f"{typed[0]} for {typed[1]}", **values}


def written(
    told: str | None,
    said: tuple[str, Mapping[str, Any]],
    batch: str | None,
    instead_of: str | None,
    *,
    as_json: bool,
) -> None:
    """Write a note down, or the next version of one, and say how it is called."""
    note = _note(*said)
    with opened(told, create=batch is None) as history:
        if instead_of is None:
            uid, number = write_note(history, note, now(), batch), 1
        else:
            _refuse_another(history, instead_of, batch)
            uid, number = instead_of, correct_note(history, instead_of, note, now())
    verb = f"Written down as {uid}, version {number} ({_named(said[0])})."
    _say((said[0], uid, number), f"{verb}{_heard(note)}", as_json=as_json)


def _refuse_another(history: Store, uid: str, batch: str | None) -> None:
    """A note stays with its batch: a correction that names another would move it unseen."""
    about = note_called(history, uid).batch
    if batch is None or about is None:
        return
    with history.reading() as connection:
        key = numbered(connection, batch).key
    if key != about:
        wanted = f"{about}, which the note {uid} is about; or withdraw it and write a new one"
        raise UnusableInput(Fault("history", 0, "--instead-of", key, wanted))


def _heard(note: Note) -> str:
    if not isinstance(note, TastingNote):
        return ""
    from diagnose.report.history_pages import tasting_gist

    return f" Understood as: {tasting_gist(note.model_dump())}."


def taken_back(told: str | None, uid: str, reason: str | None, *, as_json: bool) -> None:
    """Withdraw a note, whatever its kind."""
    with opened(told) as history:
        known = note_called(history, uid)
        if known.withdrawn:
            wanted = "a note that stands; 'faultwort history restore' brings one back"
            fault = Fault("history withdraw", 0, "note", f"{uid}, taken back already", wanted)
            raise UnusableInput(fault)
        number = withdraw_note(history, KINDS[known.kind], uid, now(), reason)
    says = (
        f"{uid} ({_named(known.kind)}) is taken back. It is kept, and no list or statistic "
        f"counts it; 'faultwort history restore {uid} {number - 1}' brings it back."
    )
    _say((known.kind, uid, number), says, as_json=as_json)


def brought_back(
    told: str | None, version_of: tuple[str, int], reason: str | None, *, as_json: bool
) -> None:
    """Make an earlier version of a batch or of a note the current one again."""
    from diagnose.cli.history_adding import print_returned

    named, version = version_of
    with opened(told) as history:
        known = known_note(history, named)
        if known is None:
            print_returned(restore(history, named, version, now(), reason), as_json)
            return
        number = restore_note(history, KINDS[known.kind], named, version, now())
    says = f"{named} ({_named(known.kind)}) is as it was in version {version}; that is version "
    _say((known.kind, named, number), f"{says}{number} now.", as_json=as_json)


def _note(kind: str, said: Mapping[str, Any]) -> Note:
    at = said.get("at")
    day = None if at is None else read_day("--on", at, today()).isoformat()
    try:
        return KINDS[kind].model_validate({**said, "at": day})
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        key = "--" + str(first["loc"][0])
        wanted = first["msg"].lower().removeprefix("input should be ")
        fault = Fault("history", 0, key, repr(first["input"]), wanted)
        raise UnusableInput(fault) from error


def _named(kind: str) -> str:
    """A kind of note as a brewer calls one of them."""
    return {"diagnoses": "diagnosis", "learning_switches": "switch"}.get(
        kind, kind.removesuffix("s").replace("_", " ")
    )


def _say(written_down: tuple[str, str, int], says: str, *, as_json: bool) -> None:
    if as_json:
        kind, uid, number = written_down
        note = {"kind": kind, "uid": uid, "version": number}
        print_json({"schema": "faultwort/history-note/1", **note})
    else:
        say(says)
