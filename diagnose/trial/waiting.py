"""The waiting steps of a plan as a calendar file.

Source: RFC 5545 (iCalendar): CRLF line ends, lines folded at 75 octets, text escaped.
"""

from datetime import date, timedelta
from hashlib import sha256

from diagnose.trial.plan import Plan

_LONGEST_LINE = 75


def calendar_text(plan: Plan) -> str:
    """A calendar with one whole-day event for each date of the plan."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//Faultwort//split//EN",
        "CALSCALE:GREGORIAN",
    ]
    for number, day in enumerate(plan.dates, start=1):
        lines += _event(plan, number, day.day, day.what)
    return "".join(
        f"{folded}\r\n" for line in [*lines, "END:VCALENDAR"] for folded in fold_line(line)
    )


def _event(plan: Plan, number: int, on: date, what: str) -> list[str]:
    summary = what.split(":", 1)[0] if ":" in what else what
    name = plan.batch if len(plan.batch) < 60 else plan.batch[:57] + "..."
    return [
        "BEGIN:VEVENT",
        f"UID:{_uid(plan, number)}",
        f"DTSTAMP:{plan.made:%Y%m%d}T000000Z",
        f"DTSTART;VALUE=DATE:{on:%Y%m%d}",
        f"DTEND;VALUE=DATE:{on + timedelta(days=1):%Y%m%d}",
        f"SUMMARY:{escaped(f'{name}: {summary}')}",
        f"DESCRIPTION:{escaped(what)}",
        "TRANSP:TRANSPARENT",
        "END:VEVENT",
    ]


def _uid(plan: Plan, number: int) -> str:
    causes = "+".join(factor.cause for factor in plan.factors)
    seen = f"{plan.batch}|{causes}|{plan.made}|{plan.seed}|{number}"
    return f"{sha256(seen.encode()).hexdigest()[:24]}@faultwort"


def escaped(text: str) -> str:
    """Text as a calendar wants it: backslash, comma and semicolon escaped, no line ends."""
    for sign in ("\\", ",", ";"):
        text = text.replace(sign, f"\\{sign}")
    return "\\n".join(text.splitlines())


def fold_line(line: str) -> list[str]:
    """A line in pieces of at most 75 octets, never inside a sign; all but the first indented."""
    pieces, piece, size = [], "", 0
    for sign in line:
        octets = len(sign.encode())
        if size + octets > _LONGEST_LINE:
            pieces.append(piece)
            piece, size = " ", 1
        piece, size = piece + sign, size + octets
    return [*pieces, piece]
