"""Day or month first: decided over the whole column, and asked for when the column cannot tell."""

import numpy as np

from diagnose.batch.probe.civil import Stamps, clock_seconds
from diagnose.batch.probe.log import FloatArray, IntArray, Understood
from diagnose.batch.probe.middle import median
from diagnose.errors import Fault, UnusableInput

# Judgement: a logger's rows may fall back by an hour in autumn, not by more than two.
BACKWARD_S = 2 * 3600.0
# Judgement: when a logger writes at least every six hours, the next date follows within two days;
# with day and month exchanged it seems to follow after about a month.
OFTEN_S = 6 * 3600.0
NEXT_DATE_S = 2 * 86_400.0
EXCHANGED_S = 14 * 86_400.0
_WHY_MIXED = "one order of day and month throughout"
_ORDER = {True: "day first", False: "month first"}


def settle_date_order(
    stamps: Stamps, lines: IntArray, *, day_first: bool | None, name: str
) -> tuple[bool, Understood]:
    """Whether the day stands first, and why.

    Args:
        stamps: one for each row.
        lines: the line of each row.
        day_first: what the reader says, when asked.
        name: the file, for a refusal.

    Raises:
        UnusableInput: both readings are possible, or the rows contradict each other or the reader.
    """
    if not stamps.swappable.any():
        since_1970 = bool((stamps.seconds >= 2 * 86_400).any())
        what = "seconds since 1970" if since_1970 else "year first"
        why = (
            "numbers of ten or more figures"
            if since_1970
            else "the year or a month's name settles it"
        )
        return True, Understood(what, why, certain=True)
    _refuse_short_years(stamps, lines, name)
    told = _told_by_thirteen(stamps, lines, name)
    if told is not None:
        return _agreed(told, day_first, name)
    if day_first is not None:
        return day_first, Understood(_ORDER[day_first], "as answered", certain=True)
    if stamps.marks == {"."}:
        return True, Understood(_ORDER[True], "dots part the dates", certain=False)
    return _told_by_sequence(stamps, lines, name)


def _refuse_short_years(stamps: Stamps, lines: IntArray, name: str) -> None:
    """Refuse 24-10-01, whose "year" would run on while its "day" stands still."""
    years, days = stamps.years[stamps.swappable], stamps.days[stamps.swappable]
    if len(set(years.tolist())) > 2 and len(set(days.tolist())) <= 2 and years.max() <= 2031:
        line = int(lines[int(stamps.of_rows(stamps.swappable).argmax())])
        wanted = "years of four figures (the first number seems to be the year)"
        raise UnusableInput(Fault(name, line, "date", "years of two figures", wanted))


def _told_by_thirteen(stamps: Stamps, lines: IntArray, name: str) -> tuple[bool, int, int] | None:
    """Day first or not, the number above 12 that tells, and its line; None when there is none."""
    first = np.flatnonzero(stamps.of_rows(stamps.swappable & (stamps.days > 12)))
    second = np.flatnonzero(stamps.of_rows(stamps.swappable & (stamps.months > 12)))
    days, months = stamps.of_rows(stamps.days), stamps.of_rows(stamps.months)
    if first.size and second.size:
        a, b = int(first[0]), int(second[0])
        found = (
            f"{days[a]} as the first part of a date on line {lines[a]}"
            f" and {months[b]} as the second on line {lines[b]}"
        )
        raise UnusableInput(Fault(name, int(max(lines[a], lines[b])), "date", found, _WHY_MIXED))
    if first.size:
        return True, int(days[first[0]]), int(lines[first[0]])
    if second.size:
        return False, int(months[second[0]]), int(lines[second[0]])
    return None


def _agreed(
    told: tuple[bool, int, int], day_first: bool | None, name: str
) -> tuple[bool, Understood]:
    order, number, line = told
    if day_first is not None and day_first != order:
        found = f"a date with {number} where the month would stand"
        wanted = f"dates that are {_ORDER[day_first]}, as answered"
        raise UnusableInput(Fault(name, line, "date", found, wanted))
    why = f"{number} on line {line} can only be a day"
    return order, Understood(_ORDER[order], why, certain=True)


def _told_by_sequence(stamps: Stamps, lines: IntArray, name: str) -> tuple[bool, Understood]:
    """The reading under which time runs on evenly, when the other one makes it leap."""
    readings = {order: clock_seconds(stamps, day_first=order) for order in (True, False)}
    against = {order: _steps_against(clock) for order, clock in readings.items()}
    leaps = {order: _usual_leap(clock) for order, clock in readings.items()}
    for order in (True, False):
        if not against[order] and against[not order]:
            why = f"{_ORDER[not order]} would make time run backwards {against[not order]} times"
            return order, Understood(_ORDER[order], why, certain=False)
        if leaps[order] <= NEXT_DATE_S and leaps[not order] >= EXCHANGED_S:
            days = leaps[not order] / 86_400
            why = f"{_ORDER[not order]} would make time leap by {days:.0f} days at midnight"
            return order, Understood(_ORDER[order], why, certain=False)
    row = int(stamps.of_rows(stamps.swappable).argmax())
    day = stamps.which[row]
    a, b, year = stamps.days[day], stamps.months[day], stamps.years[day]
    found = (
        f"dates that read both ways (the first is {year}-{b:02d}-{a:02d} or {year}-{a:02d}-{b:02d})"
    )
    wanted = "an answer: is the day first? (probe --day-first or --month-first)"
    raise UnusableInput(Fault(name, int(lines[row]), "date", found, wanted))


def _steps_against(clock_s: FloatArray) -> int:
    """How many steps go against the direction in which most rows run."""
    steps = np.diff(clock_s[np.isfinite(clock_s)])
    return int(min((steps < -BACKWARD_S).sum(), (steps > BACKWARD_S).sum()))


def _usual_leap(clock_s: FloatArray) -> float:
    """The median step [s] from one date to the next, NaN unless the rows come often."""
    clock = clock_s[np.isfinite(clock_s)]
    steps = np.abs(np.diff(clock))
    crossing = np.diff(np.floor(clock / 86_400.0)) != 0
    if not crossing.any() or median(steps) > OFTEN_S:
        return float("nan")
    return median(steps[crossing])
