"""The pages of `history contrast` and `history trend`."""

from collections.abc import Sequence

from rich.console import Console

from diagnose.answers.chances import percent
from diagnose.answers.history_looking import (
    Contrast,
    SharedCauseLine,
    SharedCauses,
    SuspectLine,
    Trend,
    TrendPoint,
)
from diagnose.report.strips import hanging, heading

_CHART_CELLS = 31
_SHOWN_POINTS = 60
_SHOWN_ALIASES = 4


def print_contrast(console: Console, answer: Contrast) -> None:
    """The sentences, the one table, and the model's view beside it."""
    text = f"{answer.flawed} flawed, {answer.clean} clean"
    heading(console, f'"{answer.flaw}" ({", ".join(answer.descriptors)}): {text}')
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    if answer.suspects:
        heading(console, f"Factors that differ most, of {answer.tested} looked at")
        for place, suspect in enumerate(answer.suspects, start=1):
            _print_suspect(console, place, suspect)
    if answer.model is not None:
        _print_model(console, answer.model)


def _print_suspect(console: Console, place: int, one: SuspectLine) -> None:
    claimed = "CLAIMED" if one.claimed else "not claimed"
    hanging(console, f"{place}.", f"{one.name}: {claimed}", indent=0)
    hanging(console, "n", f"{_counts(one)}", indent=3)
    second = ""
    if one.second_p is not None:
        other = "Boschloo" if one.test == "Fisher" else "permutation of means"
        second = f"; {other} {_p(one.second_p)}"
    text = f"{_p(one.p)} ({one.test}{second}), adjusted {_p(one.p_adjusted)}"
    hanging(console, "p", text, indent=3)
    hanging(console, "by", _effect(one), indent=3)
    if one.moved_with:
        names = [
            f"{alias.name} ({'always' if alias.together >= 1.0 - 1e-9 else 'nearly'})"
            for alias in one.moved_with[:_SHOWN_ALIASES]
        ]
        more = len(one.moved_with) - len(names)
        tail = f"; and {more} more" if more else ""
        hanging(console, "moved with", "; ".join(names) + tail, indent=3)


def _counts(one: SuspectLine) -> str:
    if one.flawed_with is None:
        return f"{one.flawed} flawed, {one.clean} clean"
    return (
        f"{one.flawed_with} of {one.flawed} flawed have it, {one.clean_with} of {one.clean} clean"
    )


def _effect(one: SuspectLine) -> str:
    ends = (one.effect_low, one.effect_high)
    if one.unit == "share":
        low, high = (f"{100.0 * (end or 0.0):+.0f}" for end in ends)
        return f"{100.0 * one.effect:+.0f} points ({low} to {high})"
    if None in ends:
        return f"{one.effect:+.3g} {one.unit}; too few for an interval"
    return f"{one.effect:+.3g} {one.unit} ({one.effect_low:+.3g} to {one.effect_high:+.3g})"


def _p(chance: float) -> str:
    return f"{chance:.2g}" if chance >= 1e-4 else "under 0.0001"


def _print_model(console: Console, model: SharedCauses) -> None:
    heading(console, f"One shared cause, by the model ({model.flawed} flawed, {model.clean} clean)")
    for one in model.causes:
        hanging(console, f"{percent(one.share):>10}", f"{one.name}: {_heard(one)}", indent=0)
    hanging(console, f"{percent(model.none):>10}", "no shared cause", indent=0)


def _heard(one: SharedCauseLine) -> str:
    said = [
        f"{kind} batches {'rule it out' if weight is None else f'{weight:+.0f} dB'}"
        for kind, weight in (("flawed", one.flawed_decibans), ("clean", one.clean_decibans))
    ]
    return ", ".join(said)


def print_trend(console: Console, answer: Trend) -> None:
    """The sentences, the chart as text, and what was done."""
    heading(console, f"{answer.of}, {answer.batches} batches")
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    if answer.low is not None and answer.high is not None:
        limits = f"mean {answer.centre:.4g}, limits {answer.low:.4g} to {answer.high:.4g}"
        hanging(console, "-", f"{limits} {answer.unit}", indent=0)
    heading(console, "Batch by batch")
    shown = answer.points[-_SHOWN_POINTS:]
    ends = _ends(answer, shown)
    for point in shown:
        _print_point(console, answer, point, ends)
    if answer.fixes:
        heading(console, "What was done, and did it hold?")
        for fix in answer.fixes:
            hanging(console, fix.on, f"{fix.words}: {fix.says}", indent=0)


def _ends(answer: Trend, shown: Sequence[TrendPoint]) -> tuple[float, float]:
    values = [point.value for point in shown]
    limits = [end for end in (answer.low, answer.high) if end is not None]
    return min([*values, *limits]), max([*values, *limits])


def _print_point(
    console: Console, answer: Trend, point: TrendPoint, ends: tuple[float, float]
) -> None:
    if answer.kind == "flaw":
        text = "flawed" if point.value else "."
    else:
        marks = f" <- {', '.join(point.marks)}" if point.marks else ""
        text = f"{_plotted(answer, point.value, ends)} {point.value:.4g}{marks}"
    hanging(console, point.brewed_on or "no date   ", f"{text}  {point.key}", indent=0)


def _plotted(answer: Trend, value: float, ends: tuple[float, float]) -> str:
    """A strip with the centre and the limits, and a star at the value."""
    cells = ["."] * _CHART_CELLS
    for sign, at in (("|", answer.low), ("|", answer.high), (":", answer.centre), ("*", value)):
        if at is not None:
            width = ends[1] - ends[0]
            share = (at - ends[0]) / width if width else 0.5
            cells[round(min(1.0, max(0.0, share)) * (_CHART_CELLS - 1))] = sign
    return "".join(cells)
