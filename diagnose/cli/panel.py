"""`faultwort panel`: plan a blind tasting, its limits, and read one."""

from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.plain_slips import WholeHelp

panel_app = typer.Typer(
    cls=WholeHelp, help="Blind tastings: sizes, limits, readings.", no_args_is_help=True
)
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Test = Annotated[str, typer.Option("--test", help="triangle, tetrad, 2-afc, 3-afc, duo-trio …")]
Alpha = Annotated[float, typer.Option("--alpha", help="Highest risk of a false alarm.")]


@panel_app.command()
def size(
    test: Test = "triangle",
    alpha: Alpha = 0.1,
    power: Annotated[float, typer.Option(help="Wanted chance of finding the difference.")] = 0.8,
    dprime: Annotated[
        float | None, typer.Option("--dprime", help="Distance to find: 1 faint, 3 obvious.")
    ] = None,
    discriminators: Annotated[
        float | None,
        typer.Option("--discriminators", help="Share of tasters who can tell; 0.5 if not said."),
    ] = None,
    most: Annotated[int, typer.Option("--most", help="Most answers on offer.")] = 30,
    as_json: AsJson = False,
) -> None:
    """Good numbers of answers, and the ones that are worse than fewer."""
    from diagnose.cli.loading import print_json
    from diagnose.consult.panels import SizeAsked, size_panel
    from diagnose.report import terminal
    from diagnose.report.panel_pages import print_panel_sizes

    answer = size_panel(SizeAsked(test, alpha, power, dprime, discriminators, most))
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_panel_sizes(terminal(), answer)


@panel_app.command()
def critical(
    test: Test = "triangle",
    tasters: Annotated[int | None, typer.Option("--tasters", help="Number of answers.")] = None,
    alpha: Alpha = 0.1,
    evenings: Annotated[
        str | None, typer.Option("--evenings", help='Answers planned each evening: "8,8,8".')
    ] = None,
    as_json: AsJson = False,
) -> None:
    """How many answers have to be right to show a difference."""
    from diagnose.cli.loading import print_json
    from diagnose.consult.panel_limits import panel_criticals
    from diagnose.report import terminal
    from diagnose.report.panel_pages import print_panel_criticals

    answer = panel_criticals(test, alpha, tasters, evenings)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_panel_criticals(terminal(), answer)


Each = Annotated[
    str | None, typer.Option("--each", help='Right answers of each taster: "3,2,4 of 4".')
]
Replicates = Annotated[
    Path | None, typer.Option("--replicates", help='A file, one taster a line: "c, 3 of 4".')
]
Evenings = Annotated[
    str | None, typer.Option("--evenings", help='As planned: "5 of 8, 4 of 8, - of 8".')
]
FalseAlarms = Annotated[
    str | None, typer.Option("--false-alarms", help='A-not-A: others called A, "3 of 20".')
]
Ratings = Annotated[str | None, typer.Option("--ratings", help='Difference from control: "3,5,2".')]
Control = Annotated[str | None, typer.Option("--control", help="Ratings of the blind control.")]
Able = Annotated[
    float, typer.Option("--discriminators", help="Share able to tell that would matter.")
]


@panel_app.command()
def read(
    test: Test = "triangle",
    correct: Annotated[int | None, typer.Option("--correct", help="Right answers.")] = None,
    of: Annotated[int | None, typer.Option("--of", help="Answers in all.")] = None,
    alpha: Alpha = 0.1,
    discriminators: Able = 0.5,
    each: Each = None,
    replicates: Replicates = None,
    evenings: Evenings = None,
    false_alarms: FalseAlarms = None,
    ratings: Ratings = None,
    control: Control = None,
    as_json: AsJson = False,
) -> None:
    """What a tasting shows, and what it could have missed."""
    from diagnose.cli.loading import print_json
    from diagnose.consult.panel_reading import ReadAsked, read_panel
    from diagnose.report import terminal
    from diagnose.report.panel_pages import print_panel_read

    answer = read_panel(
        ReadAsked(
            test=test,
            correct=correct,
            of=of,
            alpha=alpha,
            discriminators=discriminators,
            each=each,
            replicates=replicates,
            evenings=evenings,
            false_alarms=false_alarms,
            ratings=ratings,
            control=control,
        )
    )
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_panel_read(terminal(), answer)
