"""What was done and which batches were flawed, on one line of time and in a list."""

from collections.abc import Iterator, Sequence
from datetime import date

from diagnose.answers.history_page import BatchRow, HappenedLine, HistoryPage
from diagnose.report.html.history_axes import LEFT, RIGHT
from diagnose.report.html.history_strokes import (
    DASHED,
    diamond,
    dot,
    line,
    picture,
    words_at,
)
from diagnose.report.sheets.frame import items, section, text

# Numbers on a telephone's width stay apart up to here; they stand in rows in turn.
SHOWN = 24
_ROWS = (16.0, 31.0, 46.0)
_BATCHES, _AXIS = 66.0, 84.0
_HEIGHT = 106.0
_INSTRUMENT = "instrument: "


def timeline_part(page: HistoryPage) -> str:
    """Events and checks of instruments over the batches; empty where nothing was done.

    Args:
        page: the history.
    """
    shown = page.happened[-SHOWN:]
    if not shown:
        return ""
    left = len(page.happened) - len(shown)
    earlier = text(f"The latest {len(shown)}; {left} earlier ones are left out.") if left else ""
    key = text("Numbers: what was done, as in the list. Diamond: a flawed batch. Dot: a clean one.")
    lines = items((_said(one) for one in shown), numbered=True)
    figure = (
        f"<figure>{_picture(page.batches, shown)}<figcaption>{key}{text('In words:')}{lines}"
        f"</figcaption></figure>"
    )
    return section("What was done", earlier + figure)


def _said(one: HappenedLine) -> str:
    kind = _INSTRUMENT if one.kind == "instrument" else ""
    return f"{one.on or 'no date'}: {kind}{one.words}"


def _picture(batches: Sequence[BatchRow], shown: Sequence[HappenedLine]) -> str:
    days = [day for one in batches if (day := _day(one.brewed_on))]
    days += [day for one in shown if (day := _day(one.on))]
    if not days:
        return ""
    span = (min(days), max(days))
    inside = (*_years(span), *_done(shown, span), *_brewed(batches, span))
    return picture("timeline", "What was done, over the batches", _HEIGHT, inside)


def _day(typed: str | None) -> int | None:
    try:
        return date.fromisoformat(typed[:10]).toordinal() if typed else None
    except ValueError:
        return None


def _x(day: int, span: tuple[int, int]) -> float:
    first, last = span
    share = (day - first) / (last - first) if last > first else 0.5
    return LEFT + share * (RIGHT - LEFT)


def _years(span: tuple[int, int]) -> Iterator[str]:
    """The axis, with its ends and the beginning of each year between them."""
    yield line((LEFT, _AXIS), (RIGHT, _AXIS))
    first, last = (date.fromordinal(day) for day in span)
    step = max(1, (last.year - first.year) // 4)
    for year in range(first.year + 1, last.year + 1, step):
        x = _x(date(year, 1, 1).toordinal(), span)
        yield line((x, _AXIS), (x, _AXIS + 5))
        if LEFT + 44 < x < RIGHT - 44:
            yield words_at(x, _AXIS + 18, str(year), "middle")
    yield words_at(LEFT, _AXIS + 18, f"{first:%Y-%m}", "middle")
    yield words_at(RIGHT, _AXIS + 18, f"{last:%Y-%m}", "middle")


def _done(shown: Sequence[HappenedLine], span: tuple[int, int]) -> Iterator[str]:
    for place, one in enumerate(shown):
        day = _day(one.on)
        if day is not None:
            x, y = _x(day, span), _ROWS[place % len(_ROWS)]
            yield line((x, y + 3), (x, _AXIS), DASHED)
            yield words_at(x, y, str(place + 1), "middle")


def _brewed(batches: Sequence[BatchRow], span: tuple[int, int]) -> Iterator[str]:
    for one in batches:
        day = _day(one.brewed_on)
        if day is not None and one.told != "not tasted":
            mark = diamond if one.told == "flawed" else dot
            yield mark(_x(day, span), _BATCHES)
