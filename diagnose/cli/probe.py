"""The command that reads a logger's export, and the profiles it keeps."""

import os
import sys
from pathlib import Path
from typing import Annotated

import typer

File = Annotated[Path | None, typer.Argument(help="A logger's CSV.", show_default=False)]
Zone = Annotated[str | None, typer.Option("--zone", help="Time zone of its clock.")]
Unit = Annotated[str | None, typer.Option("--unit", help="C or F, where the file is silent.")]
DayFirst = Annotated[
    bool | None, typer.Option("--day-first/--month-first", help="How its dates are written.")
]
Column = Annotated[
    list[str] | None,
    typer.Option("--column", help='What a column is: "temp 2=beer", 3=air, "x=nothing".'),
]
ProfileName = Annotated[
    str | None, typer.Option("--profile", help="Read it with this saved profile.")
]
SaveProfile = Annotated[
    str | None,
    typer.Option("--save-profile", help="Keep these answers for files with its columns."),
]
ListProfiles = Annotated[bool, typer.Option("--profiles", help="List the saved profiles.")]
ForgetProfile = Annotated[
    str | None, typer.Option("--forget-profile", help="Forget this saved profile.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]


def probe(
    file: File = None,
    zone: Zone = None,
    unit: Unit = None,
    day_first: DayFirst = None,
    column: Column = None,
    profile: ProfileName = None,
    save_profile: SaveProfile = None,
    profiles: ListProfiles = False,
    forget_profile: ForgetProfile = None,
    as_json: AsJson = False,
) -> None:
    """What a logger's export contains: units guessed and why, gaps, spikes, a summary.

    Answers kept with --save-profile are used for the next file with the same columns. They are in
    one small file; FAULTWORT_PROFILES moves it, empty turns them off.
    """
    from diagnose.batch.probe.choices import Choices, parts_from
    from diagnose.batch.probe.profile_file import profile_place
    from diagnose.cli.loading import print_json
    from diagnose.consult import ProbeQuestion, answer_probe
    from diagnose.report import Waiting, print_probe, terminal

    place = profile_place(os.environ, sys.platform)
    if profiles or forget_profile is not None:
        show_profiles(place, forget_profile, as_json=as_json)
        return
    if file is None:
        raise typer.BadParameter("a logger's CSV is wanted", param_hint="FILE")
    choices = Choices(zone, unit, day_first, parts_from(column or ()))
    question = ProbeQuestion(file, choices, place, profile, save_profile)
    with Waiting(sys.stderr, f"reading {file.name}") as waiting:
        answer = answer_probe(question, waiting.say)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_probe(terminal(), answer)


def show_profiles(place: Path | None, forgotten: str | None, *, as_json: bool) -> None:
    """Print the saved profiles, one of them forgotten before if so asked."""
    from diagnose.cli.loading import print_json
    from diagnose.consult import forget_saved, list_saved
    from diagnose.report import print_profiles, terminal

    answer = list_saved(place) if forgotten is None else forget_saved(place, forgotten)
    if as_json:
        print_json(answer.model_dump(mode="json", by_alias=True))
    else:
        print_profiles(terminal(), answer)
