"""The pages of `history contrast` and `history trend`."""

from collections.abc import Sequence

from rich.console import Console

from diagnose.answers.chances import chance_figure, odds_text, percent
from diagnose.answers.history_looking import (
    Contrast,
    SharedCauseLine,
    SharedCauses,
    SuspectLine,
    Trend,
    TrendPoint,
)
from diagnose.answers.trend_scales import trend_scales
from diagnose.report.strips import hanging, heading, odds_words
from diagnose.units.scales import Scales, change_in_both

_CHART_CELLS = 31
_SHOWN_POINTS = 60
# At least so many factors and causes are shown, and every cause of a chance from here on.
_FEW = 3
_LEAST_SHARE = 0.05
_LOUDEST_DECIBANS, _QUIETEST_DECIBANS = 30.0, 0.5


def print_contrast(console: Console, answer: Contrast) -> None:
    """The sentences, what differs most, and the model's view beside it; JSON has the rest."""
    text = f"{answer.flawed} flawed, {answer.clean} clean"
    heading(console, f'"{answer.flaw}" ({", ".join(answer.descriptors)}): {text}')
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    if answer.suspects:
        heading(console, f"Factors that differ most, of {answer.tested} looked at")
        worth = [one for place, one in enumerate(answer.suspects) if one.claimed or place < _FEW]
        for place, suspect in enumerate(worth, start=1):
            _print_suspect(console, place, suspect)
        more = len(answer.suspects) - len(worth)
        if more:
            hanging(console, "", f"and {more} more; --json shows them, and what moved with them")
    if answer.model is not None:
        _print_model(console, answer.model)


def _print_suspect(console: Console, place: int, one: SuspectLine) -> None:
    claimed = "CLAIMED" if one.claimed else "not claimed"
    hanging(console, f"{place}.", f"{one.name}: {claimed}", indent=0)
    hanging(console, "", f"{_counts(one)}: {_effect(one)}", indent=2)
    chances = f"p {chance_figure(one.p)} ({one.test}), adjusted {chance_figure(one.p_adjusted)}"
    hanging(console, "", chances, indent=2)


def _counts(one: SuspectLine) -> str:
    if one.flawed_with is None:
        return f"{one.flawed} flawed, {one.clean} clean"
    return (
        f"{one.flawed_with} of {one.flawed} flawed have it, {one.clean_with} of {one.clean} clean"
    )


def _effect(one: SuspectLine) -> str:
    if one.effect_low is None or one.effect_high is None:
        alone = change_in_both((one.effect, one.effect, one.effect), one.unit)
        return f"{alone}; too few for an interval"
    band = (one.effect, one.effect_low, one.effect_high)
    if one.unit == "share":
        mid, low, high = (round(100.0 * end) for end in band)
        return f"{mid:+d} points ({low:+d} to {high:+d})"
    return change_in_both(band, one.unit)


def _print_model(console: Console, model: SharedCauses) -> None:
    heading(
        console,
        f"A cause in common, by the model ({model.flawed} flawed, {model.clean} clean)",
    )
    rows = [(one.share, f"{one.name}: {_pattern(one)}") for one in model.causes]
    rows += [
        (model.none, "no cause in common"),
        (model.unknown, f"one that the rule base lacks or weighs too lightly{_with_what(model)}"),
        (model.own, "what yeast and style bring by themselves"),
    ]
    for place, (share, words) in enumerate(sorted(rows, reverse=True)):
        if place < _FEW or share >= _LEAST_SHARE:
            hanging(console, f"{odds_text(share):>20}", words, indent=0)


def _pattern(one: SharedCauseLine) -> str:
    """What one batch suggests, and what flawed against clean ones add."""
    weight = one.pattern_decibans
    says = odds_words(weight) if abs(weight) <= _LOUDEST_DECIBANS else "over x1000"
    if abs(weight) < _QUIETEST_DECIBANS:
        says = "says nothing"
    return f"{percent(one.alone)} by one such batch, the pattern {says}"


def _with_what(model: SharedCauses) -> str:
    return f" (goes with {'; '.join(model.goes_with[:2])})" if model.goes_with else ""


def print_trend(console: Console, answer: Trend) -> None:
    """The sentences, the chart as text, and what was done."""
    heading(console, f"{answer.of}, {answer.batches} batches")
    for sentence in answer.says:
        hanging(console, "-", sentence, indent=0)
    latest = answer.batches > _SHOWN_POINTS
    heading(console, f"Batch by batch{f', the latest {_SHOWN_POINTS}' if latest else ''}")
    shown = answer.points[-_SHOWN_POINTS:]
    ends, scales = _ends(shown), trend_scales(answer)
    for point in shown:
        told = _tasted(point) if answer.kind == "flaw" else _measured(point, ends, scales)
        hanging(console, point.brewed_on or "no date   ", f"{told}  {point.key}", indent=0)
    if answer.fixes:
        heading(console, "What was done, and did it hold?")
        for fix in answer.fixes:
            hanging(console, fix.on, f"{fix.words}: {fix.says}", indent=0)


def _ends(shown: Sequence[TrendPoint]) -> tuple[float, float]:
    lines = [(point.value, point.low, point.high) for point in shown]
    values = [value for line in lines for value in line if value is not None]
    return min(values), max(values)


def _tasted(point: TrendPoint) -> str:
    return "flawed" if point.value else "."


def _measured(point: TrendPoint, ends: tuple[float, float], scales: Scales) -> str:
    marks = f" <- {', '.join(point.marks)}" if point.marks else ""
    return f"{_plotted(point, ends)} {scales.figures(point.value)}{marks}"


def _plotted(point: TrendPoint, ends: tuple[float, float]) -> str:
    """A strip with the centre and the limits of the point's stretch, and a star at its value."""
    cells = ["."] * _CHART_CELLS
    lines = (("|", point.low), ("|", point.high), (":", point.centre), ("*", point.value))
    for sign, at in lines:
        if at is not None:
            width = ends[1] - ends[0]
            share = (at - ends[0]) / width if width else 0.5
            cells[round(min(1.0, max(0.0, share)) * (_CHART_CELLS - 1))] = sign
    return "".join(cells)
