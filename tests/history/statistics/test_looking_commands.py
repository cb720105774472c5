"""`history contrast` and `history trend` as a brewer types them, and charts in words."""

import json
import math
from itertools import pairwise

import numpy as np
import pytest

from diagnose.consult.history_trend import trend_of_flaw, trend_of_measure
from tests.cli.running import written
from tests.history.statistics.brewers import BUTTERY, brew
from tests.history.stores import record


@pytest.fixture
def looking(history, rules, monkeypatch, tmp_path):
    """Twelve batches in a store: those pitched warm are buttery."""
    monkeypatch.setattr("diagnose.cli.loading.shipped_rules", lambda: rules)
    files = []
    for month in range(1, 13):
        warm = month in {2, 5, 7, 10}
        words = "buttery" if warm else "clean, no butter"
        text = record(
            batch=f"pale {month}",
            brewed=f"2025-{month:02d}-02",
            pitch=f"{{at: {70 if warm else 65} F}}",
            tastings=f'[{{who: Wren, words: "{words}"}}]',
        )
        files.append(written(tmp_path, text, f"pale{month}.yaml"))
    history("add", *files)
    return history


def test_the_contrast_is_one_table_with_the_model_beside_it(looking):
    out = looking("contrast", "--flaw", "buttery").out
    assert "CLAIMED" in out and "A cause in common, by the model" in out


def test_the_contrast_says_what_matters_on_one_screen_and_what_to_type_next(looking):
    out = looking("contrast", "--flaw", "buttery").out
    assert len(out.splitlines()) <= 40
    assert "pale-10-2025-10-02" in out.partition("Next: 'faultwort ")[2].partition("'")[0]


def test_a_difference_of_temperatures_is_told_in_both_scales(looking):
    # Source: five degrees between 65 F and 70 F are 2.8 C by definition.
    out = looking("contrast", "--flaw", "buttery").out
    assert "+2.8 C" in out and "+5" in out.partition("; ")[2].partition(" F")[0]


def test_a_trend_of_temperatures_is_told_in_both_scales(looking):
    assert "18.3 C (65 F)" in looking("trend", "--measure", "pitch_c").out


def test_the_contrast_as_json_has_its_schema_and_its_n(looking):
    answer = looking("contrast", "--flaw", "buttery", "--json").json
    assert (answer["schema"], answer["flawed"], answer["clean"]) == (
        "faultwort/history-contrast/1",
        4,
        8,
    )


def test_the_same_store_gives_the_same_contrast(looking):
    said = [looking("contrast", "--flaw", "buttery", "--json").out for _ in range(2)]
    assert said[0] == said[1]


def test_what_was_done_is_held_against_the_batches_since(looking):
    looking("event", "new hose", "--on", "2025-10-20")
    fix = looking("trend", "--flaw", "buttery", "--json").json["fixes"][0]
    assert (fix["before"], fix["flawed_before"], fix["since"], fix["flawed_since"]) == (10, 4, 2, 0)


def test_a_trend_of_a_measure_is_a_chart(looking):
    out = looking("trend", "--measure", "pitch_c").out
    assert "limits" in out and out.count("*") == 12


@pytest.mark.parametrize(
    "typed",
    [(), ("--flaw", "buttery", "--measure", "pitch_c"), ("--measure", "yeast_generation")],
)
def test_a_trend_of_nothing_both_or_a_class_is_refused(looking, typed):
    assert looking("trend", *typed).code == 2


def test_a_day_that_is_none_is_refused(looking):
    assert looking("contrast", "--flaw", "buttery", "--since", "May").code == 2


def test_a_change_of_a_measure_is_named_with_what_was_done_near_it(rules):
    values = [20.0 + 0.1 * (i % 3) for i in range(10)] + [24.0 + 0.1 * (i % 3) for i in range(10)]
    brews = [brew(i, False, {"pitch_c": (v - 1, v, v + 1)}) for i, v in enumerate(values)]
    events = [(brews[9].brewed_on, "new thermometer"), (brews[2].brewed_on, "new spoon")]
    change = trend_of_measure(rules, brews, "pitch_c", events).changes[0]
    assert (change.first_after, [one.words for one in change.near]) == (
        "batch-10",
        ["new thermometer"],
    )


