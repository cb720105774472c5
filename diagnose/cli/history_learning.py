"""`faultwort history learn`, `correct`, `split` and `spiked`: what the batches teach, and why."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

if TYPE_CHECKING:
    from diagnose.answers.part import Said

Store = Annotated[str | None, typer.Option("--store", help="The store's file or database URL.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Key = Annotated[str, typer.Argument(help="A batch as 'history list' shows it, or its beginning.")]


def learn(
    apply: Annotated[
        bool | None,
        typer.Option("--apply/--off", help="Let 'diagnose --learned' use it, or no longer."),
    ] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """What your verdicts, splits and tastings taught: before, after and why."""
    from diagnose.cli.history_doing import now, opened
    from diagnose.cli.loading import shipped_rules
    from diagnose.consult.history_correcting import offers
    from diagnose.consult.history_learning import learned_from
    from diagnose.history.learning_switch import switch
    from diagnose.report import terminal
    from diagnose.report.history_learning_pages import print_learned

    with opened(store) as history:
        if apply is not None:
            switch(history, now(), on=apply)
        answer = learned_from(shipped_rules(), history, offers(history))
    _print(answer, as_json, lambda: print_learned(terminal(), answer))


def correct(
    instrument: Annotated[str, typer.Argument(help="As it was named at its check.")],
    only: Annotated[
        list[str] | None, typer.Option("--only", help="What it read: mash, fermentation.peak …")
    ] = None,
    apply: Annotated[bool, typer.Option("--apply", help="Write new versions.")] = False,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Past batches read with an instrument that was off: shown, and put right with --apply."""
    from diagnose.cli.history_doing import now, opened
    from diagnose.cli.loading import shipped_rules
    from diagnose.consult.history_correcting import corrections, put_right
    from diagnose.report import terminal
    from diagnose.report.history_learning_pages import print_corrected

    with opened(store) as history:
        if apply:
            answer = put_right(history, shipped_rules(), instrument, only or (), now())
        else:
            answer = corrections(history, instrument, only or (), now())
    _print(answer, as_json, lambda: print_corrected(terminal(), answer))


def split(
    batch: Key,
    reading: Annotated[
        Path, typer.Argument(help="The split's folder, or what 'split read FOLDER --json' printed.")
    ],
    arm: Annotated[
        list[str] | None, typer.Option("--arm", help="A batch that is an arm of it, suspect first.")
    ] = None,
    who: Annotated[str | None, typer.Option("--who", help="A pseudonym.")] = None,
    on: Annotated[str | None, typer.Option("--on", help="The day it was read.")] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Keep a split that was read with the batch whose flaw it was about."""
    from diagnose.cli.history_split import split_note
    from diagnose.cli.history_writing import written

    note = {**split_note(reading, tuple(arm or ())), "who": who, "at": on}
    written(store, ("splits", note), batch, None, as_json=as_json)


def spiked(
    taster: Annotated[str, typer.Argument(help="A pseudonym.")],
    compound: Annotated[str, typer.Argument(help="What was added, as the rule base names it.")],
    right: Annotated[str, typer.Argument(help="How often right, as '4 of 6'.")],
    method: Annotated[str, typer.Option("--test", help="triangle, 2-afc, 3-afc …")] = "triangle",
    dose: Annotated[str | None, typer.Option("--dose", help='How much of it: "0.2 mg/L".')] = None,
    on: Annotated[str | None, typer.Option("--on", help="The day: 2026-09-12, yesterday.")] = None,
    instead_of: Annotated[
        str | None, typer.Option("--instead-of", help="The note this corrects.")
    ] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Note how often a taster found the glass with a known addition."""
    from diagnose.cli.history_split import spiked_note
    from diagnose.cli.history_writing import written

    note = {**spiked_note((taster, compound), right, method, dose), "at": on}
    written(store, ("panels", note), None, instead_of, as_json=as_json)


def _print(answer: "Said", as_json: bool, page: Any) -> None:
    from diagnose.cli.loading import print_json

    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        page()


def learning_commands(app: Any) -> None:
    """Add these commands to the app of the history."""
    for command in (learn, correct, split, spiked):
        app.command()(command)
