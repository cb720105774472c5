"""The sweep against brute force: every state of small networks, summed by definition."""

import numpy as np
import pytest

from diagnose.inference.posterior import Posterior, solve
from tests.inference.enumeration import Truth, enumerate_posterior
from tests.inference.networks import random_evidence, small_network

TOLERANCE = 1e-12
QUANTITIES = (
    "log_evidence",
    "happened",
    "responsible",
    "expected_here",
    "not_in_rule_base",
    "present",
)

# reported, absent and doubtful words; no source: every mix that five words allow
TASTINGS = ((1, 0, 0), (2, 0, 0), (2, 1, 0), (3, 0, 0), (2, 1, 1), (2, 0, 2), (1, 2, 2), (4, 0, 1))


def solved_both_ways(seed: int) -> tuple[Posterior, Truth]:
    random = np.random.default_rng(seed)
    network = small_network(random)
    evidence = random_evidence(random, network, TASTINGS[seed % len(TASTINGS)])
    return solve(network, [evidence]), enumerate_posterior(network, evidence)


@pytest.mark.parametrize("seed", range(40))
def test_every_answer_on_a_small_network_is_that_of_brute_force(seed: int) -> None:
    posterior, truth = solved_both_ways(seed)
    for quantity in QUANTITIES:
        found = getattr(posterior, quantity)[0]
        wanted = np.where(np.isnan(found), np.nan, getattr(truth, quantity))
        np.testing.assert_allclose(found, wanted, rtol=0, atol=TOLERANCE, err_msg=quantity)


def test_the_small_networks_hold_tastings_of_several_groups() -> None:
    groups = [len(solve_groups(seed)) for seed in range(40)]
    assert sum(count > 1 for count in groups) >= 10


def solve_groups(seed: int) -> tuple[tuple[str, ...], ...]:
    random = np.random.default_rng(seed)
    network = small_network(random)
    evidence = random_evidence(random, network, TASTINGS[seed % len(TASTINGS)])
    return solve(network, [evidence]).structure.groups