def _shifted(rules, events=()):
    """Ten batches at one level and twelve at another."""
    levels = [20.0] * 10 + [24.0] * 12
    values = [level + 0.1 * (i * 7 % 5) for i, level in enumerate(levels)]
    brews = [brew(i, False, {"pitch_c": (v - 1, v, v + 1)}) for i, v in enumerate(values)]
    return trend_of_measure(rules, brews, "pitch_c", events)


def test_after_a_change_no_steady_batch_is_odd(rules):
    assert [point.key for point in _shifted(rules).points if point.marks] == []


def test_the_next_batch_is_held_against_the_latest_level(rules):
    trend = _shifted(rules)
    assert (trend.stretch, 23.0 < trend.low < 24.2 < trend.high < 25.0) == (12, True)


def test_each_point_carries_the_lines_it_is_held_against(rules):
    points = _shifted(rules).points
    assert (points[0].high < 21.5, points[-1].low > 23.0) == (True, True)


def test_each_point_but_the_first_carries_its_distance_from_the_one_before(rules):
    points = _shifted(rules).points[:10]
    steps = [abs(one.value - before.value) for before, one in pairwise(points)]
    assert points[0].jump is None
    assert [one.jump for one in points[1:]] == pytest.approx(steps)


def test_each_point_carries_its_sums(rules):
    assert all(one.above is not None and one.below is not None for one in _shifted(rules).points)


def test_a_slow_drift_is_found_where_no_value_is_odd(rules):
    # By hand: steps of about 0.6 are a spread of 0.53, so the ends lie at most 2.5 spreads out.
    values = 20.0 + 0.3 * np.resize([1.0, -1.0], 30) + np.linspace(0.0, 2.0, 30)
    brews = [brew(i, False, {"pitch_c": (v, v, v)}) for i, v in enumerate(values.tolist())]
    trend = trend_of_measure(rules, brews, "pitch_c", level=1e-4)
    outside = [one.key for one in trend.points if "beyond the limits" in one.marks]
    assert (trend.drift_from is not None, outside) == (True, [])


def test_a_fault_that_comes_less_often_is_said_to_be_rarer_but_not_gone(rules):
    brews = [brew(i, i < 12 or i == 20) for i in range(24)]
    fix = trend_of_flaw(rules, brews, BUTTERY, [(brews[12].brewed_on, "new hose")]).fixes[0]
    # By hand: 13 of 24 flawed, at most one of them among the last 12.
    assert (fix.says.endswith("but not gone"), fix.p_fewer) == (
        True,
        pytest.approx(13 / math.comb(24, 12)),
    )


def test_few_clean_batches_after_a_fix_cannot_be_told_from_luck(rules):
    brews = [brew(i, i < 9 and i % 3 == 0) for i in range(12)]
    fix = trend_of_flaw(rules, brews, BUTTERY, [(brews[9].brewed_on, "new hose")]).fixes[0]
    # By hand, uniform prior: 7 8 9 / (11 12 13) = 0.294; ten clean ones are 0.0433, nine
    # 0.0542.
    assert (round(fix.luck, 3), fix.more_clean) == (0.294, 7)


def test_a_long_clean_run_after_a_fix_seems_to_hold(rules):
    brews = [brew(i, i < 9 and i % 3 == 0) for i in range(22)]
    fix = trend_of_flaw(rules, brews, BUTTERY, [(brews[9].brewed_on, "new hose")]).fixes[0]
    assert fix.says.endswith("it seems to hold")


def test_the_answers_are_plain_json(rules):
    brews = [brew(i, i % 3 == 0, {"pitch_c": (19.0, 20.0 + i, 40.0)}) for i in range(5)]
    for answer in (trend_of_flaw(rules, brews, BUTTERY), trend_of_measure(rules, brews, "pitch_c")):
        assert json.loads(json.dumps(answer.model_dump(mode="json"), allow_nan=False))
