"""Measures of additions, kit, store and tasters: their ranges, and the words they are read from."""

from datetime import UTC, datetime, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.batch.probe import ProbeLog
from diagnose.evidence.finding import ClassFinding, NumberFinding
from diagnose.evidence.history import History
from diagnose.evidence.measures.cooling import largest_fall_c
from diagnose.evidence.measures.named import lists_of, says_any
from diagnose.process import Band
from tests.evidence.records import edges, findings_of, log_of

PITCHED = datetime(2026, 3, 14, 12, tzinfo=UTC)
STILL = Band(0.0, 0.0, 0.0)
# The readings of the probe logs below are rounded to a hundredth.
ROUNDED = 0.02

temperatures = st.lists(st.floats(-2.0, 40.0), min_size=1, max_size=30)

# Source of the table: the errors stated at the top of each measure's module.
RANGES = [
    ("openings_after_pitch", (1.0, 1.0, 2.0), "events: [{what: roused}]"),
    ("serving_c", (7.0, 8.0, 9.0), "tastings: [{at: 8 C}]"),
    ("serving_c", (6.0, 8.0, 10.0), "serving: {at: 8 C}"),
    ("coldest_store_c", (0.5, 2.0, 3.5), "storage: [{at: 2 C}]"),
    ("mean_store_c", (18.0, 20.0, 22.0), "storage: [{at: 20 C, time: 9 days}]"),
    (
        "days_final_to_package",
        (0.0, 0.0, 1.0),
        "fermentation: {finished: 2026-04-01 08:00}\npackaging: {when: 2026-04-01 08:00}",
    ),
]


@pytest.mark.parametrize(("measure", "expected", "record"), RANGES)
def test_a_number_is_as_unsure_as_its_instrument(
    measure: str, expected: tuple[float, float, float], record: str
) -> None:
    finding = findings_of(record)[measure]
    assert isinstance(finding, NumberFinding)
    assert edges(finding.band) == pytest.approx(expected)


# Source of the table: names as brewers write them, from memory.
NAMES = [
    ("Cinnamon sticks", {"spice"}),
    ("Juniper berries", {"spice"}),
    ("frozen raspberries", {"fruit"}),
    ("oak staves, no vanilla", {"wood"}),
    ("sugar cubes", {"sugar"}),
    ("milk sugar", {"sweetener"}),
    ("chocolate malt", set()),
    ("oak smoked wheat malt", set()),
    ("yeast nutrient", {"process"}),
    ("chocolate chips", {"fatty"}),
    ("coconut", {"fatty"}),
    ("black treacle", {"iron_rich"}),
    ("something else", set()),
]


@pytest.mark.parametrize(("name", "lists"), NAMES)
def test_a_name_stands_on_the_lists_a_brewer_would_put_it_on(name: str, lists: set[str]) -> None:
    assert lists_of(name) == lists


@pytest.mark.parametrize("text", ["nutrient", "a stringy lid", "no seal", "nutmeg"])
def test_a_word_within_a_word_or_denied_is_not_said(text: str) -> None:
    assert not says_any(text, ("nut", "ring", "seal"))


# Source of the table: common practice, no source.
STAGES = [
    ("in the fermenter, after the boil", "other"),
    ("day 5", "other"),
    ("after 4 days", "other"),
    ("2026-03-20", "other"),
    ("at bottling", "other"),
    ("boiled for 10 min", "none"),
    ("flameout", "none"),
]


@pytest.mark.parametrize(("added", "value"), STAGES)
def test_a_spice_touches_cold_beer_only_when_it_went_in_late(added: str, value: str) -> None:
    record = (
        "brewed: 2026-03-14\n"
        f'recipe: {{hops: [{{use: boil}}], other: [{{name: ginger, added: "{added}"}}]}}'
    )
    finding = findings_of(record)["cold_side_addition"]
    assert isinstance(finding, ClassFinding)
    assert finding.value == value


def logged(*stretches: tuple[float, float]) -> ProbeLog:
    """An hourly log of stretches (hours, C); it wavers a little, as a living probe does."""
    rows, hour = [], 0
    for hours, beer_c in stretches:
        for _ in range(int(hours)):
            when = (PITCHED + timedelta(hours=hour)).isoformat()
            rows.append((when, round(beer_c + 0.01 * (hour % 2), 2)))
            hour += 1
    return log_of(rows)


