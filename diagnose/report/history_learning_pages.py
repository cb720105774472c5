"""The pages of `history learn` and `history correct`."""

from collections import Counter
from re import sub

from rich.console import Console

from diagnose.answers.chances import percent
from diagnose.answers.history_learning import (
    CorrectedBatch,
    HistoryCorrected,
    HistoryLearned,
    RateLine,
    SpreadLine,
    StrengthLine,
)
from diagnose.report.strips import hanging, heading

_SHOWN = 12
_LEAST_CHANGE = 0.1


def print_learned(console: Console, answer: HistoryLearned) -> None:
    """Before and after with the reasons, and how the cases stand."""
    heading(console, "What your batches taught")
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    for sentence in answer.offers:
        hanging(console, "!", sentence, indent=0)
    if answer.cases:
        heading(console, "Cases")
        for case in answer.cases:
            hanging(console, "-", case.says, indent=0)
    _print_rates(console, answer.rates)
    _print_strengths(console, answer.strengths)
    if answer.tasters:
        heading(console, "What each taster notices, where it is there")
        for one in answer.tasters:
            text = f"{one.name}: {_moved(one.before, one.after)}"
            hanging(console, f"{one.taster}:", text, indent=0)
            hanging(console, "", one.says, indent=3)


def _print_rates(console: Console, rates: tuple[RateLine, ...]) -> None:
    worth = [one for one in rates if one.judged or _far(one.before, one.after)]
    if worth:
        heading(console, "Base rates: how often each cause acts, in batches where it can")
        hanging(console, "", "rule base -> yours (nine chances in ten that it lies between)")
    for one in worth[:_SHOWN]:
        hanging(console, "-", f"{one.name}: {_moved(one.before, one.after)}", indent=0)
        hanging(console, "", one.says, indent=3)
    _print_rest(console, len(rates), len(worth))


def _print_rest(console: Console, moved: int, worth: int) -> None:
    more = max(worth - _SHOWN, 0)
    if more:
        hanging(console, "", f"and {more} more; --json shows all", indent=0)
    if moved > worth:
        text = f"{moved - worth} other base rates moved by less than a tenth."
        hanging(console, "-", text, indent=0)


def _print_strengths(console: Console, strengths: tuple[StrengthLine, ...]) -> None:
    worth = [one for one in strengths if _far(one.before, one.after)]
    if worth:
        heading(console, "Links: how often a cause that acted is noticed so")
    for one in worth[:_SHOWN]:
        name = f"{one.cause_name} -> {one.compound_name}"
        hanging(console, "-", f"{name}: {_moved(one.before, one.after)}", indent=0)
        hanging(console, "", one.says, indent=3)


def _far(before: SpreadLine, after: SpreadLine) -> bool:
    return abs(after.value / before.value - 1.0) >= _LEAST_CHANGE


def _moved(before: SpreadLine, after: SpreadLine) -> str:
    ends = f"{_share(after.low)} to {_share(after.high)}"
    return f"{_share(before.value)} -> {_share(after.value)} ({ends})"


def _share(share: float) -> str:
    return f"{100 * share:.1f} %" if 0.001 <= share < 0.1 else percent(share)


def print_corrected(console: Console, answer: HistoryCorrected) -> None:
    """Which entries are off, and what became of them."""
    heading(console, f"{answer.instrument}: {answer.off_by}")
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    left = len(answer.batches) - _SHOWN
    if left > 0:
        heading(console, "How many of each entry")
        every = (one.entry for batch in answer.batches for one in batch.entries)
        for entry, number in Counter(sub(r"\[\d+\]", "", one) for one in every).most_common():
            hanging(console, f"{entry}:", str(number), indent=0)
        heading(console, f"The latest {_SHOWN} batches; --json shows {left} more")
    for batch in answer.batches[-_SHOWN:]:
        _print_corrected_batch(console, batch)


def _print_corrected_batch(console: Console, batch: CorrectedBatch) -> None:
    version = f" (version {batch.version} now)" if batch.version is not None else ""
    hanging(console, batch.brewed_on or "no date   ", f"{batch.batch}{version}", indent=0)
    changes = [f"{one.entry} {one.typed} -> {one.corrected}" for one in batch.entries]
    hanging(console, "", "; ".join(changes), indent=3)
    if batch.note:
        hanging(console, "", batch.note, indent=3)
