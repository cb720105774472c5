"""`faultwort history`: what is noted beside the records: verdicts, tastings, events, checks."""

from typing import Annotated, Any

import typer

from diagnose.cli.plain_slips import number_from

Store = Annotated[str | None, typer.Option("--store", help="The store's file or database URL.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Key = Annotated[str, typer.Argument(help="A batch as 'history list' shows it, or its beginning.")]
Who = Annotated[str | None, typer.Option("--who", help="Whose word it is; a pseudonym.")]
On = Annotated[str | None, typer.Option("--on", help="The day it was: 2026-09-12, yesterday.")]
InsteadOf = Annotated[
    str | None, typer.Option("--instead-of", help="The note this corrects, as 'show' names it.")
]
Confidence = Annotated[
    float,
    typer.Option(
        "--confidence", callback=number_from("--confidence", 0, 1), help="How sure, 0 to 1."
    ),
]


def verdict(
    batch: Key,
    cause: Annotated[str, typer.Argument(help="A cause of the rule base, by its id.")],
    confidence: Confidence = 0.8,
    state: Annotated[str, typer.Option(help="confirmed, suspected or 'ruled out'.")] = "confirmed",
    basis: Annotated[
        str, typer.Option(help="brewer, split, panel, repeat or 'bench check'.")
    ] = "brewer",
    words: Annotated[str, typer.Option("--words", help="In your words.")] = "",
    who: Who = None,
    on: On = None,
    instead_of: InsteadOf = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Say what a fault turned out to be, and how sure that is."""
    from diagnose.cli.history_writing import known_cause, written

    about = {"cause": known_cause(cause), "confidence": confidence, "state": state, "basis": basis}
    note = {**about, "typed": words, "who": who, "at": on}
    written(store, ("verdicts", note), batch, instead_of, as_json=as_json)


def tasting(
    batch: Key,
    words: Annotated[str, typer.Argument(help="What it tastes of, in the taster's words.")],
    who: Who = None,
    on: On = None,
    instead_of: InsteadOf = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Add what a taster says of a batch."""
    from diagnose.cli.history_writing import understood, written

    note = {**understood(words), "typed": words, "who": who, "at": on}
    written(store, ("tastings", note), batch, instead_of, as_json=as_json)


def event(
    words: Annotated[str, typer.Argument(help="What was changed, cleaned, bought or repaired.")],
    kind: Annotated[
        str, typer.Option(help="equipment, cleaning, water, ingredient, people, place or other.")
    ] = "equipment",
    who: Who = None,
    on: On = None,
    instead_of: InsteadOf = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Note something that any later batch may feel."""
    from diagnose.cli.history_writing import written

    note = {"kind": kind, "typed": words, "who": who, "at": on}
    written(store, ("events", note), None, instead_of, as_json=as_json)


def instrument(
    name: Annotated[str, typer.Argument(help="Which one, always by the same name.")],
    reads: Annotated[str, typer.Option("--reads", help='What it shows: "68.9 F".')],
    true: Annotated[str, typer.Option("--true", help='What it should show: "67 F".')],
    kind: Annotated[
        str, typer.Option(help="temperature, gravity, ph, mass or volume.")
    ] = "temperature",
    who: Who = None,
    on: On = None,
    instead_of: InsteadOf = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Note how far an instrument is off, as held against something known."""
    from diagnose.cli.history_writing import compared, written

    note = {**compared(name, (reads, true), kind), "who": who, "at": on}
    written(store, ("instrument_checks", note), None, instead_of, as_json=as_json)


def withdraw(
    uid: Annotated[str, typer.Argument(help="The note, as 'history show' names it.")],
    reason: Annotated[str | None, typer.Option("--reason", help="Why, in your words.")] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Take a note back; it is kept, and no list or statistic counts it."""
    from diagnose.cli.history_writing import taken_back

    taken_back(store, uid, reason, as_json=as_json)


def note_commands(app: Any) -> None:
    """Add these commands to the app of the history."""
    for command in (verdict, tasting, event, instrument, withdraw):
        app.command()(command)
