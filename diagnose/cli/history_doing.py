"""What the history commands share: the store, the clock, progress, and short answers.

Little is imported here: a list of ten thousand batches has to be there in half a second.
"""

import json
import shutil
import sys
import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import typer

from diagnose.errors import Fault, UnusableInput
from diagnose.history.listing import BatchLine, Wanted, list_batches, shown_id
from diagnose.history.opening import Store, open_store
from diagnose.history.place import place_of

if TYPE_CHECKING:
    from diagnose.history.importing import Imported


def now() -> datetime:
    """The moment, by the clock of the place."""
    return datetime.now(UTC)


def opened(told: str | None, *, create: bool = False) -> Store:
    """The store at the place that was told; see `place_of`."""
    return open_store(place_of(told), create=create)


def listed(
    store: Store, days: tuple[str | None, str | None], style: str | None, flaw: str | None
) -> list[BatchLine]:
    """The batches that are wanted; the rule base is read only where a flaw has to be understood."""
    since, until = days_wanted(days)
    flaws = frozenset({shown_id(flaw)}) if flaw else frozenset[str]()
    found = list_batches(store, Wanted(since, until, style, flaws))
    if found or not flaw:
        return found
    from diagnose.flavour import load_lexicon
    from diagnose.history.flaws import flaw_ids
    from diagnose.shipped import shipped

    flaws = flaw_ids(flaw, load_lexicon(shipped("rules")))
    return list_batches(store, Wanted(since, until, style, flaws))


def days_wanted(days: tuple[str | None, str | None]) -> tuple[str | None, str | None]:
    """The first and the last day that are wanted, as the store writes them.

    Raises:
        UnusableInput: a day that is none.
    """
    return _day("--since", days[0]), _day("--until", days[1])


def _day(option: str, typed: str | None) -> str | None:
    from diagnose.cli.loading import today
    from diagnose.units.day import read_day

    return None if typed is None else read_day(option, typed, today()).isoformat()


def print_list(lines: Sequence[BatchLine], as_json: bool) -> None:
    """The batches, one a line; by hand, as a rich console takes seconds for thousands."""
    if as_json:
        batches = [line._asdict() for line in lines]
        print(json.dumps({"schema": "faultwort/history-list/1", "batches": batches}, indent=2))
        return
    count = "1 batch" if len(lines) == 1 else f"{len(lines)} batches"
    told = [*map(_line, lines), count]
    typer.echo("\n".join(_broken(told) if sys.stdout.isatty() else told))


def _broken(lines: list[str]) -> list[str]:
    """Lines broken between words where the terminal ends."""
    width = shutil.get_terminal_size().columns
    cut = textwrap.TextWrapper(
        width, subsequent_indent=" " * 12, break_long_words=False, break_on_hyphens=False
    )
    return [part for line in lines for part in cut.wrap(line)]


def _line(one: BatchLine) -> str:
    style = f" ({one.style})" if one.style else ""
    flavour = ", ".join(one.reported).replace("_", " ") or _without_a_flavour(one)
    sure = "" if one.confidence is None else f" ({one.confidence:.0%} sure)"
    verdict = f" <- {one.verdict.replace('_', ' ')}{sure}" if one.verdict else ""
    text = f"{one.brewed_on or 'no date   '}  {one.key}{style}: {flavour}{verdict}"
    # What a brewer typed may hold signs that steer a terminal.
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else "?" for sign in text)


def _without_a_flavour(one: BatchLine) -> str:
    if one.unclear:
        return "tasted, in words that were not understood"
    return "no flavour complained of" if one.tastings else "not tasted"


def say(text: str) -> None:
    """A sentence, broken between words where the terminal ends."""
    width = shutil.get_terminal_size().columns
    typer.echo(textwrap.fill(text, width, break_long_words=False, break_on_hyphens=False))


def imported_says(done: "Imported") -> str:
    """What an import brought."""
    if not any(vars(done).values()):
        return "Nothing new: all of it is in the store already."
    counts = ", ".join(f"{number} {what}" for what, number in vars(done).items())
    return f"Added {counts}. What was there already was left alone."


def print_counts(
    command: str, counts: Mapping[str, Any], as_json: bool, says: str | None = None
) -> None:
    """A short answer that is made of numbers; `says` is the sentence for it, if it has one."""
    if as_json:
        keyed = {key.replace(" ", "_"): value for key, value in counts.items()}
        print(json.dumps({"schema": f"faultwort/{command}/1", **keyed}, indent=2))
    else:
        say(says or ", ".join(f"{key}: {value}" for key, value in counts.items()))


def export_all(store: Store, file: Path | None, csv: Path | None) -> dict[str, int]:
    """Export to the file, to the folder, or to both.

    Raises:
        UnusableInput: neither was named.
    """
    from diagnose.history.csv_folder import export_csv
    from diagnose.history.exporting import export_to

    if file is None and csv is None:
        raise UnusableInput(Fault("history export", 0, "", "no name", "a FILE, or --csv FOLDER"))
    counts = {}
    if file is not None:
        with shown_progress("exporting") as progress:
            counts["batches"] = export_to(store, file, progress)
    return counts | (export_csv(store, csv) if csv is not None else {})


@contextmanager
def shown_progress(doing: str) -> Iterator[Callable[[int, int], None] | None]:
    """A bar beside the answers while something long goes on; none where nobody watches."""
    if not sys.stderr.isatty():
        yield None
        return
    from rich.progress import Progress

    from diagnose.report.strips import standing_by

    with Progress(console=standing_by(), transient=True) as bar:
        task = bar.add_task(doing)
        yield lambda done, total: bar.update(task, completed=done, total=total)


def upgrade_server(told: str | None) -> dict[str, str]:
    """Bring the store up to date, wherever it is; the revision it is at then."""
    from diagnose.history.opening import engine_at
    from diagnose.history.tables import HEAD
    from diagnose.history.upgrading import raise_to_head

    place = place_of(told)
    if place.file is not None:
        opened(told).close()
    else:
        engine = engine_at(place)
        raise_to_head(place, engine)
        engine.dispose()
    return {"revision": HEAD}
