"""Bayes factors against other code, an independent integral, and the laws they keep."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate, stats

from diagnose.sensory import METHODS, bayes_reading, share_right
from tests.sensory.tables import Row, rows_of

EVERY = sorted(METHODS)
ONE_SIDED = [test for test in EVERY if not METHODS[test].two_sided]


@pytest.mark.parametrize(
    "row", rows_of("bayes_factors"), ids=lambda r: f"{r['test']} {r['right']}/{r['answers']}"
)
def test_the_factors_are_those_of_other_code(row: Row) -> None:
    method = METHODS[row["test"]]
    spreads = row["factors"]
    found = {s: bayes_reading(method, row["right"], row["answers"], s).factor for s in spreads}
    assert found == pytest.approx(row["factors"], rel=1e-3)


@pytest.mark.parametrize(
    "row", rows_of("bayes_factors"), ids=lambda r: f"{r['test']} {r['right']}/{r['answers']}"
)
def test_what_is_left_of_the_prior_is_that_of_other_code(row: Row) -> None:
    found = bayes_reading(METHODS[row["test"]], row["right"], row["answers"])
    ours = [found.dprime_mean, found.dprime_low, found.dprime_high]
    # The other code kept its ends on a grid of about a hundredth.
    assert ours == pytest.approx([row["mean"], row["low"], row["high"]], abs=0.02)


@pytest.mark.parametrize("test", EVERY)
@pytest.mark.parametrize("right", [6, 9, 12])
def test_a_factor_is_that_of_an_adaptive_integral(test, right):
    method = METHODS[test]

    def part(d):
        share = float(share_right(method, d))
        ways = stats.binom.pmf(right, 12, share)
        if method.two_sided:
            ways = (ways + stats.binom.pmf(12 - right, 12, share)) / 2
        return ways * stats.halfnorm.pdf(d, scale=1.5)

    theirs = integrate.quad(part, 0, 14, epsabs=0, epsrel=1e-8)[0]
    theirs /= stats.binom.pmf(right, 12, method.guess)
    assert bayes_reading(method, right, 12).factor == pytest.approx(theirs, rel=1e-6)


@given(st.sampled_from(ONE_SIDED), st.integers(2, 40), st.data())
def test_every_further_right_answer_raises_the_factor(test, answers, data):
    right = data.draw(st.integers(0, answers - 1))
    fewer, more = (bayes_reading(METHODS[test], x, answers).factor for x in (right, right + 1))
    assert more > fewer


@given(st.sampled_from(ONE_SIDED), st.integers(1, 40), st.data())
def test_no_prior_squeezes_out_more_than_the_best_distance_gives(test, answers, data):
    right = data.draw(st.integers(0, answers))
    best = max(right / answers, METHODS[test].guess)
    ceiling = stats.binom.pmf(right, answers, best)
    ceiling /= stats.binom.pmf(right, answers, METHODS[test].guess)
    assert bayes_reading(METHODS[test], right, answers).factor <= ceiling * (1 + 1e-9)


@pytest.mark.parametrize("test", EVERY)
def test_luck_expects_a_factor_of_one(test):
    # The mean of a Bayes factor over results of luck is 1, whatever the prior.
    method, answers = METHODS[test], 15
    chances = stats.binom.pmf(np.arange(answers + 1), answers, method.guess)
    factors = [bayes_reading(method, x, answers).factor for x in range(answers + 1)]
    assert chances @ factors == pytest.approx(1.0, abs=1e-9)


def test_a_large_panel_has_a_finite_factor():
    assert bayes_reading(METHODS["triangle"], 9000, 10_000).factor < 1e305


def test_a_two_sided_factor_does_not_care_which_beer_is_in_front():
    found = [bayes_reading(METHODS["2-afc-two-sided"], x, 12).factor for x in (3, 9)]
    assert found[0] == pytest.approx(found[1], rel=1e-12)


def test_the_prior_has_its_median_near_one():
    assert stats.halfnorm.median(scale=1.5) == pytest.approx(1.01, abs=0.005)
