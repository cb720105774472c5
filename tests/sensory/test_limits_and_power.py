"""Limits, power and panel sizes against scipy.stats, and the laws they keep."""

from fractions import Fraction
from math import comb

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from diagnose.errors import UnusableInput
from diagnose.sensory import (
    METHODS,
    chance_to_find,
    critical,
    exact_p,
    first_and_safe,
    panel_sizes,
    power_by_able,
    power_by_dprime,
    share_right,
)
from tests.sensory.tables import Row, rows_of

EVERY = sorted(METHODS)
ONE_SIDED = [test for test in EVERY if not METHODS[test].two_sided]
ALPHAS = (0.01, 0.05, 0.1, 0.2)
TO_200 = np.arange(3, 201)


def _least_by_scipy(test, answers, alpha):
    """By the quantile of the binomial distribution; answers + 1 where there is none."""
    method = METHODS[test]
    share = alpha / 2 if method.two_sided else alpha
    return stats.binom.isf(share, answers, method.guess).astype(int) + 1


@pytest.mark.parametrize("alpha", ALPHAS)
@pytest.mark.parametrize("test", EVERY)
def test_the_limits_from_3_to_200_answers_are_those_of_scipy(test, alpha):
    ours = [critical(METHODS[test], int(n), alpha).least_right or int(n) + 1 for n in TO_200]
    assert ours == _least_by_scipy(test, TO_200, alpha).tolist()


@pytest.mark.parametrize("alpha", ALPHAS)
@pytest.mark.parametrize("test", EVERY)
def test_no_true_risk_exceeds_alpha(test, alpha):
    assert max(critical(METHODS[test], int(n), alpha).exact_alpha for n in TO_200) <= alpha


def test_the_p_of_a_triangle_is_that_counted_in_whole_numbers():
    ways = sum(Fraction(comb(15, k) * 2 ** (15 - k), 3**15) for k in range(10, 16))
    assert exact_p(METHODS["triangle"], 10, 15) == pytest.approx(float(ways), rel=1e-12)


@given(st.sampled_from(ONE_SIDED), st.integers(1, 200), st.data())
def test_a_p_is_that_of_scipy(test, answers, data):
    right = data.draw(st.integers(0, answers))
    theirs = stats.binomtest(right, answers, METHODS[test].guess, alternative="greater").pvalue
    assert exact_p(METHODS[test], right, answers) == pytest.approx(theirs, abs=1e-9)


@given(st.integers(1, 200), st.data())
def test_a_two_sided_p_is_that_of_scipy(answers, data):
    right = data.draw(st.integers(0, answers))
    theirs = stats.binomtest(right, answers, 0.5).pvalue
    ours = exact_p(METHODS["2-afc-two-sided"], right, answers)
    assert ours == pytest.approx(theirs, abs=1e-9)


@given(st.sampled_from(ONE_SIDED), st.integers(1, 200), st.data())
def test_the_p_falls_with_every_further_right_answer(test, answers, data):
    right = data.draw(st.integers(0, answers - 1))
    more, fewer = (exact_p(METHODS[test], x, answers) for x in (right + 1, right))
    assert more < fewer or more == fewer == 1.0


