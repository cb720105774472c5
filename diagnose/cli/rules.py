"""`faultwort rules`: check, list, print, export and score the rule base."""

from enum import StrEnum
from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.plain_slips import WholeHelp, number_from

rules_app = typer.Typer(cls=WholeHelp, help="The rule base.", no_args_is_help=True)
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]


class ExportFormat(StrEnum):
    """Formats the network can be written in."""

    bif = "bif"
    json = "json"


@rules_app.command()
def check(
    folder: Annotated[
        Path | None, typer.Argument(help="Another rule base than the shipped one.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Check every card: both ends of links, ranges, sources, nothing counted twice."""
    from diagnose.casebook import check_rule_base
    from diagnose.cli.loading import print_json
    from diagnose.report import print_rule_check, terminal
    from diagnose.shipped import shipped

    answer = check_rule_base(folder or shipped("rules"), shipped("cases"))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_rule_check(terminal(), answer)
    if answer.faults:
        raise typer.Exit(1)


@rules_app.command("list")
def list_command(
    kind: Annotated[str | None, typer.Argument(help="causes, compounds, descriptors …")] = None,
    coverage: Annotated[
        bool, typer.Option("--coverage", help="The standard flavour terms and what reaches each.")
    ] = False,
    basis: Annotated[
        bool, typer.Option("--basis", help="How many numbers rest on what: seen, judged …")
    ] = False,
    as_json: AsJson = False,
) -> None:
    """How many cards of each kind there are, the cards of one kind, or a table over all."""
    from diagnose.cli.loading import print_json, shipped_rules
    from diagnose.consult import list_rules
    from diagnose.report import print_rule_list, terminal

    answer = list_rules(shipped_rules(), kind, coverage=coverage, basis=basis)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_rule_list(terminal(), answer)


@rules_app.command()
def sheet(
    card_id: Annotated[str, typer.Argument(metavar="ID", help="The card to print.")],
    as_json: AsJson = False,
) -> None:
    """One card as it stands in its file, with its numbers and sources."""
    from diagnose.cli.loading import print_json, shipped_rules
    from diagnose.consult import card_sheet

    answer = card_sheet(shipped_rules(), card_id)
    if as_json:
        print_json({"schema": "faultwort/rules-sheet/1", **answer})
    else:
        typer.echo(answer["text"])


@rules_app.command()
def export(
    fmt: Annotated[ExportFormat, typer.Option("--format", help="bif or json.")] = ExportFormat.bif,
    yeast: Annotated[str | None, typer.Option(help="Yeast family.")] = None,
    style: Annotated[str | None, typer.Option(help="Style of beer.")] = None,
) -> None:
    """Write the network for any general Bayesian-network program."""
    from diagnose.cli.loading import print_json, shipped_rules
    from diagnose.consult import network_for
    from diagnose.inference.export import to_bif, to_json

    network = network_for(shipped_rules(), yeast, style)
    if fmt is ExportFormat.bif:
        typer.echo(to_bif(network), nl=False)
    else:
        print_json(to_json(network))


@rules_app.command()
def score(
    cases: Annotated[list[Path] | None, typer.Argument(help="Folders of cases.")] = None,
    perturb: Annotated[
        int,
        typer.Option(
            "--perturb",
            callback=number_from("--perturb", 0),
            help="Redraw our guesses this many times.",
        ),
    ] = 0,
    as_json: AsJson = False,
) -> None:
    """Replay worked cases and count how often the right cause comes first."""
    from diagnose.casebook import score_cases
    from diagnose.cli.loading import print_json, shipped_rules, today
    from diagnose.report import ProgressBar, print_score, standing_by, terminal
    from diagnose.shipped import shipped

    folders, watch = cases or [shipped("cases")], ProgressBar(standing_by())
    answer = score_cases(shipped_rules(), folders, today(), draws=perturb, watch=watch)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_score(terminal(), answer)
    if not answer.all_hold:
        raise typer.Exit(1)
