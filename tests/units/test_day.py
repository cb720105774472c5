"""A day on the command line: as in a record, or one of the two words that mean only one."""

from datetime import date

import pytest

from diagnose.errors import UnusableInput
from diagnose.units.day import read_day

TODAY = date(2026, 3, 1)


# Source of the table: the calendar.
@pytest.mark.parametrize(
    ("typed", "day"),
    [
        ("2026-09-12", date(2026, 9, 12)),
        ("today", TODAY),
        (" Yesterday ", date(2026, 2, 28)),
    ],
)
def test_a_day_is_read(typed: str, day: date) -> None:
    assert read_day("--on", typed, TODAY) == day


@pytest.mark.parametrize("typed", ["last week", "12.09.2026", "monday", "", "2026-02-30"])
def test_what_may_be_several_days_or_none_is_refused_with_an_example(typed: str) -> None:
    with pytest.raises(UnusableInput, match="a day as 2026-09-12, or 'today' or 'yesterday'"):
        read_day("--on", typed, TODAY)
