"""Looking after every evening, or every answer: the risk over all looks stays within alpha."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.sensory import (
    METHODS,
    Evening,
    EveningsPlan,
    chance_to_find,
    chance_to_show,
    critical,
    exact_p,
    plan_evenings,
    plan_one_by_one,
    read_evenings,
    read_one_by_one,
    share_right,
    wald_lines,
)
from diagnose.sensory.one_by_one import _counted
from tests.sensory.tables import Row, rows_of

TRIANGLE = METHODS["triangle"]
ONE_SIDED = sorted(test for test in METHODS if not METHODS[test].two_sided)
PANELS = 20_000
SIZES = st.lists(st.integers(1, 20), min_size=1, max_size=5)


@given(st.sampled_from(ONE_SIDED), SIZES, st.sampled_from([0.05, 0.1, 0.2]))
def test_no_plan_of_evenings_exceeds_its_risk(test, sizes, alpha):
    plan = plan_evenings(METHODS[test], sizes, alpha)
    assert plan.exact_alpha <= alpha * (1 + 1e-9)


@given(st.sampled_from(ONE_SIDED), SIZES, st.sampled_from([0.05, 0.1, 0.2]))
def test_the_risk_of_a_plan_is_its_chance_to_show_what_is_not_there(test, sizes, alpha):
    plan = plan_evenings(METHODS[test], sizes, alpha)
    assert chance_to_show(plan, METHODS[test].guess)[0] == pytest.approx(plan.exact_alpha)


@given(st.sampled_from(ONE_SIDED), st.integers(1, 60))
def test_one_evening_has_the_limit_of_a_plain_test(test, answers):
    plan = plan_evenings(METHODS[test], [answers], 0.1)
    plain = chance_to_find(METHODS[test], answers, 0.1, METHODS[test].guess)
    assert plan.exact_alpha == pytest.approx(plain, abs=1e-12)


@given(st.sampled_from(ONE_SIDED), SIZES, st.floats(0.1, 0.8), st.floats(0.01, 0.2))
def test_more_tasters_able_to_tell_are_shown_more_often(test, sizes, able, more):
    plan = plan_evenings(METHODS[test], sizes, 0.1)
    guess = METHODS[test].guess
    low, high = (chance_to_show(plan, guess + (1 - guess) * x)[0] for x in (able, able + more))
    assert high >= low - 1e-12


def test_a_plan_is_counted_over_every_path():
    plan = plan_evenings(TRIANGLE, [3, 3, 3], 0.2)
    limits = {look.answers: look.least_right for look in plan.evenings}
    total = 0.0
    for path in product((0, 1), repeat=9):
        sums = np.cumsum(path)
        crossed = any(c is not None and sums[n - 1] >= c for n, c in limits.items())
        total += crossed * (1 / 3) ** sums[-1] * (2 / 3) ** (9 - sums[-1])
    assert plan.exact_alpha == pytest.approx(total, abs=1e-12)


def test_a_look_half_way_that_others_printed_has_the_risk_that_we_count():
    # 17, then 30 answers with 11 and 15 right: printed p of 0.0080 and 0.0435 (a text of 2013),
    # together 0.0457 by an earlier calculation.
    looks = (Evening(17, 11, 0.0), Evening(30, 15, 0.0))
    assert chance_to_show(EveningsPlan(0.05, looks, 0.0), 1 / 3)[0] == pytest.approx(
        0.0457, abs=5e-5
    )


@pytest.mark.parametrize("test", ONE_SIDED)
def test_simulated_evenings_without_a_difference_keep_the_risk(test):
    method, random = METHODS[test], np.random.default_rng(21)
    plan = plan_evenings(method, [8, 8, 8], 0.1)
    rights = random.binomial(8, method.guess, (PANELS, 3))
    kinds, inverse = np.unique(rights, axis=0, return_inverse=True)
    shown = [read_evenings(method, plan, kind.tolist()).shown_on is not None for kind in kinds]
    rate = np.array(shown)[inverse.ravel()].mean()
    # Half a point is more than twice the sampling error of 20,000 panels.
    assert rate <= min(0.1, plan.exact_alpha + 0.005)


def test_plain_limits_looked_at_every_evening_would_exceed_the_risk():
    random = np.random.default_rng(21)
    totals = random.binomial(8, 1 / 3, (PANELS, 3)).cumsum(axis=1)
    least = [critical(TRIANGLE, n, 0.1).least_right for n in (8, 16, 24)]
    assert np.mean((totals >= least).any(axis=1)) > 0.12


@given(st.sampled_from(ONE_SIDED), st.lists(st.integers(0, 6), min_size=1, max_size=3))
def test_an_evening_shows_a_difference_only_with_a_p_within_alpha(test, rights):
    plan = plan_evenings(METHODS[test], [6, 6, 6], 0.1)
    found = read_evenings(METHODS[test], plan, rights)
    assert found.shown_on is None or found.p <= 0.1 * (1 + 1e-9)


def test_the_p_of_the_first_evening_is_the_plain_one():
    plan = plan_evenings(TRIANGLE, [8, 8], 0.1)
    assert read_evenings(TRIANGLE, plan, [4]).p == pytest.approx(exact_p(TRIANGLE, 4, 8))


def test_a_difference_on_the_second_evening_is_told_with_what_was_counted_till_then():
    plan = plan_evenings(TRIANGLE, [8, 8, 8], 0.1)
    found = read_evenings(TRIANGLE, plan, [3, 8, 0])
    counted = (found.tasted, found.right, found.answers, found.shown_on)
    assert counted == (2, 3 + 8, 8 + 8, 2)


def test_evenings_after_a_difference_was_shown_do_not_count():
    plan = plan_evenings(TRIANGLE, [8, 8], 0.1)
    assert read_evenings(TRIANGLE, plan, [8, 0]) == read_evenings(TRIANGLE, plan, [8])


def test_a_plan_not_yet_tasted_has_no_p():
    plan = plan_evenings(TRIANGLE, [8, 8], 0.1)
    assert read_evenings(TRIANGLE, plan, []).p is None


@pytest.mark.parametrize("row", rows_of("wald_lines"), ids=lambda r: f"{r['test']} {r['dprime']}")
def test_walds_lines_and_their_risks_are_those_of_other_code(row: Row) -> None:
    method = METHODS[row["test"]]
    share = float(share_right(method, row["dprime"]))
    lines = wald_lines(method, share, row["alpha"], row["miss"])
    # That code broke off after 300 answers.
    plan = _counted(method, share, lines, (1, 300))
    found = [lines.slope, lines.same_intercept, lines.different_intercept, plan.exact_alpha]
    wanted = [row["slope"], row["same"], row["different"], row["true_alpha"]]
    assert found == pytest.approx(wanted, abs=6e-4)


@settings(max_examples=60)
@given(
    st.sampled_from(ONE_SIDED),
    st.floats(0.8, 5.0),
    st.tuples(st.sampled_from([0.05, 0.1, 0.3]), st.sampled_from([0.05, 0.2, 0.45])),
    st.integers(1, 8),
)
def test_no_plan_one_by_one_exceeds_its_risk(test, d, risks, least):
    share = float(share_right(METHODS[test], d))
    plan = plan_one_by_one(METHODS[test], share, risks, least=least, most=60)
    assert plan.exact_alpha <= risks[0]


def test_walds_line_alone_would_exceed_its_risk_in_places():
    method = METHODS["duo-trio"]
    share = float(share_right(method, 5.0))
    wald = _counted(method, share, wald_lines(method, share, 0.3, 0.45), (1, 60))
    plan = plan_one_by_one(method, share, (0.3, 0.45), least=1, most=60)
    assert (wald.exact_alpha > 0.3, plan.exact_alpha <= 0.3) == (True, True)


def test_simulated_answers_one_by_one_stop_as_often_as_counted():
    plan = plan_one_by_one(TRIANGLE, float(share_right(TRIANGLE, 2.0)), (0.1, 0.2), most=30)
    random = np.random.default_rng(22)
    runs = random.random((PANELS, 30)) < 1 / 3
    ends = [read_one_by_one(plan, run.tolist()) for run in runs]
    rate = np.mean([end == "different" for end, _ in ends])
    assert rate == pytest.approx(plan.exact_alpha, abs=0.006) and rate <= 0.1


def test_nothing_is_decided_before_the_least_number_of_answers():
    plan = plan_one_by_one(TRIANGLE, 0.8, (0.1, 0.2), least=6, most=30)
    assert read_one_by_one(plan, [True] * 5) == ("going on", 5)


def test_a_run_without_a_decision_ends_as_not_shown():
    plan = plan_one_by_one(TRIANGLE, 0.5, (0.1, 0.2), least=6, most=8)
    answers = [True, False] * 4
    assert read_one_by_one(plan, answers) == ("not shown", 8)


@pytest.mark.parametrize(
    ("call", "wanted"),
    [
        (lambda: plan_evenings(TRIANGLE, [], 0.1), "1 to 20 evenings"),
        (lambda: plan_evenings(TRIANGLE, [8, 0], 0.1), "at least one taster"),
        (lambda: plan_evenings(METHODS["2-afc-two-sided"], [8], 0.1), "a one-sided test"),
        (
            lambda: read_evenings(TRIANGLE, plan_evenings(TRIANGLE, [8], 0.1), [9]),
            "no more right answers than the 8 given",
        ),
        (
            lambda: read_evenings(TRIANGLE, plan_evenings(TRIANGLE, [8], 0.1), [2, 2]),
            "the 1 evenings planned",
        ),
        (lambda: plan_one_by_one(TRIANGLE, 0.3, (0.1, 0.2)), "more than luck"),
        (lambda: plan_one_by_one(TRIANGLE, 0.6, (0.1, 0.2), least=9, most=8), "at least 9"),
    ],
)
def test_a_plan_that_cannot_be_is_refused(call, wanted):
    with pytest.raises(UnusableInput, match=wanted):
        call()
