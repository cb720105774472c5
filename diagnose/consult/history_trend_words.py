"""What a trend comes to, in sentences."""

from collections.abc import Iterator

from diagnose.answers.chances import chance_figure, percent
from diagnose.answers.history_looking import ChangeLine, FixLine, Trend
from diagnose.answers.trend_scales import trend_scales


def fix_says(line: FixLine, level: float) -> str:
    """Whether something that was done held."""
    if not line.flawed_before:
        return "no flawed batch before it: nothing to mend"
    if not line.since:
        return "no batch tasted since"
    if line.flawed_since:
        p = 1.0 if line.p_fewer is None else line.p_fewer
        came = f"rarer (p {chance_figure(p)}), but not gone" if p <= level else "not gone"
        return (
            f"{line.flawed_since} of {line.since} since flawed, {line.flawed_before} of "
            f"{line.before} before: {came}"
        )
    by_luck = percent(line.luck or 0.0)
    if (line.luck or 0.0) <= level:
        return f"all {line.since} since clean, by luck {by_luck} of the time: it seems to hold"
    return (
        f"{line.since} since, all clean, by luck {by_luck} of the time: cannot be told yet; "
        f"{line.more_clean} more clean ones would mean something"
    )


def trend_says(answer: Trend) -> tuple[str, ...]:
    """The sentences, the most important first."""
    return tuple(_sentences(answer))


def _sentences(answer: Trend) -> Iterator[str]:
    yield from (_changed(answer, one) for one in answer.changes)
    if not answer.changes:
        yield f"No change of level in {answer.batches} batches (at p {answer.level:g})."
    if answer.kind == "measure":
        yield from _measure_says(answer)
    elif answer.drift_from:
        yield (
            f"The fault is common by {answer.drift_from}: there the flawed batches add up to "
            "more than a fault that is put up with would bring."
        )
    if len(answer.fixes) > 1:
        yield (
            f"{len(answer.fixes)} things are held against the same batches: one of them may seem "
            "to hold because of another, or by luck."
        )
    yield "A signal is a reason to look, not a cause; now and then a steady series gives one."


def _changed(answer: Trend, one: ChangeLine) -> str:
    before, after = (_level(answer, value) for value in (one.before, one.after))
    near = "; ".join(f"{event.words} ({event.on})" for event in one.near)
    by = f" Near it: {near}." if near else " Nothing was noted near it."
    return (
        f"From {before} to {after} between {one.last_before} and {one.first_after} "
        f"(p {chance_figure(one.p)}).{by}"
    )


def _level(answer: Trend, value: float) -> str:
    if answer.kind == "flaw":
        return f"{value:.0%} flawed"
    return trend_scales(answer).both(value)


def _measure_says(answer: Trend) -> Iterator[str]:
    if answer.low is None or answer.high is None:
        since = " since the last change" if answer.changes else ""
        yield (
            f"Too few batches{since} for limits, which would be guesses: the line is their median."
        )
    else:
        scales = trend_scales(answer)
        yield (
            f"Hold the next batch against {scales.between(answer.low, answer.high)}, the "
            f"limits of the latest {answer.stretch} batches; their mean is "
            f"{scales.figures(answer.centre)}."
        )
    odd = [point.key for point in answer.points if point.marks]
    yield f"Odd by the chart: {', '.join(odd)}." if odd else "No batch is odd by the chart."
    if answer.drift_from:
        yield f"A slow drift shows by {answer.drift_from}."
