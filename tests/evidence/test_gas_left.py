"""Gas that fermentation left: the beer's own warmth after it ended, by log, by steps, by note."""

from datetime import UTC, datetime, timedelta
from textwrap import dedent

import pytest

from diagnose.batch.probe import ProbeLog
from diagnose.evidence.finding import NumberFinding
from tests.evidence.records import findings_of, log_of

PITCHED = datetime(2026, 3, 14, 12, tzinfo=UTC)
PRIMED = """
brewed: 2026-03-14
packaging: {when: 2026-04-04, package: bottle, sugar: sucrose, sugar_amount: 120 g, volume: 20 L}
"""
# 6 g/L of sucrose at the card's grams for one volume.
FROM_SUGAR = 6.0 / 3.82
# Source: the practitioner polynomial of the cards, by hand at 52, 68 and 61 F.
LEFT_AT_11C, LEFT_AT_20C, LEFT_AT_16C = 1.153, 0.862, 0.972
CLOSE = 0.04


def volumes(fermentation: str, log: ProbeLog | None = None) -> float:
    finding = findings_of(dedent(PRIMED) + fermentation, log)["priming_volumes"]
    assert isinstance(finding, NumberFinding)
    return finding.band.mid - FROM_SUGAR


def log_at(beer_c: float, *, rest_c: float | None = None) -> ProbeLog:
    """Three weeks of hourly readings; from the tenth to the thirteenth day at the rest."""
    rest = beer_c if rest_c is None else rest_c
    return log_of(
        [
            (
                (PITCHED + timedelta(hours=hour)).isoformat(),
                round((rest if 240 <= hour < 312 else beer_c) + 0.1 * (hour % 2), 2),
            )
            for hour in range(24 * 21)
        ]
    )


def test_a_lager_that_its_log_shows_cold_throughout_holds_more_than_a_warm_cellar_s_gas() -> None:
    assert volumes("", log_at(11.0)) == pytest.approx(LEFT_AT_11C, abs=CLOSE)


def test_a_rest_in_the_log_drives_the_gas_out_again() -> None:
    found = volumes("fermentation: {finished: 2026-03-26}", log_at(11.0, rest_c=16.0))
    assert found == pytest.approx(LEFT_AT_16C, abs=CLOSE)


def test_steps_are_followed_as_a_log_is() -> None:
    steps = "steps: [{since: 2026-03-24, at: 16 C}]"
    found = volumes(f"fermentation: {{temperature: 11 C, {steps}, finished: 2026-03-26}}")
    assert found == pytest.approx(LEFT_AT_16C, abs=CLOSE)


def test_the_cold_of_a_crash_brings_no_gas_back() -> None:
    crash = "finished: 2026-03-26, crashed: 2026-03-28, crashed_to: 2 C"
    found = volumes(f"fermentation: {{temperature: 20 C, {crash}}}")
    assert found == pytest.approx(LEFT_AT_20C, abs=CLOSE)


def test_a_crash_before_the_gravity_is_said_to_have_stopped_brings_none_either() -> None:
    crash = "finished: 2026-03-28, crashed: 2026-03-28, crashed_to: 2 C"
    found = volumes(f"fermentation: {{temperature: 20 C, {crash}}}")
    assert found == pytest.approx(LEFT_AT_20C, abs=CLOSE)


def test_without_a_log_or_steps_the_noted_peak_stands() -> None:
    found = volumes("fermentation: {temperature: 16 C, peak: 20 C}")
    assert found == pytest.approx(LEFT_AT_20C, abs=CLOSE)
