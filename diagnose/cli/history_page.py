"""`faultwort history show`: one batch, or the whole history as a page."""

from collections.abc import Sequence
from dataclasses import asdict
from pathlib import Path
from typing import TYPE_CHECKING

from diagnose.errors import Fault, UnusableInput

if TYPE_CHECKING:
    from diagnose.answers.history_page import HistoryPage
    from diagnose.consult.history_names import Clean
    from diagnose.consult.history_page import Asked
    from diagnose.history.opening import Store


def asked_for(
    days: tuple[str | None, str | None],
    style: str | None,
    flaws: Sequence[str],
    measures: Sequence[str],
) -> "Asked":
    """What a page of the history is to show.

    Raises:
        UnusableInput: a day that is none.
    """
    from diagnose.cli.history_doing import days_wanted
    from diagnose.consult.history_page import Asked
    from diagnose.history.listing import Wanted

    return Asked(Wanted(*days_wanted(days), style), tuple(flaws), tuple(measures))


def show_batch_as(
    store: str | None, key: str, html: Path | None, *, names: bool, as_json: bool
) -> None:
    """One batch on the terminal, as JSON or as a page."""
    from diagnose.cli.history_doing import opened
    from diagnose.cli.history_remarks import remarks_on
    from diagnose.cli.loading import print_json, shipped_rules, today
    from diagnose.consult.history_cautions import cautions_kept
    from diagnose.consult.history_names import batch_shown
    from diagnose.history.showing import show_batch
    from diagnose.report import terminal
    from diagnose.report.history_pages import print_shown

    with opened(store) as history:
        raw, clean = show_batch(history, key), _clean(history, names)
        remarks = tuple(map(clean, remarks_on(history, raw)))
        rules, day = shipped_rules(), today()
        cautions = cautions_kept(rules, history, raw.key, day)
        shown = batch_shown(raw, clean)
        if html is not None:
            from diagnose.consult.history_page_batch import Told, batch_page
            from diagnose.report.html import batch_html

            told = Told(raw.key, shown, remarks, cautions)
            page = batch_page(rules, history, told, clean=clean, today=day)
            _write(html, batch_html(page), quiet=as_json)
    if as_json:
        lines = [line.model_dump(mode="json") for line in cautions]
        said = {"cautions": lines, **asdict(shown), "remarks": remarks}
        print_json({"schema": "faultwort/history-show/1", **said})
    elif html is None:
        print_shown(terminal(), shown, remarks, cautions)


def _clean(store: "Store", names: bool) -> "Clean":
    from diagnose.consult.history_names import as_written, names_left_out

    return as_written if names else names_left_out(store)


def show_history(
    store: str | None, asked: "Asked", html: Path | None, *, names: bool, as_json: bool
) -> None:
    """The whole history as a page, or as JSON.

    Raises:
        UnusableInput: neither is wanted.
    """
    if html is None and not as_json:
        wanted = "a batch as 'history list' shows it, or --html FILE for a page of them all"
        raise UnusableInput(Fault("history show", 0, "", "no batch", wanted))
    from diagnose.cli.history_doing import opened
    from diagnose.cli.loading import print_json, shipped_rules
    from diagnose.consult.history_page import history_page
    from diagnose.report.html import history_html

    with opened(store) as history:
        page = history_page(shipped_rules(), history, asked, names=names)
    if html is not None:
        _write(html, history_html(page), quiet=as_json)
    if as_json:
        print_json(page.model_dump(mode="json", by_alias=True))
    else:
        _print_sum(page)


def _print_sum(page: "HistoryPage") -> None:
    charts = "; ".join(one.trend.of for one in page.charts) or "none: too few batches"
    print(f"{page.flawed} flawed, {page.clean} clean, {page.not_tasted} not tasted.")
    print(f"Charts: {charts}.")


def _write(file: Path, page: str, *, quiet: bool) -> None:
    from diagnose.consult import write_page
    from diagnose.report.html import HISTORY_OPENING

    write_page(file, page, HISTORY_OPENING)
    if not quiet:
        print(f"The page is in {file}.")
