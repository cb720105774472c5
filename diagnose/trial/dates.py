"""The dates of a split, from its first day to the tasting."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, timedelta

from diagnose.knowledge.causes import SplitHint
from diagnose.trial.plan import Day
from diagnose.trial.stages import SPLIT_POINTS, SplitPoint

_FILLED, _THERE_ALREADY = (SPLIT_POINTS[stage].place for stage in ("packaging", "storage"))
# Most home batches are packaged two weeks before they are fit to judge. Practice.
_DAYS_IN_PACKAGE = 14
# Bottles are chilled so long before a tasting, for sediment and gas to settle. Practice.
_CHILLED_DAYS = 2


@dataclass(frozen=True)
class Waits:
    """Days from the first day of a split to its division, its packaging and its tasting.

    The first day is that of the brew, or of the division where the packages are there already.
    """

    divided: int
    packaged: int
    tasted: int


def waits_of(hints: Collection[SplitHint]) -> Waits:
    """How long a split takes, with time in the vessel and in the package for each of its factors.

    Args:
        hints: the splits of its factors, each with its weeks from the division.
    """
    points = [SPLIT_POINTS[hint.stage] for hint in hints]
    first = min(points, key=lambda point: point.place)
    packaged = max(_packaged_after(hint) for hint in hints)
    in_package = max(_days_of(hint) - _packaged_after(hint) for hint in hints)
    return Waits(first.days_from_brew, packaged, packaged + in_package)


def _days_of(hint: SplitHint) -> int:
    return SPLIT_POINTS[hint.stage].days_from_brew + max(round(7 * hint.weeks), 1)


def _packaged_after(hint: SplitHint) -> int:
    """Days from the first day to the packaging; 0 where the packages are there already."""
    point = SPLIT_POINTS[hint.stage]
    if point.place >= _FILLED:
        return point.days_from_brew
    days = round(7 * hint.weeks)
    return point.days_from_brew + max(days - _DAYS_IN_PACKAGE, days // 2)


def dates_of(hints: Collection[SplitHint], start: date, *, served: bool = True) -> tuple[Day, ...]:
    """The dates to keep.

    Args:
        hints: the splits of the factors, each with how long it takes.
        start: the day of the brew; that of the division where the packages are there already.
        served: whether its beer may be tasted.
    """
    waits = waits_of(hints)
    days = _to_the_division(min((SPLIT_POINTS[one.stage] for one in hints), key=_place))
    if waits.packaged > waits.divided:
        parity = max(waits.packaged - 1, waits.divided + 1)
        days.append((parity, "Parity: gravity and pH of every vessel, side by side"))
        days.append((waits.packaged, "Package: all arms today, filling in turn"))
    if waits.tasted > waits.packaged + _CHILLED_DAYS:
        chilled = waits.tasted - _CHILLED_DAYS
        days.append((chilled, "Chill: stand all packages cold, and run the check"))
    tasted = "Taste: blind, with the pourer out of sight"
    compared = "Compare: by eye and by measures; taste nothing"
    days.append((waits.tasted, tasted if served else compared))
    return tuple(Day(day=start + timedelta(days=offset), what=what) for offset, what in days)


def _place(point: SplitPoint) -> int:
    return point.place


def _to_the_division(point: SplitPoint) -> list[tuple[int, str]]:
    """From the first day to the division, each with its days from the first."""
    if point.days_from_brew:
        moved = "if the beer is not ready, wait, and move every later date with it"
        return [
            (0, "Brew: the whole batch, as you always do"),
            (point.days_from_brew, f"Divide: fill the numbered vessels by the lot; {moved}"),
        ]
    first = "Divide" if point.place >= _THERE_ALREADY else "Brew and divide"
    return [(0, f"{first}: fill the numbered vessels by the lot")]
