"""Several rounds by the same tasters: fits, corrected readings, and their true risks."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from diagnose.sensory import (
    METHODS,
    able_interval,
    bayes_factor_by_taster,
    critical,
    fit_spread,
    power_replicated,
    read_replicated,
    similarity_p,
    similarity_p_replicated,
)
from diagnose.sensory.beta_binomial import chance_of_rounds
from diagnose.sensory.replicated import overdispersion, p_tasters_alike, sign_flip_p

TRIANGLE, DUO_TRIO = METHODS["triangle"], METHODS["duo-trio"]
TWO_SIDED = METHODS["2-afc-two-sided"]
THIRD = 1 / 3
PANELS = 20_000

# Source of the table: fits run once with another program for the same model (the Python package
# senspy 0.2.0, after sensR): tasters, luck, mean, gamma, log likelihood.
SIX = ((6, 6), (1, 6), (5, 6), (2, 6), (6, 6), (3, 6))
EIGHT = ((8, 8), (2, 8), (3, 8), (7, 8), (4, 8), (8, 8), (1, 8), (5, 8))
FITS = [
    (SIX, 0.5, 0.362113, 0.881499, -11.000434),
    (SIX, 0.0, 0.657062, 0.350982, -10.973732),
    (EIGHT, THIRD, 0.392435, 0.718623, -16.248961),
    (EIGHT, 0.0, 0.614351, 0.340511, -17.056902),
    (((3, 3), (3, 3), (1, 3), (1, 3)), 0.0, 0.681798, 0.292971, -5.040060),
]


@pytest.mark.parametrize(("counts", "guess", "able", "gamma", "log_likelihood"), FITS)
def test_a_fit_is_that_of_another_program(counts, guess, able, gamma, log_likelihood):
    found = fit_spread(counts, guess)
    ours = [found.able, found.gamma, found.log_likelihood]
    assert ours == pytest.approx([able, gamma, log_likelihood], abs=2e-6)


def test_two_rounds_are_fitted_to_the_last_count():
    # Two rounds leave two free shares: 1, 3 and 11 of 15 tasters with 0, 1 and 2 right follow
    # exactly from a mean of 2/3 and gamma 0.7.
    found = fit_spread([(0, 2)] + [(1, 2)] * 3 + [(2, 2)] * 11, 0.5)
    assert [found.able, found.gamma] == pytest.approx([2 / 3, 0.7], abs=1e-5)


@given(
    st.integers(1, 8), st.floats(0.02, 0.98), st.floats(0.02, 0.98), st.sampled_from([0.5, THIRD])
)
def test_the_chances_of_a_taster_add_up_to_one(rounds, able, gamma, guess):
    total = sum(
        float(chance_of_rounds(right, rounds, guess)(able, gamma)) for right in range(rounds + 1)
    )
    assert total == pytest.approx(1.0, abs=1e-9)


@given(st.integers(1, 8), st.floats(0.05, 0.95), st.floats(0.02, 0.98), st.data())
def test_without_luck_a_taster_is_scipys_beta_binomial(rounds, able, gamma, data):
    right = data.draw(st.integers(0, rounds))
    total = (1 - gamma) / gamma
    theirs = stats.betabinom.pmf(right, rounds, able * total, (1 - able) * total)
    ours = float(chance_of_rounds(right, rounds, 0.0)(able, gamma))
    assert ours == pytest.approx(theirs, abs=1e-9)


def test_tasters_alike_show_no_spread():
    found = fit_spread([(2, 4)] * 6, THIRD)
    assert (found.gamma, overdispersion(found)) == (0.0, 0.0)


@settings(max_examples=25)
@given(st.lists(st.integers(0, 4), min_size=2, max_size=8))
def test_the_interval_of_the_mean_contains_it(rights):
    counts = [(right, 4) for right in rights]
    low, high = able_interval(counts, THIRD)
    assert low - 1e-6 <= fit_spread(counts, THIRD).able <= high + 1e-6


@settings(max_examples=25)
@given(st.lists(st.integers(0, 4), min_size=1, max_size=6))
def test_the_p_for_other_people_is_never_below_that_of_the_panel(rights):
    found = read_replicated(TRIANGLE, [(right, 4) for right in rights])
    assert found.p_elsewhere >= found.p


# Source: the fit of the table above.
def test_the_share_able_to_tell_is_that_of_the_fit_within_its_interval():
    able = read_replicated(TRIANGLE, EIGHT).able
    assert able.value == pytest.approx(0.392435, abs=2e-6)
    assert (able.low, able.high) == able_interval(EIGHT, THIRD)


def test_one_answer_each_is_worth_what_it_counts():
    found = read_replicated(TRIANGLE, [(1, 1)] * 5 + [(0, 1)] * 4)
    assert (found.worth_answers, found.p_elsewhere) == pytest.approx((9, found.p), abs=1e-9)


def test_answers_of_tasters_who_differ_are_worth_less():
    found = read_replicated(TRIANGLE, EIGHT)
    assert 8 < found.worth_answers < 40


# Source: the design effect n / (1 + (n - 1) rho) of a cluster sample; rho is the correlation of
# two answers of one taster, here from the chance that both of two are right.
@pytest.mark.parametrize("test", ["triangle", "duo-trio", "2-afc-two-sided"])
def test_answers_are_worth_less_by_how_alike_two_of_one_taster_are(test):
    method = METHODS[test]
    guess = 0.0 if method.two_sided else method.guess
    fit = fit_spread(EIGHT, guess)
    one, both = (float(chance_of_rounds(n, n, guess)(fit.able, fit.gamma)) for n in (1, 2))
    rho = (both - one**2) / (one * (1 - one))
    found = read_replicated(method, EIGHT).worth_answers
    assert found == pytest.approx(sum(n / (1 + (n - 1) * rho) for _, n in EIGHT), rel=1e-6)


# Source of the table: an earlier calculation by other code, 0.5 able to tell, alpha 0.1.
POWERS = [
    ((3,) * 4, 0.0001, 0.82),
    ((3,) * 4, 0.5, 0.77),
    ((2,) * 12, 0.5, 0.96),
    ((3,) * 6, 0.5, 0.84),
]


@pytest.mark.parametrize(("rounds_of", "gamma", "power"), POWERS)
def test_the_power_of_several_rounds_is_that_of_other_code(rounds_of, gamma, power):
    least = critical(TRIANGLE, sum(rounds_of), 0.1).least_right
    found = power_replicated(TRIANGLE, rounds_of, least, (0.5, gamma))
    assert found == pytest.approx(power, abs=0.006)


# Source of the table: an earlier calculation by other code.
BY_TASTER = [([3, 3, 1, 1], 16.8), ([2, 2, 2, 2], 2.34)]


@pytest.mark.parametrize(("rights", "factor"), BY_TASTER)
def test_two_perfect_tasters_tell_more_than_the_same_total_spread_evenly(rights, factor):
    found = bayes_factor_by_taster([(right, 3) for right in rights], THIRD)
    assert found == pytest.approx(factor, abs=0.05)


def _panels(random, able, gamma, *, tasters, rounds, guess):
    """Right answers of each taster of many panels, tasters differing as gamma says."""
    total = (1 - gamma) / gamma
    if able:
        share = random.beta(able * total, (1 - able) * total, (PANELS, tasters))
    else:
        share = np.zeros((PANELS, tasters))
    return random.binomial(rounds, guess + (1 - guess) * share)


def _rate(panels, decide):
    """Share of panels decided; like panels are read once."""
    kinds, inverse = np.unique(np.sort(panels, axis=1), axis=0, return_inverse=True)
    decided = np.array([decide(kind.tolist()) for kind in kinds])
    return float(decided[inverse.ravel()].mean())


def _smaller_p(method, rights):
    found = read_replicated(method, [(right, 3) for right in rights])
    return min(found.p, found.p_elsewhere)


@pytest.mark.parametrize("test", ["triangle", "duo-trio"])
def test_when_nobody_can_tell_neither_reading_cries_wolf_beyond_alpha(test):
    method, random = METHODS[test], np.random.default_rng(11)
    panels = _panels(random, 0.0, 0.5, tasters=3, rounds=3, guess=method.guess)
    rate = _rate(panels, lambda kind: _smaller_p(method, kind) <= 0.1)
    assert rate <= 0.1


def test_tasters_with_opposite_likings_do_not_pass_for_a_difference():
    random = np.random.default_rng(12)
    panels = _panels(random, 0.5, 0.4, tasters=6, rounds=4, guess=0.0)
    rate = _rate(panels, lambda kind: sign_flip_p([2 * x - 4 for x in kind]) <= 0.1)
    assert rate <= 0.1


def test_pooling_such_tasters_would_have_cried_wolf():
    random = np.random.default_rng(12)
    panels = _panels(random, 0.5, 0.4, tasters=6, rounds=4, guess=0.0)
    least = critical(TWO_SIDED, 24, 0.1).least_right
    totals = panels.sum(axis=1)
    assert np.mean((totals >= least) | (totals <= 24 - least)) > 0.2


@pytest.mark.parametrize("gamma", [0.05, 0.3, 0.6, 0.95])
def test_a_difference_that_matters_is_ruled_out_no_more_often_than_alpha(gamma):
    random = np.random.default_rng(13)
    panels = _panels(random, 0.5, gamma, tasters=6, rounds=3, guess=THIRD)
    rate = _rate(
        panels,
        lambda kind: similarity_p_replicated(TRIANGLE, [(x, 3) for x in kind], 0.5) <= 0.1,
    )
    assert rate <= 0.1


def test_the_plain_test_would_have_ruled_it_out_too_often():
    random = np.random.default_rng(13)
    panels = _panels(random, 0.5, 0.95, tasters=6, rounds=4, guess=THIRD)
    totals = panels.sum(axis=1)
    decided = {x: similarity_p(TRIANGLE, x, 24, 2 / 3) <= 0.1 for x in range(25)}
    assert np.mean([decided[x] for x in totals.tolist()]) > 0.15


def test_the_test_for_tasters_alike_keeps_its_risk():
    random = np.random.default_rng(14)
    # No spread: every taster is able in the same degree.
    panels = random.binomial(5, THIRD + 2 / 3 * 0.4, (PANELS, 4))
    rate = _rate(
        panels, lambda kind: p_tasters_alike(fit_spread([(x, 5) for x in kind], THIRD)) <= 0.1
    )
    assert rate <= 0.1 + 3 * sqrt(0.1 * 0.9 / PANELS)


@given(st.lists(st.integers(-4, 4), min_size=1, max_size=8))
def test_turning_every_sign_changes_no_p(leads):
    assert sign_flip_p(leads) == pytest.approx(sign_flip_p([-lead for lead in leads]), abs=1e-12)


def test_a_sign_flip_p_is_that_of_every_way_counted():
    leads = [3, 1, -1, 3]
    signs = np.array(np.meshgrid(*[[-1, 1]] * 4)).reshape(4, -1)
    sums = np.abs(signs.T @ np.abs(leads))
    assert sign_flip_p(leads) == pytest.approx(np.mean(sums >= 6), abs=1e-12)
