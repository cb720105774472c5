"""The probe log drawn, and the same in words and in a table."""

from html import escape

from diagnose.answers.background import Trace, TraceDays
from diagnose.answers.chances import lower_first, percent
from diagnose.report.html.quantities import unbroken
from diagnose.report.html.trace_axes import axes_of, end_of_crash, mark_at
from diagnose.report.html.trace_picture import trace_picture
from diagnose.report.sheets.frame import items, text
from diagnose.units import Field, show


def trace_part(trace: Trace | None) -> str:
    """The log with its drawing; one sentence where there is none to draw."""
    if trace is None:
        return text("No probe log lies beside this record.")
    caption = text(f"Temperature of the {trace.what} by {trace.file}, in words:")
    return (
        f"<figure>{trace_picture(trace)}<figcaption>{_key(trace)}{caption}"
        f"{items(trace_words(trace))}</figcaption></figure>{_table(trace)}"
    )


def _key(trace: Trace) -> str:
    """What the shadings mean."""
    parts = []
    if trace.yeast:
        parts.append(f"grey with dashed edges: where {_band(trace)}")
    if end_of_crash(trace, axes_of(trace)) is not None:
        parts.append("hatched: the crash")
    if mark_at(trace, "packaged"):
        parts.append("dotted: packaged")
    return text(f"Shaded: {'; '.join(parts)}.") if parts else ""


def _band(trace: Trace) -> str:
    yeast = trace.yeast
    if yeast is None:
        return ""
    low, high = _both(yeast.low_c), _both(yeast.high_c)
    return f"{lower_first(yeast.name)} ferments well, {low} to {high}"


def _both(beer_c: float) -> str:
    return show(beer_c, Field.TEMPERATURE)


def trace_words(trace: Trace) -> list[str]:
    """What the drawing shows, a sentence each."""
    coolest = min(min(piece.beer_c) for piece in trace.pieces)
    warmest = max(max(piece.beer_c) for piece in trace.pieces)
    lines = [
        f"From {trace.first} to {trace.last}, {trace.hours / 24:.1f} days.",
        f"Between {_both(coolest)} and {_both(warmest)}.",
    ]
    lines += [
        f"{mark.name.capitalize()} {mark.when}{_beside(trace, mark.hours)}." for mark in trace.marks
    ]
    if trace.yeast:
        band = _band(trace)
        lines.append(f"{band[:1].upper()}{band[1:]}.")
    if trace.in_band is not None:
        lines.append(
            f"From pitching to the crash or the packaging, {percent(trace.in_band)} of the "
            "readings lie in that band."
        )
    gaps = len(trace.pieces) - 1
    if gaps:
        lines.append(f"The log has {gaps} {'gap' if gaps == 1 else 'gaps'}.")
    return lines


def _beside(trace: Trace, hours: float) -> str:
    """The temperature at a mark, or that it lies beside the log."""
    if hours < -1 or hours > trace.hours + 1:
        return ", outside the log"
    near = min(
        (abs(at - hours), beer_c)
        for piece in trace.pieces
        for at, beer_c in zip(piece.hours, piece.beer_c, strict=True)
    )
    return f", at {_both(near[1])}"


def _table(trace: Trace) -> str:
    head = "".join(
        f'<th scope="col">{name}</th>' for name in ("Day of the log", "Coolest", "Mean", "Warmest")
    )
    rows = "".join(map(_row, trace.days))
    caption = f"<caption>The {escape(trace.what)}, day by day</caption>"
    return (
        f'<table class="numbers">{caption}<thead><tr>{head}</tr></thead>'
        f"<tbody>{rows}</tbody></table>"
    )


def _row(days: TraceDays) -> str:
    cells = "".join(
        f"<td>{unbroken(_both(c))}</td>" for c in (days.low_c, days.mean_c, days.high_c)
    )
    return f'<tr><th scope="row">{days.days}</th>{cells}</tr>'
