"""The chart of one measure or of a flaw over the batches, and whether a fix held."""

from collections.abc import Iterable, Sequence, Set
from difflib import get_close_matches

from diagnose.answers.history_looking import ChangeLine, FixLine, NearEvent, Trend
from diagnose.consult.history_looking_figures import figures_of
from diagnose.consult.history_trend_points import (
    flaw_points,
    known_end,
    points_of,
    stretches_drawn,
)
from diagnose.consult.history_trend_words import fix_says, trend_says
from diagnose.errors import Fault, UnusableInput
from diagnose.history.brews import Brew
from diagnose.history.flaws import flaw_ids
from diagnose.history.learning_heard import heard_in
from diagnose.history.statistics.changes import Change, change_points, days_near
from diagnose.history.statistics.charts import fault_cusum
from diagnose.history.statistics.reach import clean_by_counts, luck_by_counts
from diagnose.history.statistics.two_by_two import TwoByTwo, fisher
from diagnose.knowledge import RuleBase, fold

LEVEL = 0.05
# What was done is held against the batches before and since; only the latest are shown.
SHOWN_FIXES = 8
_FEWEST = 2
# Measures in C that are no temperatures but the difference of two.
DIFFERENCES = frozenset({"early_excess_c", "early_cold_c", "fall_before_final_c"})
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
        raise UnusableInput(Fault("--measure", 0, "", repr(key), _near_measures(rules, key)))
    series = [one for one in brews if one.brewed_on and key in one.measures]
    _need(series, f"of which {key} is known")
    values = [float(one.measures[key][1]) for one in series]
    figures = figures_of(rules)
    changes = change_points(values, level, figures)
    drawn = stretches_drawn(values, [one.place for one in changes], figures)
    last = drawn[-1]
    signal = next((s for s in (one.drift for one in drawn) if s is not None), None)
    answer = Trend(
        of=card.name,
        unit=card.unit,
        difference=key in DIFFERENCES,
        kind="measure",
        batches=len(series),
        level=level,
        stretch=len(last.values),
        centre=last.chart.centre,
        spread=last.chart.spread if last.limits else None,
        low=known_end(last.chart.low),
        high=known_end(last.chart.high),
        range_high=known_end(last.chart.range_high),
        sum_limit=figures["cusum_limit"] if last.limits else None,
        drift_from=series[signal].key if signal is not None else None,
        points=points_of(series, drawn),
        changes=_changes(series, changes, list(events), figures["change_near_days"]),
        fixes=(),
        says=(),
    )
    return answer.model_copy(update={"says": trend_says(answer)})


def _near_measures(rules: RuleBase, key: str) -> str:
    known = sorted(one for one in rules.measures if not rules.measures[one].classes)
    near = get_close_matches(key, known, n=3) or [one for one in known if fold(key) in fold(one)]
    such = f" (is it {' or '.join(near[:3])}?)" if near else ""
    return f"a measure in numbers{such}; 'faultwort rules list measures' shows them"


def trend_of_flaw(
    rules: RuleBase,
    brews: Sequence[Brew],
    flaw: tuple[str, Set[str]],
    events: Events = (),
    level: float = LEVEL,
) -> Trend:
    """The chart of a flaw over the tasted batches, and what each thing done came to.

    Raises:
        UnusableInput: fewer than two dated batches were tasted.
    """
    told = heard_in(rules.lexicon, brews)
    series = [one for one in told if one.brewed_on and one.tastings]
    _need(series, "that were tasted")
    flawed = [bool(flaw[1] & one.reported) for one in series]
    figures = figures_of(rules)
    sums = fault_cusum(flawed, figures)
    happened = list(events)
    changes = change_points([float(one) for one in flawed], level, figures)
    stretch = len(series) - (changes[-1].place if changes else 0)
    answer = Trend(
        of=flaw[0],
        unit="share",
        difference=False,
        kind="flaw",
        batches=len(series),
        level=level,
        stretch=stretch,
        centre=sum(flawed[-stretch:]) / stretch,
        spread=None,
        low=None,
        high=None,
        range_high=None,
        sum_limit=figures["fault_cusum_limit"],
        drift_from=series[sums.signal].key if sums.signal is not None else None,
        points=flaw_points(series, flawed, sums.sums, changes),
        changes=_changes(series, changes, happened, figures["change_near_days"]),
        fixes=tuple(
            _fix(series, flawed, one, level) for one in sorted(set(happened))[-SHOWN_FIXES:]
        ),
        says=(),
    )
    return answer.model_copy(update={"says": trend_says(answer)})


def _need(series: Sequence[Brew], which: str) -> None:
    if len(series) < _FEWEST:
        wanted = f"two batches with a brew day {which}"
        raise UnusableInput(Fault("history trend", 0, "", f"{len(series)}", wanted))


def _changes(
    series: Sequence[Brew],
    changes: Sequence[Change],
    events: Sequence[tuple[str, str]],
    near_days: float,
) -> tuple[ChangeLine, ...]:
    return tuple(_change(series, one, events, near_days) for one in changes)


def _change(
    series: Sequence[Brew], one: Change, events: Sequence[tuple[str, str]], near_days: float
) -> ChangeLine:
    last, first = series[one.place - 1], series[one.place]
    days = last.brewed_on, first.brewed_on
    near = [event for event in sorted(set(events)) if days_near(days, event[0], near_days)]
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
    bad, bad_since = sum(before), sum(since)
    run = len(since) if bad and not bad_since else None
    needed = clean_by_counts(bad, len(before), level) if bad else None
    table = TwoByTwo(bad_since, bad, len(since) - bad_since, len(before) - bad)
    line = FixLine(
        on=on,
        words=words,
        before=len(before),
        flawed_before=bad,
        since=len(since),
        flawed_since=bad_since,
        luck=luck_by_counts(bad, len(before), run) if run else None,
        more_clean=max(0, needed - (run or 0)) if needed is not None else None,
        p_fewer=fisher(table, "less") if bad and since else None,
        says="",
    )
    return line.model_copy(update={"says": fix_says(line, level)})


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
        return trend_of_flaw(rules, brews, (flaw, flaw_ids(flaw, rules.lexicon)), events, level)
    found = "both" if measure is not None else "neither"
    wanted = "one of --measure KEY and --flaw WORDS"
    raise UnusableInput(Fault("history trend", 0, "", found, wanted))