@given(st.sampled_from(EVERY), st.integers(1, 120), st.sampled_from(ALPHAS), st.data())
def test_a_count_reaches_the_limit_just_when_its_p_is_within_alpha(test, answers, alpha, data):
    right = data.draw(st.integers(-(-answers // 2), answers))
    least = critical(METHODS[test], answers, alpha).least_right
    reaches = least is not None and right >= least
    assert reaches is (exact_p(METHODS[test], right, answers) <= alpha * (1 + 1e-9))


@pytest.mark.parametrize("d", [0.5, 1.0, 1.5, 3.0])
@pytest.mark.parametrize("test", EVERY)
def test_the_power_is_that_of_scipy(test, d):
    share = float(share_right(METHODS[test], d))
    least = _least_by_scipy(test, TO_200, 0.1)
    theirs = stats.binom.sf(least - 1, TO_200, share)
    if METHODS[test].two_sided:
        other_way = stats.binom.cdf(TO_200 - least, TO_200, share)
        theirs = theirs + np.where(least > TO_200, 0.0, other_way)
    ours = [power_by_dprime(METHODS[test], int(n), 0.1, d) for n in TO_200]
    assert ours == pytest.approx(theirs.tolist(), abs=1e-6)


@given(
    st.sampled_from(EVERY),
    st.integers(5, 100),
    st.floats(0.05, 4.0),
    st.floats(0.05, 2.0),
)
def test_a_greater_distance_is_found_at_least_as_often(test, answers, d, more):
    near, far = (power_by_dprime(METHODS[test], answers, 0.1, x) for x in (d, d + more))
    assert far >= near - 1e-12


@given(st.sampled_from(EVERY), st.integers(3, 100), st.sampled_from(ALPHAS))
def test_beers_alike_are_called_different_with_the_true_risk(test, answers, alpha):
    found = chance_to_find(METHODS[test], answers, alpha, METHODS[test].guess)
    assert found == pytest.approx(critical(METHODS[test], answers, alpha).exact_alpha, abs=1e-12)


def test_twelve_tasters_are_worse_than_nine():
    nine, twelve = (power_by_able(METHODS["triangle"], n, 0.05, 0.5) for n in (9, 12))
    assert twelve < nine


def test_nine_triangles_miss_one_time_in_three_what_half_the_tasters_can_taste():
    missed = 1 - power_by_able(METHODS["triangle"], 9, 0.1, 0.5)
    assert missed == pytest.approx(0.35, abs=0.005)


@pytest.mark.parametrize("row", rows_of("sizes"), ids=lambda r: f"{r['test']} {r['dprime']}")
def test_first_and_safe_sizes_are_those_of_other_code(row: Row) -> None:
    method = METHODS[row["test"]]
    share = float(share_right(method, row["dprime"]))
    found = first_and_safe(method, share, alpha=row["alpha"], power=row["power"])
    assert found == (row["first"], row["safe"])


@given(st.sampled_from(EVERY), st.floats(0.3, 0.9), st.sampled_from(ALPHAS))
def test_every_size_from_the_safe_one_on_reaches_the_power(test, able, alpha):
    method = METHODS[test]
    share = method.guess + (1 - method.guess) * able
    _, safe = first_and_safe(method, share, alpha=alpha, power=0.8)
    assert safe is not None
    sizes = range(safe, safe + 60)
    assert min(chance_to_find(method, n, alpha, share) for n in sizes) >= 0.8


@given(st.sampled_from(EVERY), st.floats(0.2, 0.9), st.sampled_from(ALPHAS))
def test_a_good_size_beats_every_smaller_one(test, able, alpha):
    method = METHODS[test]
    share = method.guess + (1 - method.guess) * able
    powers = [line.power for line in panel_sizes(method, share, alpha=alpha, power=0.8).good]
    assert powers == sorted(set(powers))


@given(st.sampled_from(EVERY), st.floats(0.2, 0.9), st.sampled_from(ALPHAS))
def test_a_poor_size_is_matched_by_the_smaller_one_named(test, able, alpha):
    method = METHODS[test]
    share = method.guess + (1 - method.guess) * able
    for size, better in panel_sizes(method, share, alpha=alpha, power=0.8).poor:
        assert better < size
        ours, theirs = (chance_to_find(method, n, alpha, share) for n in (size, better))
        assert theirs >= ours - 1e-9


def test_a_difference_beyond_any_panel_has_no_size():
    sizes = first_and_safe(METHODS["triangle"], 1 / 3 + 1e-4, alpha=0.05, power=0.9)
    assert sizes == (None, None)


# Source of the table: the list of bad input.
BAD = [
    (lambda: critical(METHODS["triangle"], 0, 0.1), "at least one taster"),
    (lambda: critical(METHODS["triangle"], 9, 1.0), "below 0.5"),
    (lambda: critical(METHODS["triangle"], 9, 0.0), "above 0"),
    (lambda: critical(METHODS["triangle"], 9, float("nan")), "above 0"),
    (lambda: critical(METHODS["triangle"], 10**8, 0.1), "at most 10,000"),
    (lambda: exact_p(METHODS["triangle"], 10, 9), "no more right answers than the 9 given"),
    (lambda: exact_p(METHODS["triangle"], -1, 9), "0 or more"),
    (lambda: panel_sizes(METHODS["triangle"], 0.6, alpha=0.1, power=1.0), "below 1"),
]


@pytest.mark.parametrize(("call", "wanted"), BAD, ids=[wanted for _, wanted in BAD])
def test_a_panel_that_cannot_be_is_refused_in_one_sentence(call, wanted):
    with pytest.raises(UnusableInput) as refused:
        call()
    assert wanted in str(refused.value) and "\n" not in str(refused.value)
