"""A day as typed on the command line."""

from datetime import date, timedelta

from diagnose.errors import Fault, UnusableInput

_DAYS_BACK = {"today": 0, "yesterday": 1}


def read_day(option: str, typed: str, today: date) -> date:
    """The day that is meant by "2026-09-12", "today" or "yesterday".

    Args:
        option: where it was typed, for the message.
        typed: as typed.
        today: by the clock of the place.

    Raises:
        UnusableInput: it is none of these.
    """
    back = _DAYS_BACK.get(typed.strip().casefold())
    if back is not None:
        return today - timedelta(days=back)
    try:
        return date.fromisoformat(typed.strip())
    except ValueError:
        wanted = "a day as 2026-09-12, or 'today' or 'yesterday'"
        raise UnusableInput(Fault(option, 0, "", repr(typed), wanted)) from None
