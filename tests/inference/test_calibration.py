"""A posterior means what it says, over beers drawn from the rule base itself."""

import pytest

from diagnose.knowledge import RuleBase
from tests.inference.calibration import (
    FARTHEST,
    KINDS,
    RAREST,
    Claim,
    draw_claims,
    rarity,
    reliability,
)

BATCHES = 1_500  # the whole run, of 20,000, is `python -m tests.inference.calibration`


@pytest.fixture(scope="module")
def claims(rules: RuleBase) -> list[Claim]:
    return list(draw_claims(rules, seed=1, batches=BATCHES))


@pytest.mark.parametrize("kind", KINDS)
def test_of_claims_alike_as_many_are_true_as_they_say(claims: list[Claim], kind: str) -> None:
    bins = reliability([claim for claim in claims if claim.kind == kind])
    assert max(abs(one.off) for one in bins) <= FARTHEST
    assert rarity(bins) >= RAREST


@pytest.mark.parametrize("kind", KINDS)
def test_claims_at_twice_the_odds_are_found_out(claims: list[Claim], kind: str) -> None:
    said = [claim for claim in claims if claim.kind == kind]
    bold = [
        Claim(kind, 2.0 * claim.probability / (1.0 + claim.probability), claim.true)
        for claim in said
    ]
    assert rarity(reliability(bold)) < RAREST
