"""What to ask next, what to do with this beer now, and what to do next time."""

from html import escape

from diagnose.answers import Diagnosis, NextStep
from diagnose.report.diagnosis_page import SHOWN_MISSING, STOP_FIRST, advised, is_stopped
from diagnose.report.sheets.frame import items, section, text

_KINDS = {"question": "Answer", "entry": "Look up", "check": "Check"}


def find_out(diagnosis: Diagnosis) -> str:
    """The best questions, entries and checks, and what the record lacks."""
    steps = "".join(f"<li>{_step(step)}</li>" for step in diagnosis.next_)
    shown = "; ".join(diagnosis.missing[:SHOWN_MISSING])
    more = len(diagnosis.missing) - SHOWN_MISSING
    tail = f"; and {more} more" if more > 0 else ""
    lacks = text(f"Not in the record: {shown}{tail}.") if shown else ""
    if not steps:
        return lacks
    return f"{text('The best for its effort comes first.')}<ol>{steps}</ol>{lacks}"


def _step(step: NextStep) -> str:
    answers = f" Answers: {'; '.join(step.answers)}." if step.answers else ""
    worth = f"Worth {step.gain_bits:.2f} bits."
    return (
        f"<strong>{_KINDS[step.kind]}, {step.minutes:.0f} min:</strong> {escape(step.text)} "
        f'<span class="small">{escape(worth + answers)}</span>'
    )


def after_beer(diagnosis: Diagnosis) -> str:
    """What to do now and next time, for the suspect that comes first in each group."""
    now = text(STOP_FIRST) if is_stopped(diagnosis) and advised(diagnosis) else ""
    next_time = ""
    first = advised(diagnosis)
    for cause in first:
        against = f"<h3>Against: {escape(cause.name)}</h3>" if len(first) > 1 else ""
        now += f"{against}{items(cause.now)}" if cause.now else ""
        next_time += f"{against}{items(cause.next_time)}" if cause.next_time else ""
    return section("With this beer, now", now) + section("Next time", next_time)
