"""Days as people say them: "yesterday", "3 weeks ago", "5 Sep", "day 6", "2026-09-05"."""

import re
from datetime import date, timedelta

_ISO = re.compile(r"(?P<day>\d{4}-\d{2}-\d{2})(?P<time>[ T]\d{1,2}:\d{2}.*)?")
_DAY_OF_BATCH = re.compile(r"day\s+\d+(?:[.,]\d+)?", re.IGNORECASE)
_AGO = re.compile(
    r"(?:about\s+)?(?P<count>\d+|an?|one|two|three|four|five|six|ten)\s+"
    r"(?P<span>day|week|month|year)s?\s+ago",
    re.IGNORECASE,
)
_NAMED = re.compile(
    r"(?:(?P<day>\d{1,2})(?:st|nd|rd|th)?\.?\s+(?P<month>[a-z]{3,9})\.?"
    r"|(?P<first>[a-z]{3,9})\.?\s+(?P<last>\d{1,2})(?:st|nd|rd|th)?)"
    r"(?:,?\s+(?P<year>\d{4}))?",
    re.IGNORECASE,
)
_WITH_DOTS = re.compile(r"(\d{1,2})\.\s?(\d{1,2})\.\s?(\d{4})")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_COUNTS = {
    **{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6},
    "ten": 10,
}
_DAYS = {"day": 1.0, "week": 7.0, "month": 365.25 / 12.0, "year": 365.25}
WANTED = "a day such as 5 Sep, 2026-09-05, yesterday or 3 weeks ago"


def day_written(typed: str, today: date) -> str | None:
    """A day as a record writes it; None where the text is no day, or one of two.

    A day without a year is the latest one that has been. "12/9" is September to some and
    December to others, so it is not read.
    """
    text = " ".join(typed.split())
    if _ISO.fullmatch(text) or _DAY_OF_BATCH.fullmatch(text):
        return text.lower() if text[:1].isalpha() else text
    near = {"today": 0, "now": 0, "tonight": 0, "yesterday": 1, "last night": 1}
    if text.casefold() in near:
        return (today - timedelta(days=near[text.casefold()])).isoformat()
    found = _ago(text, today) or _with_month(text, today) or _with_dots(text)
    return found.isoformat() if found else None


def _ago(text: str, today: date) -> date | None:
    match = _AGO.fullmatch(text)
    if match is None:
        return None
    said = match["count"].casefold()
    count = _COUNTS[said] if said in _COUNTS else int(said)
    days = round(count * _DAYS[match["span"].casefold()])
    try:
        return today - timedelta(days=days)
    except OverflowError:
        return None


def _with_month(text: str, today: date) -> date | None:
    match = _NAMED.fullmatch(text)
    if match is None:
        return None
    name = (match["month"] or match["first"]).casefold()
    month = next((n for n, one in enumerate(_MONTHS, start=1) if name.startswith(one)), 0)
    day = int(match["day"] or match["last"])
    if match["year"]:
        return _date(int(match["year"]), month, day)
    # Back to the last leap year, for the 29th of February.
    years = (_date(today.year - back, month, day) for back in range(9))
    return next((one for one in years if one is not None and one <= today), None)


def _with_dots(text: str) -> date | None:
    match = _WITH_DOTS.fullmatch(text)
    return _date(int(match[3]), int(match[2]), int(match[1])) if match else None


def _date(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
