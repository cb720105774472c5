"""`faultwort history`: the store of batches: add, list, show, undo, export, import, back up."""

from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.history_learning import learning_commands
from diagnose.cli.history_looking import Since, Style, Until, looking_commands
from diagnose.cli.history_notes import note_commands
from diagnose.cli.options import Html, WithoutNames
from diagnose.cli.plain_slips import WholeHelp, number_from

history_app = typer.Typer(
    cls=WholeHelp, help="The flaw history over all your batches.", no_args_is_help=True
)
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Store = Annotated[
    str | None,
    typer.Option("--store", help="Its file or database URL; else FAULTWORT_STORE, else your own."),
]
Key = Annotated[str, typer.Argument(help="A batch as 'history list' shows it, or its beginning.")]
Reason = Annotated[str | None, typer.Option("--reason", help="Why, in your words.")]
note_commands(history_app)
looking_commands(history_app)
learning_commands(history_app)


@history_app.command()
def add(
    files: Annotated[list[Path], typer.Argument(help="Batch records, or folders with one.")],
    of: Annotated[str | None, typer.Option("--of", help="The batch it is a version of.")] = None,
    apart: Annotated[bool, typer.Option("--apart", help="It is a batch of its own.")] = False,
    reason: Reason = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Add records; the same twice is one batch, a changed one is a new version."""
    from diagnose.cli.history_adding import add_all, print_added

    added = add_all(store, files, (of, apart, reason))
    print_added(added, as_json)


@history_app.command("list")
def list_command(
    since: Since = None,
    until: Until = None,
    style: Style = None,
    flaw: Annotated[str | None, typer.Option("--flaw", help='A flavour: "buttery".')] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """The batches, in the order they were brewed."""
    from diagnose.cli.history_doing import listed, opened, print_list
    from diagnose.cli.history_remarks import offered, print_offers

    with opened(store) as history:
        lines = listed(history, (since, until), style, flaw)
        offers = offered(history)
    print_list(lines, as_json)
    if not as_json:
        print_offers(offers)


@history_app.command()
def show(
    batch: Annotated[
        str | None,
        typer.Argument(help="A batch as 'history list' shows it; without one, the whole history."),
    ] = None,
    html: Html = None,
    without_names: WithoutNames = False,
    flaw: Annotated[
        list[str] | None, typer.Option("--flaw", help='A flavour to chart: "buttery".')
    ] = None,
    measure: Annotated[
        list[str] | None, typer.Option("--measure", help="A measure to chart, by its id.")
    ] = None,
    since: Since = None,
    until: Until = None,
    style: Style = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """One batch with all that was said about it; or the whole history, as a page (--html)."""
    from diagnose.cli.history_page import asked_for, show_batch_as, show_history

    if batch is not None:
        show_batch_as(store, batch, html, names=not without_names, as_json=as_json)
    else:
        asked = asked_for((since, until), style, flaw or (), measure or ())
        show_history(store, asked, html, names=not without_names, as_json=as_json)


@history_app.command()
def undo(batch: Key, reason: Reason = None, store: Store = None, as_json: AsJson = False) -> None:
    """Go back to the version before the current one; from the first, withdraw the batch."""
    from diagnose.cli.history_adding import print_returned
    from diagnose.cli.history_doing import now, opened
    from diagnose.history.keeping import undo as undo_last

    with opened(store) as history:
        print_returned(undo_last(history, batch, now(), reason), as_json)


@history_app.command()
def restore(
    batch: Annotated[str, typer.Argument(help="A batch, or a note as 'history show' names it.")],
    version: Annotated[
        int, typer.Argument(help="The version to bring back.", callback=number_from("version", 1))
    ],
    reason: Reason = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Make an earlier version of a batch or a note the current one again."""
    from diagnose.cli.history_writing import brought_back

    brought_back(store, (batch, version), reason, as_json=as_json)


@history_app.command()
def export(
    file: Annotated[Path | None, typer.Argument(help="The JSON Lines file to make.")] = None,
    csv: Annotated[
        Path | None, typer.Option("--csv", help="A folder of CSV files to make.")
    ] = None,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Everything as JSON Lines, which can be imported again; or as CSV for a spreadsheet."""
    from diagnose.cli.history_doing import export_all, opened, print_counts

    with opened(store) as history:
        print_counts("history-export", export_all(history, file, csv), as_json)


@history_app.command("import")
def import_command(
    file: Annotated[Path, typer.Argument(help="What 'history export' made.", exists=True)],
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Add everything in an export; what is there already is left alone."""
    from diagnose.cli.history_doing import imported_says, opened, print_counts, shown_progress
    from diagnose.history.importing import import_from

    with opened(store, create=True) as history, shown_progress("importing") as progress:
        done = import_from(history, file, progress)
    print_counts("history-import", vars(done), as_json, imported_says(done))


@history_app.command()
def backup(
    file: Annotated[Path, typer.Argument(help="The copy to make.")],
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """Copy the store while it may be in use, and check the copy."""
    from diagnose.cli.history_doing import opened, print_counts, shown_progress
    from diagnose.history.backing_up import back_up

    with opened(store) as history, shown_progress("copying") as progress:
        size = back_up(history, file, progress)
    says = f"Copied to {file} and checked: {size} bytes. Any command reads it with --store."
    print_counts("history-backup", {"bytes": size}, as_json, says)


@history_app.command()
def refresh(store: Store = None, as_json: AsJson = False) -> None:
    """Measure anew what an earlier rule base measured; what was typed stays as it is."""
    from diagnose.cli.history_doing import opened, print_counts
    from diagnose.cli.loading import shipped_rules, today
    from diagnose.history.replaying import refresh as measure_anew

    with opened(store) as history:
        done = measure_anew(history, shipped_rules(), today())
    counts = {"measured anew": done.measured, "no longer readable": len(done.unreadable)}
    print_counts("history-refresh", counts, as_json)


@history_app.command()
def upgrade(store: Store = None, as_json: AsJson = False) -> None:
    """Bring a store on a server up to date; back it up with its own means first."""
    from diagnose.cli.history_doing import print_counts, upgrade_server

    print_counts("history-upgrade", upgrade_server(store), as_json)
