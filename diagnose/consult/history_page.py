"""The whole history for one page: batches, charts, what separates them, and what was done."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from diagnose.answers.history_page import BatchRow, HistoryPage, Told
from diagnose.consult.history_correcting import offers
from diagnose.consult.history_events import events_over
from diagnose.consult.history_names import (
    Clean,
    as_written,
    brew_shown,
    line_shown,
    names_left_out,
)
from diagnose.consult.history_page_charts import charts_shown, contrasts_shown, flaws_to_show
from diagnose.consult.history_page_notes import (
    cause_name,
    happened_lines,
    split_lines,
    verdict_lines,
)
from diagnose.history.brews import notes_of, read_brews
from diagnose.history.cases import Case, cases_of
from diagnose.history.kinds import InstrumentCheck, SplitNote, Verdict
from diagnose.history.learning_facts import taught_by
from diagnose.history.learning_heard import as_heard, heard_in
from diagnose.history.learning_telling import Tellings
from diagnose.history.listing import EVERYTHING, BatchLine, Wanted, list_batches
from diagnose.history.opening import Store
from diagnose.knowledge import RuleBase

# A page with a longer table than this is slow to read and to print.
SHOWN_BATCHES = 200
Cases = Mapping[str, Case]


@dataclass(frozen=True)
class Asked:
    """What a page of the history is to show: which batches, flaws (words) and measures (ids)."""

    wanted: Wanted = EVERYTHING
    flaws: tuple[str, ...] = ()
    measures: tuple[str, ...] = ()


def history_page(rules: RuleBase, store: Store, asked: Asked, *, names: bool) -> HistoryPage:
    """The whole history, or the batches that are wanted.

    Args:
        rules: the rule base.
        store: the history.
        asked: what is to be shown.
        names: with those of brewers and tasters.

    Raises:
        UnusableInput: a flaw or a measure that was asked for is not known.
        StoreUnusable: the store cannot be read.
    """
    clean = as_written if names else names_left_out(store)
    read = heard_in(rules.lexicon, read_brews(store, asked.wanted))
    tasted = {one.key for one in read if one.tastings}
    brews = [brew_shown(one, clean) for one in read]
    events = [(on, clean(words)) for on, words in events_over(store, brews)]
    flaws = flaws_to_show(rules, brews, asked.flaws)
    contrasts = contrasts_shown(rules, brews, flaws, events)
    listed = list_batches(store, asked.wanted)
    cases = _cases(rules, store)
    rows = [
        _row(rules, one, (one.key in tasted, cases.get(one.key)), clean=clean) for one in listed
    ]
    keys = {one.key for one in listed}
    verdicts = [one for one in notes_of(store, Verdict) if one.batch in keys]
    told = [row.told for row in rows]
    days = [one.brewed_on for one in listed if one.brewed_on]
    return HistoryPage(
        first=days[0] if days else None,
        last=days[-1] if days else None,
        flawed=told.count("flawed"),
        clean=told.count("clean"),
        not_tasted=told.count("not tasted"),
        left_out=max(0, len(rows) - SHOWN_BATCHES),
        batches=tuple(rows[-SHOWN_BATCHES:]),
        charts=charts_shown(rules, brews, (flaws, asked.measures), contrasts, events),
        contrasts=contrasts,
        happened=happened_lines(events, notes_of(store, InstrumentCheck), clean),
        verdicts=verdict_lines(rules, verdicts, clean),
        splits=split_lines(rules, notes_of(store, SplitNote), clean),
        remarks=tuple(map(clean, offers(store))),
    )


def _cases(rules: RuleBase, store: Store) -> Cases:
    """The case of each batch that has one; of several, the one that is believed most."""
    taught = as_heard(rules.lexicon, taught_by(store))
    found = cases_of(Tellings(rules), taught)
    return {one.batch: one for one in sorted(found, key=lambda case: case.now)}


def _row(
    rules: RuleBase, line: BatchLine, stands: tuple[bool, Case | None], *, clean: Clean
) -> BatchRow:
    (tasted, case), shown = stands, line_shown(line, clean)
    told: Told = "flawed" if line.reported else "clean" if tasted else "not tasted"
    verdict = ""
    if line.verdict and line.confidence is not None:
        verdict = f"{cause_name(rules, line.verdict)} ({line.confidence:.0%} sure)"
    back = replace(case, since=clean(case.since or "")) if case else None
    return BatchRow(
        key=shown.key,
        brewed_on=line.brewed_on,
        style=shown.style or "",
        told=told,
        words=tuple(_words(rules, line.reported)),
        verdict=verdict,
        status=_status("judged" if verdict else told, back),
    )


def _status(told: str, case: Case | None) -> str:
    if case is None:
        return _WITHOUT_A_CASE[told]
    if case.state == "closed":
        return f"closed by the {case.basis}"
    if case.state == "not closed":
        return "not closed: repeat, or taste blind"
    return f"open again since {case.since}"


_WITHOUT_A_CASE = {
    "flawed": "open: no verdict",
    "clean": "",
    "not tasted": "to be tasted",
    # The rule base does not have the cause any more.
    "judged": "judged",
}


def _words(rules: RuleBase, ids: Sequence[str]) -> list[str]:
    cards = rules.descriptors
    return [cards[one].name if one in cards else one.replace("_", " ") for one in ids]
