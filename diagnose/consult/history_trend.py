"""The chart of one measure or of a flaw over the batches, and whether a fix held."""

import math
from collections.abc import Iterable, Sequence, Set

from diagnose.answers.history_looking import ChangeLine, FixLine, NearEvent, Trend, TrendPoint
from diagnose.consult.history_trend_words import fix_says, trend_says
from diagnose.errors import Fault, UnusableInput
from diagnose.history.brews import Brew
from diagnose.history.flaws import flaw_ids
from diagnose.history.statistics.changes import Change, change_points, days_near
from diagnose.history.statistics.charts import FaultCusum, cusum, fault_cusum, individuals
from diagnose.history.statistics.reach import clean_in_a_row, luck
from diagnose.knowledge import RuleBase

LEVEL = 0.05
# What was done is held against the batches before and since; only the latest are shown.
SHOWN_FIXES = 8
_FEWEST = 2
Events = Iterable[tuple[str, str]]


def trend_of_measure(
    rules: RuleBase, brews: Sequence[Brew], key: str, events: Events = (), level: float = LEVEL
) -> Trend:
    """The chart of a measure.

    Raises:
        UnusableInput: no such measure, one of classes, or fewer than two dated batches with it.
    """
    card = rules.measures.get(key)
    if card is None or card.classes:
        known = sorted(one for one in rules.measures if not rules.measures[one].classes)
        raise UnusableInput(Fault("--measure", 0, "", repr(key), f"one of {', '.join(known)}"))
    series = [one for one in brews if one.brewed_on and key in one.measures]
    _need(series, f"of which {key} is known")
    values = [float(one.measures[key][1]) for one in series]
    chart = individuals(values)
    scaled = [(value - chart.centre) / chart.spread if chart.spread else 0.0 for value in values]
    # With too few batches for limits there is no target to drift from either.
    drift = cusum(scaled).signal if math.isfinite(chart.high) else None
    marks = {
        "beyond the limits": chart.outside,
        "a jump": chart.jumps,
        "eighth in a row on one side": chart.one_sided,
    }
    answer = Trend(
        of=card.name,
        unit=card.unit,
        kind="measure",
        batches=len(series),
        level=level,
        centre=chart.centre,
        low=_known(chart.low),
        high=_known(chart.high),
        range_high=_known(chart.range_high),
        drift_from=series[drift].key if drift is not None else None,
        points=_points(series, values, marks),
        changes=_changes(series, values, list(events), level),
        fixes=(),
        says=(),
    )
    return answer.model_copy(update={"says": trend_says(answer)})


def trend_of_flaw(
    brews: Sequence[Brew], flaw: tuple[str, Set[str]], events: Events = (), level: float = LEVEL
) -> Trend:
    """The chart of a flaw over the tasted batches, and what each thing done came to.

    Raises:
        UnusableInput: fewer than two dated batches were tasted.
    """
    series = [one for one in brews if one.brewed_on and one.tastings]
    _need(series, "that were tasted")
    flawed = [bool(flaw[1] & one.reported) for one in series]
    signal: FaultCusum = fault_cusum(flawed)
    told = list(events)
    values = [float(one) for one in flawed]
    answer = Trend(
        of=flaw[0],
        unit="share",
        kind="flaw",
        batches=len(series),
        level=level,
        centre=sum(flawed) / len(flawed),
        low=None,
        high=None,
        range_high=None,
        drift_from=series[signal.signal].key if signal.signal is not None else None,
        points=_points(series, values, {}),
        changes=_changes(series, values, told, level),
        fixes=tuple(_fix(series, flawed, one, level) for one in sorted(set(told))[-SHOWN_FIXES:]),
        says=(),
    )
    return answer.model_copy(update={"says": trend_says(answer)})


def _need(series: Sequence[Brew], which: str) -> None:
    if len(series) < _FEWEST:
        wanted = f"two batches with a brew day {which}"
        raise UnusableInput(Fault("history trend", 0, "", f"{len(series)}", wanted))


def _points(
    series: Sequence[Brew], values: Sequence[float], marks: dict[str, tuple[int, ...]]
) -> tuple[TrendPoint, ...]:
    return tuple(
        TrendPoint(
            key=brew.key,
            brewed_on=brew.brewed_on,
            value=value,
            marks=tuple(mark for mark, places in marks.items() if place in places),
        )
        for place, (brew, value) in enumerate(zip(series, values, strict=True))
    )


def _changes(
    series: Sequence[Brew], values: Sequence[float], events: list[tuple[str, str]], level: float
) -> tuple[ChangeLine, ...]:
    return tuple(_change(series, one, events) for one in change_points(values, level))


def _change(series: Sequence[Brew], one: Change, events: list[tuple[str, str]]) -> ChangeLine:
    last, first = series[one.place - 1], series[one.place]
    days = last.brewed_on, first.brewed_on
    near = [event for event in sorted(set(events)) if days_near(*days, event[0])]
    return ChangeLine(
        last_before=last.key,
        first_after=first.key,
        brewed_on=first.brewed_on,
        p=one.p,
        before=one.before,
        after=one.after,
        near=tuple(NearEvent(on=on, words=words) for on, words in near),
    )


def _fix(
    series: Sequence[Brew], flawed: Sequence[bool], event: tuple[str, str], level: float
) -> FixLine:
    on, words = event
    since = [bad for brew, bad in zip(series, flawed, strict=True) if (brew.brewed_on or "") >= on]
    before = flawed[: len(flawed) - len(since)]
    rate = sum(before) / len(before) if before else 0.0
    clean_run = len(since) if since and not any(since) and rate > 0.0 else None
    needed = clean_in_a_row(rate, level)
    line = FixLine(
        on=on,
        words=words,
        before=len(before),
        flawed_before=sum(before),
        since=len(since),
        flawed_since=sum(since),
        luck=luck(rate, clean_run) if clean_run is not None else None,
        more_clean=max(0, needed - clean_run) if needed and clean_run is not None else needed,
        says="",
    )
    return line.model_copy(update={"says": fix_says(line, level)})


def _known(end: float) -> float | None:
    return end if math.isfinite(end) else None


def trend_asked(
    rules: RuleBase,
    brews: Sequence[Brew],
    asked: tuple[str | None, str | None],
    events: Events = (),
    level: float = LEVEL,
) -> Trend:
    """The chart of the measure or of the flaw that was asked for.

    Raises:
        UnusableInput: both or neither were, or the chart cannot be made.
    """
    measure, flaw = asked
    if measure is not None and flaw is None:
        return trend_of_measure(rules, brews, measure, events, level)
    if flaw is not None and measure is None:
        return trend_of_flaw(brews, (flaw, flaw_ids(flaw, rules.lexicon)), events, level)
    found = "both" if measure is not None else "neither"
    wanted = "one of --measure KEY and --flaw WORDS"
    raise UnusableInput(Fault("history trend", 0, "", found, wanted))
