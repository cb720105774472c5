"""`faultwort batch`: ask for a record, check one, show it with its measures, print its schema."""

from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.options import Record
from diagnose.cli.plain_slips import WholeHelp

batch_app = typer.Typer(cls=WholeHelp, help="Batch records.", no_args_is_help=True)
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]


@batch_app.command()
def new(
    file: Annotated[
        Path | None, typer.Argument(help="Where to write it, or what to go on with.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Be asked for a record, question by question; stop and go on at any time."""
    from diagnose.cli.asking import guide

    guide(file, as_json=as_json)


@batch_app.command()
def check(file: Record, as_json: AsJson = False) -> None:
    """Check a record; every fault with its line, what was found and what is wanted."""
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import check_batch, consult_on
    from diagnose.report import print_batch_check, terminal

    rules = shipped_rules()
    answer = check_batch(rules, consult_on(rules, batch_at(file)))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_batch_check(terminal(), answer)
    if answer.odd_entries:
        raise typer.Exit(1)


@batch_app.command()
def show(file: Record, as_json: AsJson = False) -> None:
    """The record with what it was read as, and the measures computed from it."""
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import consult_on, show_batch
    from diagnose.report import print_batch, terminal

    rules = shipped_rules()
    answer = show_batch(rules, consult_on(rules, batch_at(file)))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_batch(terminal(), answer)


@batch_app.command()
def schema() -> None:
    """The JSON Schema of a batch record."""
    from diagnose.batch.schema import schema_text

    typer.echo(schema_text(), nl=False)
