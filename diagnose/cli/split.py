"""`faultwort split`: choose a suspect, plan a split, check its arms, serve it blind, read it."""

from datetime import datetime
from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.options import Record
from diagnose.cli.plain_slips import WholeHelp, number_from

split_app = typer.Typer(
    cls=WholeHelp, help="Split batches and their blind panels.", no_args_is_help=True
)
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Taste = Annotated[list[str] | None, typer.Option("--taste", help="What it tastes of.")]
Design = Annotated[str, typer.Option("--design", help="isolating, 2x2 or search.")]
Seed = Annotated[int | None, typer.Option("--seed", help="Repeats a draw.")]
After = Annotated[
    Path | None, typer.Option("--after", help="A split that was read: start from what it taught.")
]
Test = Annotated[str | None, typer.Option("--test", help="triangle, tetrad, 2-afc, 3-afc …")]


@split_app.command()
def choose(
    batch: Record,
    taste: Taste = None,
    tasters: Annotated[int, typer.Option("--tasters", help="How many would taste.")] = 9,
    replicates: Annotated[int, typer.Option("--replicates", help="Rounds of each taster.")] = 1,
    test: Test = None,
    after: After = None,
    litre_costs: Annotated[
        float | None,
        typer.Option(
            "--litre-costs",
            callback=number_from("--litre-costs", 0),
            help="What a litre costs you: 0.9.",
        ),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Which suspect to put to a split: what it would teach, what it costs, who could read it."""
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import consult_on
    from diagnose.consult.splits import after_choice, priced, taught_by
    from diagnose.consult.splits import choose as choose_split
    from diagnose.report import terminal
    from diagnose.report.split_pages import print_split_choice
    from diagnose.trial.choosing import PanelAtHand

    rules = shipped_rules()
    consultation = consult_on(rules, batch_at(batch), taste or ())
    panel = PanelAtHand(tasters, replicates, test)
    found = choose_split(rules, consultation, panel, taught_by(after))
    answer = after_choice(priced(found, litre_costs), str(batch), taste or (), after)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_split_choice(terminal(), answer)


@split_app.command()
def plan(
    batch: Record,
    cause: Annotated[list[str], typer.Argument(help="The suspect, as `choose` lists it.")],
    taste: Taste = None,
    design: Design = "isolating",
    volume: Annotated[str | None, typer.Option("--volume", help='Your batch: "23 L".')] = None,
    pairs: Annotated[int, typer.Option("--pairs", help="Pairs of vessels.")] = 1,
    tasters: Annotated[int, typer.Option("--tasters", help="How many answers are planned.")] = 9,
    test: Test = None,
    after: After = None,
    start: Annotated[
        str | None, typer.Option("--start", help="The first day, of the brew: 2026-05-02, today.")
    ] = None,
    seed: Seed = None,
    out: Annotated[Path | None, typer.Option("--out", help="Folder to write to.")] = None,
    as_json: AsJson = False,
) -> None:
    """Plan a split: arms, draw, brew sheet, what must stay equal, dates, cautions."""
    from diagnose.cli.loading import batch_at, print_json, shipped_rules, today
    from diagnose.consult import consult_on
    from diagnose.consult.split_typed import asked_plan
    from diagnose.consult.splits import keep_plan, planned, taught_by
    from diagnose.report import terminal
    from diagnose.report.sheets import plan_page
    from diagnose.report.split_pages import print_split_plan

    rules = shipped_rules()
    told = {"record": str(batch), "tastes": tuple(taste or ()), "causes": tuple(cause)}
    asked = asked_plan(
        {"design": design, "pairs": pairs, "tasters": tasters} | told,
        {"volume": volume, "start": start, "test": test},
        seed,
        today(),
    )
    found = consult_on(rules, batch_at(batch), taste or ())
    made = planned(rules, found, asked, taught_by(after))
    answer = keep_plan(out or Path(f"split-{'-'.join(cause)}"), made, plan_page(made))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_split_plan(terminal(), answer)


@split_app.command()
def check(
    first: Annotated[Path, typer.Argument(metavar="A", help="Record of arm A, the suspect one.")],
    second: Annotated[Path, typer.Argument(metavar="B", help="Record of arm B.")],
    plan: Annotated[Path | None, typer.Option("--plan", help="The plan, or its folder.")] = None,
    as_json: AsJson = False,
) -> None:
    """Compare the arms: every unintended difference, and whether to taste at all."""
    from diagnose.cli.loading import batch_at, print_json, shipped_rules
    from diagnose.consult import consult_on
    from diagnose.consult.splits import check_arms
    from diagnose.report import terminal
    from diagnose.report.split_pages import print_split_check

    rules = shipped_rules()
    arms = [consult_on(rules, batch_at(path)) for path in (first, second)]
    answer = check_arms(rules, arms[0], arms[1], plan)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_split_check(terminal(), answer)
    if answer.advice == "stop":
        raise typer.Exit(1)


@split_app.command()
def ballots(
    plan: Annotated[Path, typer.Argument(help="The plan, or its folder.")],
    tasters: Annotated[str, typer.Option("--tasters", help='Pseudonyms: "Wren,Pike,Tansy".')],
    test: Test = None,
    rounds: Annotated[int, typer.Option("--rounds", help="Rounds of each taster.")] = 1,
    spares: Annotated[int, typer.Option("--spares", help="Sets for latecomers.")] = 0,
    arms: Annotated[str, typer.Option("--arms", help="The two arms, in a 2x2.")] = "A,B",
    pair: Annotated[int, typer.Option("--pair", help="Which pair of vessels.")] = 1,
    seed: Seed = None,
    as_json: AsJson = False,
) -> None:
    """Ballots, host's and pourer's sheets, and the key under seal."""
    from diagnose.cli.loading import print_json, today
    from diagnose.consult.split_typed import asked_ballots, secret_of
    from diagnose.consult.splits import glasses_each, keep_panel, plan_at, pour
    from diagnose.report import terminal
    from diagnose.report.sheets import ballots_page, host_page, pourer_page
    from diagnose.report.split_pages import print_ballots_made

    at = plan_at(plan)
    asked = asked_ballots(
        at.plan, {"tasters": tasters, "arms": arms, "test": test}, (rounds, spares, pair), today()
    )
    poured = pour(at.plan, asked, secret_of(seed))
    pages = (
        ballots_page(poured.panel),
        host_page(poured.panel, glasses_each(poured.panel)),
        pourer_page(poured.panel, poured.vessels),
    )
    answer = keep_panel(at, pair, poured, pages)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_ballots_made(terminal(), answer)


@split_app.command()
def enter(
    folder: Annotated[Path, typer.Argument(help="The folder with the panel.")],
    taster: Annotated[str, typer.Argument(help="The taster's pseudonym.")],
    code: Annotated[list[str], typer.Argument(help="The code chosen; two for a tetrad; 412=3.")],
    sure: Annotated[str, typer.Option("--sure", help="guess, think so or certain.")] = "",
    comment: Annotated[str, typer.Option("--comment", help="What was said afterwards.")] = "",
    as_json: AsJson = False,
) -> None:
    """Put one ballot into the box."""
    from diagnose.cli.loading import print_json
    from diagnose.consult.split_typed import typed_ballot
    from diagnose.consult.splits import enter as enter_ballot
    from diagnose.report import terminal
    from diagnose.report.split_pages import print_ballot_entered

    now = datetime.now().astimezone().isoformat(timespec="seconds")
    answer = enter_ballot(folder, typed_ballot(taster, tuple(code), (sure, comment), now))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_ballot_entered(terminal(), answer)


@split_app.command()
def read(
    folder: Annotated[Path, typer.Argument(help="The folder with the panel.")],
    close: Annotated[
        str | None, typer.Option("--close", help="Why it is read with ballots missing.")
    ] = None,
    fires: Annotated[
        float | None, typer.Option("--m", help="Chance that the fault fires if the cause is it.")
    ] = None,
    harmless: Annotated[
        float | None, typer.Option("--s", help="Chance of a harmless difference.")
    ] = None,
    alike: Annotated[
        str | None, typer.Option("--alike", help='A/A splits that differed: "0 of 2".')
    ] = None,
    fired: Annotated[
        str | None,
        typer.Option("--fired", help="Against a clean reference: suspect, both, neither, other."),
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Open the key and read the panel: the difference, the cause, and what to do next."""
    from diagnose.cli.loading import print_json
    from diagnose.consult.splits import ReadBack, read_back
    from diagnose.report import terminal
    from diagnose.report.split_pages import print_split_read

    now = datetime.now().astimezone().isoformat(timespec="seconds")
    answer = read_back(folder, ReadBack(now, close, fires, harmless, alike, fired))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_split_read(terminal(), answer)
