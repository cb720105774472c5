"""The options of `diagnose`."""

from pathlib import Path
from typing import Annotated

import typer

from diagnose.cli.plain_slips import number_from

_A_BATCH = "A record, a case's folder, or a batch by its key."
Record = Annotated[Path, typer.Argument(help=_A_BATCH)]
MaybeBatch = Annotated[
    Path | None,
    typer.Argument(help=_A_BATCH, show_default=False),
]
Taste = Annotated[
    list[str] | None, typer.Option("--taste", help='What it tastes of: "hint of butter".')
]
Top = Annotated[
    int,
    typer.Option("--top", callback=number_from("--top", 1, 8), help="Suspects to show, 1 to 8."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print one JSON document instead.")]
Html = Annotated[
    Path | None,
    typer.Option("--html", help="Write a page to this file instead.", show_default=False),
]
WithoutNames = Annotated[
    bool, typer.Option("--without-names", help="Leave out brewer's and tasters' names.")
]
Remember = Annotated[
    bool, typer.Option("--remember", help="Keep batch and diagnosis in the history.")
]
Learned = Annotated[
    bool | None,
    typer.Option("--learned/--not-learned", help="Use what your batches taught."),
]
Store = Annotated[str | None, typer.Option("--store", help="The history's file or database URL.")]
Suppose = Annotated[
    list[str] | None,
    typer.Option("--suppose", help='What if: "storage at 4 C", "no butter", mash.at=66 C.'),
]
Without = Annotated[
    list[str] | None,
    typer.Option("--without", help="What if this evidence key or record entry were not there."),
]
Band = Annotated[
    bool, typer.Option("--band", help="How far each chance moves with our own guesses.")
]
