"""The sweep against two general-purpose libraries, on the exported network and random evidence."""

import os

import pytest

from diagnose.knowledge import RuleBase
from tests.inference.exactness import NETWORKS, Comparison, compare

TOLERANCE = 1e-9  # relative
# A hundred of the five hundred sets on every run; all of them with FAULTWORT_EXACT=500.
SETS = int(os.environ.get("FAULTWORT_EXACT", "100"))


@pytest.fixture(scope="module", params=range(NETWORKS))
def comparison(request: pytest.FixtureRequest, rules: RuleBase) -> Comparison:
    return compare(rules, request.param, SETS // NETWORKS)


def test_every_answer_is_that_of_a_library_of_bayesian_networks(comparison: Comparison) -> None:
    assert comparison.agrum.numbers > 0
    assert comparison.agrum.worst <= TOLERANCE


def test_every_answer_is_that_of_a_library_of_tensor_products(comparison: Comparison) -> None:
    assert comparison.tensors.numbers > 0
    assert comparison.tensors.worst <= TOLERANCE


def test_most_tastings_are_narrow_enough_for_both_libraries(comparison: Comparison) -> None:
    drawn_again = comparison.agrum.too_wide + comparison.tensors.too_wide
    assert drawn_again <= 3 * comparison.sets
