"""How often tasters are right: the functions of d', held against other routes to them."""

from math import inf, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.sensory import METHODS, dprime_from_share, share_right
from diagnose.sensory.psychometric import slope
from tests.sensory.other_routes import OTHER_ROUTES

EVERY = sorted(METHODS)
DISTANCES = (0.0, 0.05, 0.3, 0.7, 1.0, 1.5, 2.0, 3.0, 4.5, 6.0)
TRIALS = 100_000


@pytest.mark.parametrize("test", EVERY)
@pytest.mark.parametrize("d", DISTANCES)
def test_the_chance_of_a_right_answer_is_that_of_another_route_to_it(test, d):
    assert float(share_right(METHODS[test], d)) == pytest.approx(OTHER_ROUTES[test](d), abs=1e-9)


def _odd(triple):
    """Which of three glasses lies farthest from the pair that lies closest."""
    gaps = np.abs(triple[[1, 0, 0]] - triple[[2, 2, 1]])
    return np.argmin(gaps, axis=0)


def _simulated(test, d, random):
    a, b = random.normal(size=(2, TRIALS)), random.normal(d, size=(2, TRIALS))
    c = random.normal(size=TRIALS)
    one, two = np.sort(a, axis=0), np.sort(b, axis=0)
    split_up, split_down = one[1] < two[0], two[1] < one[0]
    return {
        "triangle": _odd(np.array([a[0], a[1], b[0]])) == 2,
        "duo-trio": np.abs(c - a[0]) < np.abs(c - b[0]),
        "2-afc": b[0] > a[0],
        "2-afc-two-sided": b[0] > a[0],
        "3-afc": b[0] > one[1],
        "tetrad": split_up | split_down,
        "tetrad-specified": split_up,
    }[test].mean()


@pytest.mark.parametrize("test", EVERY)
@pytest.mark.parametrize("d", [0.0, 1.0, 2.0])
def test_the_chance_of_a_right_answer_is_that_of_simulated_tasters(test, d):
    share = float(share_right(METHODS[test], d))
    found = _simulated(test, d, np.random.default_rng(20260501))
    assert found == pytest.approx(share, abs=4 * sqrt(share * (1 - share) / TRIALS))


@pytest.mark.parametrize("test", EVERY)
def test_beers_that_do_not_differ_are_told_apart_by_luck_alone(test):
    assert float(share_right(METHODS[test], 0.0)) == pytest.approx(METHODS[test].guess, abs=1e-12)


@given(st.sampled_from(EVERY), st.floats(0.0, 8.0), st.floats(0.01, 2.0))
def test_a_greater_distance_is_told_more_often(test, d, more):
    assert share_right(METHODS[test], d + more) > share_right(METHODS[test], d)


@given(st.sampled_from(EVERY), st.floats(0.05, 6.0))
def test_the_distance_of_a_share_leads_back_to_the_share(test, d):
    share = float(share_right(METHODS[test], d))
    again = dprime_from_share(METHODS[test], share)
    assert float(share_right(METHODS[test], again)) == pytest.approx(share, abs=1e-12)


@given(st.sampled_from(EVERY), st.floats(0.1, 6.0))
def test_the_slope_is_the_change_of_the_share(test, d):
    step = 1e-4
    above, below = (float(share_right(METHODS[test], d + h)) for h in (step, -step))
    assert slope(METHODS[test], d) == pytest.approx((above - below) / (2 * step), abs=1e-7)


@given(st.sampled_from(EVERY), st.floats(0.0, 1.0))
def test_no_share_at_or_below_luck_has_a_distance(test, part):
    assert dprime_from_share(METHODS[test], METHODS[test].guess * part) == 0.0


@pytest.mark.parametrize("test", EVERY)
def test_a_perfect_share_has_no_finite_distance(test):
    assert dprime_from_share(METHODS[test], 1.0) == inf


def test_many_distances_at_once_give_what_each_gives_alone():
    grid = np.array([[0.5, 1.0], [2.0, 3.0]])
    alone = [[float(share_right(METHODS["tetrad"], d)) for d in row] for row in grid]
    assert share_right(METHODS["tetrad"], grid) == pytest.approx(np.array(alone), abs=1e-15)
