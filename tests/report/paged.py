"""One page of every kind, made from worked cases and synthetic batches."""

from functools import cache

from diagnose.answers.caution import CautionLine
from diagnose.answers.history_page import (
    BatchPage,
    BatchRow,
    DiagnosedLine,
    EntryLine,
    HappenedLine,
    HistoryPage,
    ShareLine,
    SplitLine,
    TastedLine,
    VerdictLine,
    VersionLine,
)
from diagnose.consult import to_show
from diagnose.consult.history_page_charts import charts_shown, contrasts_shown
from diagnose.consult.split_panels import glasses_each, pour
from diagnose.consult.tracing import trace_of
from diagnose.history.brews import Brew
from diagnose.report.html import batch_html, diagnosis_html, history_html
from diagnose.report.sheets import ballots_page, host_page, plan_page, pourer_page
from tests.casebook.replayed import consultation_of, diagnosis_of
from tests.history.statistics.brewers import BUTTERY, brew
from tests.knowledge.shipped import rule_base
from tests.trial.arms import asked_of, usual_plan

LOGGED = "crashed_too_soon"
EVENTS = (("2024-09-01", "new fridge & <hose>"), ("2025-02-01", "other water"))
VERDICT = VerdictLine(
    batch="batch-03",
    on="2024-04-01",
    who="Tansy",
    cause="Too little living yeast",
    state="confirmed",
    basis="split",
    confidence=0.9,
    words="one pack was <too few>",
)
SPLIT = SplitLine(
    name="bucket or can",
    on="2024-05-01",
    cause="Too little living yeast",
    factor="packs",
    arms=("batch-03: the suspect's setting", "batch-04: the other setting"),
    known=("A difference was shown.",),
    not_known=("Whether the vessels did it.",),
    next_=("Confirm by repeat.",),
)


def brews(count: int = 24) -> list[Brew]:
    """Batches of which every fourth was buttery; warmer from the middle on, one far off."""
    found = []
    for number in range(count):
        warm = 21.5 if number >= count // 2 else 18.0
        pitch_c = 29.0 if number == count - 3 else warm + 0.1 * (number * 7 % 5)
        measures = {"pitch_c": (pitch_c, pitch_c, pitch_c), "early_excess_c": (-1.0, 0.5, 2.0)}
        found.append(brew(number, number % 4 == 1, measures, {"vessel": (f"can {number % 2}",)}))
    return found


@cache
def history() -> HistoryPage:
    rules, some = rule_base(), brews()
    contrasts = contrasts_shown(rules, some, [BUTTERY], EVENTS)
    asked = ([BUTTERY], ["pitch_c", "early_excess_c"])
    return HistoryPage(
        first=some[0].brewed_on,
        last=some[-1].brewed_on,
        flawed=6,
        clean=18,
        not_tasted=0,
        left_out=3,
        batches=tuple(map(_row, some)),
        charts=charts_shown(rules, some, asked, contrasts, EVENTS),
        contrasts=contrasts,
        happened=tuple(HappenedLine(on=on, kind="event", words=words) for on, words in EVENTS),
        verdicts=(VERDICT,),
        splits=(SPLIT,),
        remarks=("The thermometer read 1.0 C too high.",),
    )


def _row(one: Brew) -> BatchRow:
    told = "flawed" if one.reported else "clean"
    words = ("butter",) if one.reported else ()
    return BatchRow(
        key=one.key,
        brewed_on=one.brewed_on,
        style="pale ale",
        told=told,
        words=words,
        verdict="",
        status="open: no verdict" if words else "",
    )


@cache
def batch() -> BatchPage:
    return BatchPage(
        name="house <pale>",
        key="house-pale-2026-05-02",
        brewed_on="2026-05-02",
        withdrawn=False,
        cautions=(CautionLine(level="stop", text="Do not <open> it."),),
        remarks=("not closed",),
        entries=(EntryLine(key="storage[1].at", typed="66 F", both="18.9 C (66 F)"),),
        tastings=(TastedLine(who="Wren", when="2026-06-01", words="<b>", taken_for="butter"),),
        diagnoses=(
            DiagnosedLine(
                on="2026-06-02",
                rules="abc",
                verdict="One is ahead.",
                suspects=(ShareLine(name="Too little living yeast", share=0.42),),
            ),
        ),
        verdicts=(VERDICT,),
        splits=(SPLIT,),
        panels=("2026-06-01, triangle: Wren: 2 of 3 right.",),
        versions=(VersionLine(what="1. added, 2026-05-02", changes=("pitch.at: 1 C \u2192 2 C",)),),
        trace=trace_of(consultation_of(LOGGED)),
    )


@cache
def pages() -> dict[str, str]:
    """The HTML of every kind of page."""
    shown = to_show(rule_base(), consultation_of(LOGGED), diagnosis_of(LOGGED), names=True)
    poured = pour(usual_plan(), asked_of("triangle"), (5, "salt"))
    return {
        "diagnosis": diagnosis_html(*shown),
        "history": history_html(history()),
        "batch": batch_html(batch()),
        "plan": plan_page(usual_plan()),
        "ballots": ballots_page(poured.panel),
        "host": host_page(poured.panel, glasses_each(poured.panel)),
        "pourer": pourer_page(poured.panel, poured.vessels),
    }


KINDS = ("diagnosis", "history", "batch", "plan", "ballots", "host", "pourer")