CRASHED = "brewed: 2026-03-14 12:00\npackaging: {when: 2026-03-26 12:00}\n"
FINISHED = CRASHED + "fermentation: {finished: 2026-03-22 12:00}"


def test_a_cold_night_before_the_end_is_read_from_the_log() -> None:
    finding = findings_of(FINISHED, logged((96, 20.0), (24, 16.0), (168, 20.0)))
    fall = finding["fall_before_final_c"]
    assert isinstance(fall, NumberFinding)
    assert edges(fall.band) == pytest.approx((3.5, 4.0, 4.5), abs=ROUNDED)


def test_a_crash_after_the_end_is_no_fall_before_it() -> None:
    fall = findings_of(FINISHED, logged((240, 20.0), (48, 2.0)))["fall_before_final_c"]
    assert isinstance(fall, NumberFinding)
    assert fall.band.mid == pytest.approx(0.0, abs=ROUNDED)


CRASHED_EARLY = (
    "brewed: 2026-03-14\nfermentation: {temperature: 20 C, crashed: 2026-03-20, crashed_to: 4 C}\n"
)


def test_a_crash_while_the_gravity_still_fell_is_a_fall() -> None:
    record = CRASHED_EARLY + (
        "gravity: {final: 1.012, readings: [{when: 2026-03-19, gravity: 1.020},"
        " {when: 2026-03-24, gravity: 1.012}]}"
    )
    fall = findings_of(record)["fall_before_final_c"]
    assert isinstance(fall, NumberFinding)
    assert fall.band.mid == pytest.approx(16.0)


def test_a_final_gravity_first_read_after_the_crash_makes_the_crash_no_fall() -> None:
    record = CRASHED_EARLY + "gravity: {final: 1.012, readings: [{when: day 10, gravity: 1.012}]}"
    assert "fall_before_final_c" not in findings_of(record)


def test_a_crash_that_only_the_log_saw_is_no_fall_either() -> None:
    fall = findings_of(CRASHED, logged((240, 20.0), (48, 2.0)))["fall_before_final_c"]
    assert isinstance(fall, NumberFinding)
    assert fall.band.mid == pytest.approx(0.0, abs=ROUNDED)


def test_a_fall_before_the_first_final_reading_leaves_the_crash_open() -> None:
    record = CRASHED + (
        "gravity: {final: 1.012, readings: [{when: 2026-03-25, gravity: 1.012}]}\n"
        "fermentation: {temperature: 20 C, steps: [{since: 2026-03-22, at: 2 C}]}"
    )
    assert "cold_crash" not in findings_of(record)


@pytest.mark.parametrize(
    ("log", "value"),
    [
        (logged((240, 20.0), (48, 2.0)), "unguarded"),
        (logged((288, 20.0)), "none"),
    ],
)
def test_a_crash_is_read_from_the_log(log: ProbeLog, value: str) -> None:
    crash = findings_of(FINISHED, log)["cold_crash"]
    assert isinstance(crash, ClassFinding)
    assert crash.value == value


def test_a_log_that_ends_long_before_packaging_does_not_rule_a_crash_out() -> None:
    assert "cold_crash" not in findings_of(FINISHED, logged((254, 20.0)))


def test_an_opening_before_pitching_is_none_of_the_fermenter() -> None:
    record = (
        "pitch: {when: 2026-03-14 18:00}\n"
        "events: [{what: opened, when: 2026-03-13}, {what: opened, when: 2026-03-14}]"
    )
    finding = findings_of(record)["openings_after_pitch"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == 1.0


@given(temperatures)
def test_a_fall_is_never_less_than_nothing_nor_more_than_the_whole_range(
    beer_c: list[float],
) -> None:
    history = History(
        np.arange(len(beer_c), dtype=float), np.array(beer_c), STILL, "", ("fermentation",)
    )
    assert 0.0 <= largest_fall_c(history) <= max(beer_c) - min(beer_c)


@given(temperatures)
def test_a_beer_that_only_warms_has_no_fall(beer_c: list[float]) -> None:
    rising = np.array(sorted(beer_c))
    history = History(np.arange(rising.size, dtype=float), rising, STILL, "", ("fermentation",))
    assert largest_fall_c(history) == pytest.approx(0.0, abs=1e-9)
