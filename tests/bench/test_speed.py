"""Nothing in a full query is out of all proportion; the figures are for `tests.bench.speed`."""

from statistics import median

from diagnose.knowledge import RuleBase
from tests.bench.against import compare
from tests.bench.growth import grow
from tests.bench.query import consultations, quickest

# Other tests may be running beside these, and the machine may be any.
GENEROUS = 2.0
LEAST_RATIO = 5.0
SOME_CASES, SLOWEST_TIMES = 12, 12.0


def test_a_full_query_grows_no_faster_than_the_causes() -> None:
    few, many = grow(1, 3, (50, 200))
    assert many.ms <= GENEROUS * few.ms * many.causes / few.causes


def test_a_full_query_is_many_times_faster_than_solving_again_for_everything(
    rules: RuleBase,
) -> None:
    pairs = (compare(rules, one, 1) for one in consultations(rules, SOME_CASES))
    pair = next(one for one in pairs if one is not None)
    assert pair.theirs_ms >= LEAST_RATIO * pair.ours_ms


def test_no_case_takes_far_longer_than_the_others(rules: RuleBase) -> None:
    took = [quickest(rules, one, 2).ms for one in consultations(rules, SOME_CASES)]
    assert max(took) <= SLOWEST_TIMES * median(took)
