"""No command is far from its target; the targets themselves are for `tests.bench.cold_start`."""

import pytest

from tests.bench.cold_start import HELLO, OTHERS, TARGETED, Start, time_starts

# Other tests may be running beside this one, and the machine may be any.
GENEROUS = 3.0


@pytest.fixture(scope="module")
def best_ms() -> dict[str, float]:
    hello = next(start for start in OTHERS if start.name == HELLO)
    return {name: min(ms) for name, ms in time_starts((*TARGETED, hello), runs=2).items()}


@pytest.mark.parametrize("start", TARGETED, ids=lambda start: start.name)
def test_a_command_answers_within_three_times_its_target(
    best_ms: dict[str, float], start: Start
) -> None:
    assert start.target_ms is not None
    assert start.target_ratio is not None
    on_any_machine_ms = start.target_ratio * best_ms[HELLO]
    assert best_ms[start.name] <= GENEROUS * max(start.target_ms, on_any_machine_ms)
