"""Fault values, impossible values, spikes and stuck sensors: flagged, kept, and left out."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.batch.probe import Flag, ProbeLog, Role, good
from diagnose.batch.probe.hampel import hampel_spikes
from tests.probe.written import beer_log, note_with, texts, wavy

quickly = settings(max_examples=60, deadline=None, derandomize=True)
FLOOR = 1.0


def flagged(log: ProbeLog, kind: Flag, role: Role = "beer_temperature") -> list[int]:
    return np.flatnonzero(log.series[role].flags[kind]).tolist()


def with_cells(cells: dict[int, str], count: int = 60) -> ProbeLog:
    """A wavy fermentation in which some cells are written otherwise."""
    return beer_log([cells.get(at, f"{value:.2f}") for at, value in enumerate(wavy(count))])


# Common practice, no source: what sensors and loggers write for "no reading".
MISSING = ["", "NaN", "nan", "--", "n/a", "null", "#N/A", "unavailable", "-"]
SENTINELS = ["-127", "-127.00", "85", "85.0", "0", "0.00", "999", "-999", "9999"]


@pytest.mark.parametrize("cell", MISSING)
def test_a_word_for_nothing_is_missing(cell: str) -> None:
    log = with_cells({20: cell})
    assert (flagged(log, "missing"), np.isnan(log.series["beer_temperature"].values[20])) == (
        [20],
        True,
    )


@pytest.mark.parametrize("cell", SENTINELS)
def test_a_fault_value_is_flagged_and_kept(cell: str) -> None:
    log = with_cells({20: cell})
    kept = log.series["beer_temperature"].values[20]
    assert (flagged(log, "sentinel"), kept) == ([20], float(cell))


@pytest.mark.parametrize("cell", SENTINELS)
def test_a_fault_value_is_left_out_of_the_usable_ones(cell: str) -> None:
    usable = good(with_cells({20: cell}).series["beer_temperature"])
    assert np.flatnonzero(np.isnan(usable)).tolist() == [20]


def test_a_run_of_zeros_far_from_the_rest_is_a_fault() -> None:
    assert flagged(with_cells(dict.fromkeys(range(20, 30), "0")), "sentinel") == list(range(20, 30))


def test_a_cold_crash_to_zero_is_no_fault() -> None:
    falling = [str(round(value)) for value in np.linspace(12, 0, 30)] + ["0"] * 10
    assert flagged(beer_log(falling), "sentinel") == []


def test_a_mash_that_passes_85_is_no_fault() -> None:
    assert (
        flagged(beer_log([f"{value:.1f}" for value in np.arange(60.0, 100.0, 0.5)]), "sentinel")
        == []
    )


def test_a_column_of_nothing_but_85_is_a_lost_sensor() -> None:
    assert len(flagged(beer_log(["85.0"] * 30), "sentinel")) == 30


@pytest.mark.parametrize(
    ("cell", "flag"), [("185", "sentinel"), ("-196.6", "sentinel"), ("240", "out_of_range")]
)
def test_faults_are_known_in_fahrenheit_too(cell: str, flag: Flag) -> None:
    cells = [f"{value * 1.8 + 32:.1f}" for value in wavy(60)]
    cells[20] = cell
    assert flagged(beer_log(cells, header="time,beer (F)"), flag) == [20]


def test_999_is_a_gravity_when_gravities_are_in_thousandths() -> None:
    cells = [str(value) for value in range(1030, 998, -1)]
    assert flagged(beer_log(cells, header="time,gravity"), "sentinel", "gravity") == []


@pytest.mark.parametrize("cell", ["140", "-40"])
def test_an_impossible_value_is_flagged(cell: str) -> None:
    assert flagged(with_cells({20: cell}), "out_of_range") == [20]


# Law: one spike is flagged, and nothing else, wherever it stands.
@quickly
@given(st.integers(0, 59), st.floats(6, 60), st.booleans(), st.integers(0, 99))
def test_one_spike_is_flagged_and_only_it(at: int, size: float, up: bool, seed: int) -> None:
    values = wavy(60, seed=seed)
    values[at] += size if up else -size
    cells = [f"{value:.3f}" for value in values]
    log = beer_log(cells)
    assert set(flagged(log, "spike")) | set(flagged(log, "out_of_range")) == {at}


@quickly
@given(st.lists(st.floats(0, 30), min_size=0, max_size=80))
def test_a_steady_rise_or_fall_has_no_spike(values: list[float]) -> None:
    assert not hampel_spikes(np.sort(np.array(values)), floor=FLOOR).any()


@quickly
@given(st.lists(st.integers(0, 2), min_size=0, max_size=80))
def test_steps_within_the_floor_are_no_spikes(steps: list[int]) -> None:
    values = 19 + np.array(steps, dtype=np.float64) * FLOOR / 2
    assert not hampel_spikes(values, floor=FLOOR).any()


@quickly
@given(st.lists(st.floats(0, 30), min_size=12, max_size=80))
def test_spikes_do_not_depend_on_the_direction_of_time(values: list[float]) -> None:
    series = np.array(values)
    forward, backward = hampel_spikes(series, floor=FLOOR), hampel_spikes(series[::-1], floor=FLOOR)
    assert forward.tolist() == backward[::-1].tolist()


@quickly
@given(st.lists(st.floats(0, 30), min_size=11, max_size=40))
def test_the_fast_filter_agrees_with_the_definition(values: list[float]) -> None:
    series = np.array(values)
    found = hampel_spikes(series, floor=FLOOR)
    for at in range(5, series.size - 5):
        window = series[at - 5 : at + 6]
        spread = np.median(np.abs(window - np.median(window)))
        limit = max(4 * 1.4826 * spread, FLOOR)
        assert found[at] == (abs(series[at] - np.median(window)) > limit)


def test_a_step_of_the_controller_is_no_spike() -> None:
    values = np.concatenate([wavy(40), wavy(40, seed=2) - 8])
    assert flagged(beer_log([f"{value:.2f}" for value in values]), "spike") == []


def test_a_probe_warm_from_the_hand_at_the_start_is_a_spike() -> None:
    assert flagged(with_cells({0: "31.0"}), "spike") == [0]


def test_a_first_gravity_long_before_the_second_is_no_spike() -> None:
    log = beer_log(
        [1.050, *[1.012 - 0.0001 * at for at in range(8)]], step_s=86_400, header="time,SG"
    )
    assert flagged(log, "spike", "gravity") == []


def test_repeats_for_over_a_day_are_a_stuck_sensor() -> None:
    values = wavy(300)
    values[100:220] = values[100]
    log = beer_log([f"{value:.2f}" for value in values])
    assert flagged(log, "stuck") == list(range(101, 220))


def test_a_coarse_probe_that_holds_still_is_not_stuck() -> None:
    cells = [str(round(value)) for value in wavy(150)] + ["19"] * 150
    assert flagged(beer_log(cells), "stuck") == []


def test_a_set_point_that_holds_still_is_not_stuck() -> None:
    cells = [f"{value:.2f}" for value in wavy(150)] + ["19.00"] * 150
    assert flagged(beer_log(cells, header="time,set point (C)"), "stuck", "set_point") == []


def test_a_final_gravity_in_whole_points_is_not_stuck() -> None:
    cells = [f"{1.050 - 0.001 * at:.3f}" for at in range(40)] + ["1.010"] * 100
    log = beer_log(cells, step_s=3600, header="time,gravity")
    assert flagged(log, "stuck", "gravity") == []


def test_a_column_that_never_changes_is_said() -> None:
    assert "never changes" in texts(beer_log(["19.31"] * 40), "warn")


def test_a_flag_is_said_with_its_first_line() -> None:
    assert note_with(with_cells({20: "-127", 21: "-127"}), "2 fault values").line == 22


def test_a_float_lifted_on_day_one_is_said() -> None:
    rise = [1.050, 1.051, 1.053, 1.054, 1.053, 1.050]
    fall = [1.050 - 0.002 * at for at in range(18)]
    log = beer_log([f"{value:.4f}" for value in rise + fall], step_s=3600, header="time,gravity")
    assert "gas and yeast lift a float" in texts(log, "info")


def test_a_reading_that_is_missing_hides_no_lifted_float() -> None:
    rise = ["1.0500", "1.0510", "nan", "1.0540", "1.0530", "1.0500"]
    fall = [f"{1.050 - 0.002 * at:.4f}" for at in range(18)]
    log = beer_log([*rise, *fall], step_s=3600, header="time,gravity")
    assert "gas and yeast lift a float" in texts(log, "info")


def test_a_float_that_only_falls_is_not_said_to_rise() -> None:
    log = beer_log([f"{1.050 - 0.002 * at:.3f}" for at in range(18)], step_s=3600, header="time,SG")
    assert "lift a float" not in texts(log, "info")
