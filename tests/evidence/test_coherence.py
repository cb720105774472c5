"""The weights on the cards are coherent: over all batches without the cause they cancel out.

A likelihood ratio, averaged over what is found where the cause is not at work, is 1. An indicator
whose average lies far from it would make its cause likelier, or rarer, in every batch.
"""

import math

import pytest

from diagnose.evidence.gathering import check_piece
from diagnose.evidence.weighing import decibans_of, typical_finding
from diagnose.knowledge.causes import circumstance_decibans
from tests.knowledge.shipped import rule_base

ADDED_UP = 1e-6
# Judgement: the typical spreads are themselves rough, to about this factor.
FARTHEST = 2.5
TOLD = [
    (cause.id, circumstance)
    for cause in rule_base().causes.values()
    for circumstance in cause.circumstances
]
HEARD = [
    (cause.id, indicator.measure)
    for cause in rule_base().causes.values()
    for indicator in cause.indicators
]
# Values that a cause can never be found with, since another measure has ruled it out by then.
RULED_OUT = {("stale_dry_extract", "extract_form"): ("none",)}


def ratio(decibans: float) -> float:
    return 10.0 ** (decibans / 10.0)


@pytest.mark.parametrize(("cause", "circumstance"), TOLD)
def test_a_circumstance_cancels_out_over_all_faulty_batches(cause: str, circumstance: str) -> None:
    card = rule_base().circumstances[circumstance]
    table = rule_base().causes[cause].circumstances[circumstance]
    added_up = math.fsum(
        value.share * ratio(circumstance_decibans(table, card, name))
        for name, value in card.values.items()
    )
    assert added_up == pytest.approx(1.0, abs=ADDED_UP)


@pytest.mark.parametrize("circumstance", sorted(rule_base().circumstances))
def test_the_values_of_a_circumstance_share_all_faulty_batches(circumstance: str) -> None:
    values = rule_base().circumstances[circumstance].values.values()
    assert math.fsum(value.share for value in values) == pytest.approx(1.0, abs=ADDED_UP)


@pytest.mark.parametrize(("cause", "measure"), HEARD)
def test_an_indicator_cancels_out_over_home_batches(cause: str, measure: str) -> None:
    rules = rule_base()
    card = rules.measures[measure]
    (indicator,) = (one for one in rules.causes[cause].indicators if one.measure == measure)
    spread = [
        (value, share)
        for value, share in card.typical
        if value not in RULED_OUT.get((cause, measure), ())
    ]
    weighed = math.fsum(
        share * ratio(decibans_of(indicator, typical_finding(card, value)))
        for value, share in spread
    )
    mean = weighed / math.fsum(share for _, share in spread)
    assert 1.0 / FARTHEST <= mean <= FARTHEST


@pytest.mark.parametrize(("cause", "measure"), HEARD)
def test_an_indicator_can_speak_both_for_and_against(cause: str, measure: str) -> None:
    (indicator,) = (one for one in rule_base().causes[cause].indicators if one.measure == measure)
    weights = [*indicator.values.values(), *(weight for _, weight in indicator.curve)]
    assert min(weights) < 0.0 < max(weights)


@pytest.mark.parametrize("check", sorted(rule_base().checks))
def test_a_check_cancels_out_over_batches_without_the_cause(check: str) -> None:
    card = rule_base().checks[check]
    pieces = {result: check_piece(card, result) for result in card.otherwise}
    for spoken_for in {key for one in pieces.values() for key in (*one.happened, *one.present)}:
        added_up = math.fsum(
            share * ratio({**pieces[result].happened, **pieces[result].present}[spoken_for])
            for result, share in card.otherwise.items()
        )
        assert added_up == pytest.approx(1.0, abs=ADDED_UP)
