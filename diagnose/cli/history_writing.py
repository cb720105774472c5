"""From what was typed to a note in the store."""

from collections.abc import Mapping
from datetime import date
from typing import Any

import typer
from pydantic import ValidationError

from diagnose.cli.history_doing import now, opened
from diagnose.cli.loading import print_json, shipped_rules
from diagnose.errors import Fault, UnreadableQuantity, UnusableInput
from diagnose.history.kinds import KINDS, Note
from diagnose.history.noting import correct_note, kind_of, withdraw_note, write_note
from diagnose.units import Field, read_quantity


def known_cause(cause: str) -> str:
    """The cause, when the rule base knows it.

    Raises:
        UnusableInput: it does not.
    """
    if cause in shipped_rules().causes:
        return cause
    wanted = "the id of a cause, as 'faultwort rules list causes' shows them"
    raise UnusableInput(Fault("history verdict", 0, "cause", repr(cause), wanted))


def understood(words: str) -> Mapping[str, Any]:
    """What a taster's words mean."""
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
            uid, number = instead_of, correct_note(history, instead_of, note, now())
    _say(said[0], uid, number, as_json=as_json)


def taken_back(told: str | None, uid: str, reason: str | None, *, as_json: bool) -> None:
    """Withdraw a note, whatever its kind."""
    with opened(told) as history:
        kind = kind_of(history, uid)
        number = withdraw_note(history, KINDS[kind], uid, now(), reason)
    _say(kind, uid, number, as_json=as_json)


def _note(kind: str, said: Mapping[str, Any]) -> Note:
    try:
        if said.get("at") is not None:
            date.fromisoformat(said["at"])
        return KINDS[kind].model_validate(said)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        key, wanted = "--" + str(first["loc"][0]), first["msg"].lower()
        fault = Fault("history", 0, key, repr(first["input"]), wanted)
        raise UnusableInput(fault) from error
    except ValueError as error:
        fault = Fault("history", 0, "--on", repr(said["at"]), "a day as 2026-09-12")
        raise UnusableInput(fault) from error


def _say(kind: str, uid: str, number: int, *, as_json: bool) -> None:
    if as_json:
        note = {"kind": kind, "uid": uid, "version": number}
        print_json({"schema": "faultwort/history-note/1", **note})
    else:
        typer.echo(f"Written down as {uid}, version {number} ({kind.replace('_', ' ')}).")
