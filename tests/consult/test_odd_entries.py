"""A peak that was noted is held against the probe log; both are used as they stand."""

from datetime import UTC, datetime, timedelta

import pytest

from diagnose.consult import check_batch, consult_on
from tests.evidence.records import batch_of, log_of
from tests.knowledge.shipped import rule_base

PITCHED = datetime(2026, 5, 2, 12, tzinfo=UTC)
RECORD = (
    "brewed: 2026-05-02 12:00\nfermentation:\n  probe_log: log.csv\n  probe_place: {}\n  peak: {}\n"
)


def odd(place: str, peak: str) -> list[tuple[str, str]]:
    """What is said of a record whose probe log rises from 19 C to 22 C and falls again."""
    hours = range(150)
    rows = [
        ((PITCHED + timedelta(hours=hour)).isoformat(), 19 + 3 * (20 < hour < 60) + hour % 2 / 10)
        for hour in hours
    ]
    consultation = consult_on(rule_base(), batch_of(RECORD.format(place, peak)), log=log_of(rows))
    found = check_batch(rule_base(), consultation).odd_entries
    return [(one.place, one.text) for one in found if "peak" in one.text]


# Source of the table: invented; the log's warmest is 22.1 C. A room is not the beer.
@pytest.mark.parametrize(
    ("place", "peak", "said"),
    [
        ("in the beer", "64 F", True),
        ("in the beer", "26 C", True),
        ("in the beer", "22 C", False),
        ("in the room", "18 C", False),
    ],
)
def test_a_peak_that_the_probe_did_not_see_is_said_with_its_line(
    place: str, peak: str, said: bool
) -> None:
    assert [where for where, _ in odd(place, peak)] == ["batch.yaml:5"] * said


def test_both_temperatures_are_told_in_both_scales() -> None:
    ((_, text),) = odd("in the beer", "64 F")
    assert "17.8 C (64 F) as the warmest, but the beer peaked at 22.1 C (72 F)" in text
