"""`faultwort history contrast` and `history trend`: looking over all batches at once."""

from typing import TYPE_CHECKING, Annotated, Any

import typer

from diagnose.cli.plain_slips import number_from

if TYPE_CHECKING:
    from diagnose.answers.part import Said
    from diagnose.history.brews import Brew
    from diagnose.history.opening import Store as OpenStore

Store = Annotated[str | None, typer.Option("--store", help="The store's file or database URL.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Since = Annotated[str | None, typer.Option("--since", help="Brewed then or later: 2026-09-12.")]
Until = Annotated[str | None, typer.Option("--until", help="Brewed then or earlier: 2026-09-12.")]
Style = Annotated[str | None, typer.Option("--style", help="A style, or a part of it.")]
Level = Annotated[
    float,
    typer.Option(
        "--level",
        callback=number_from("--level", 0.001, 0.5),
        help="Highest adjusted p that is claimed, 0.001 to 0.5.",
    ),
]


def contrast(
    flaw: Annotated[str, typer.Option("--flaw", help='A flavour: "buttery".')],
    since: Since = None,
    until: Until = None,
    style: Style = None,
    level: Level = 0.05,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """What separates the flawed batches from the clean ones, and what these cannot show."""
    from diagnose.cli.history_doing import opened
    from diagnose.cli.loading import shipped_rules
    from diagnose.consult.history_looking import contrast as contrast_of
    from diagnose.history.flaws import flaw_ids
    from diagnose.report import terminal
    from diagnose.report.history_looking_pages import print_contrast

    rules = shipped_rules()
    ids = flaw_ids(flaw, rules.lexicon)
    with opened(store) as history:
        brews, events = _brews(history, (since, until), style)
    answer = contrast_of(rules, brews, (flaw, ids), events, level)
    _print(answer, as_json, lambda: print_contrast(terminal(), answer))


def trend(
    measure: Annotated[str | None, typer.Option("--measure", help="A measure, by its id.")] = None,
    flaw: Annotated[str | None, typer.Option("--flaw", help='A flavour: "buttery".')] = None,
    since: Since = None,
    until: Until = None,
    style: Style = None,
    level: Level = 0.05,
    store: Store = None,
    as_json: AsJson = False,
) -> None:
    """The chart of a measure or a flaw: shifts, drifts, and whether a fix held."""
    from diagnose.cli.history_doing import opened
    from diagnose.cli.loading import shipped_rules
    from diagnose.consult.history_trend import trend_asked
    from diagnose.report import terminal
    from diagnose.report.history_looking_pages import print_trend

    rules = shipped_rules()
    with opened(store) as history:
        brews, events = _brews(history, (since, until), style)
    answer = trend_asked(rules, brews, (measure, flaw), events, level)
    _print(answer, as_json, lambda: print_trend(terminal(), answer))


def _brews(
    history: "OpenStore", days: tuple[str | None, str | None], style: str | None
) -> tuple[list["Brew"], list[tuple[str, str]]]:
    """The batches that are wanted, and the dated things that any batch may feel."""
    from diagnose.cli.history_doing import days_wanted
    from diagnose.consult.history_events import events_over
    from diagnose.history.brews import read_brews
    from diagnose.history.listing import Wanted

    brews = read_brews(history, Wanted(*days_wanted(days), style))
    return brews, events_over(history, brews)


def _print(answer: "Said", as_json: bool, page: Any) -> None:
    from diagnose.cli.loading import print_json

    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        page()


def looking_commands(app: Any) -> None:
    """Add these commands to the app of the history."""
    for command in (contrast, trend):
        app.command()(command)
