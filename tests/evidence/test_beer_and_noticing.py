"""What beer it is, and how likely a predicted amount is to be noticed in it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.evidence.beer import beer_of
from diagnose.evidence.finding import NumberFinding
from diagnose.evidence.noticing import noticed_share, noticed_shares
from diagnose.process import Band
from tests.evidence.records import batch_of
from tests.knowledge.shipped import rule_base

SAME = 1e-9
amounts = st.floats(0.01, 1e4)
bands = st.lists(amounts, min_size=3, max_size=3).map(lambda three: Band(*sorted(three)))


# Source of the table: first principles.
@pytest.mark.parametrize(
    ("record", "yeast", "style", "assumed"),
    [
        ("batch: nothing noted", None, None, False),
        ("style: bitter", "english_ale", "bitter", True),
        ("pitch: {yeast: {family: kveik}}", "farmhouse_hot", None, False),
        ("style: bitter\npitch: {yeast: {family: lager}}", "lager", "bitter", False),
        ("style: unknown\npitch: {yeast: {family: unknown}}", None, None, False),
    ],
)
def test_a_style_brings_its_usual_yeast_unless_another_is_noted(
    record: str, yeast: str | None, style: str | None, assumed: bool
) -> None:
    beer = beer_of(rule_base(), batch_of(record))
    assert (beer.yeast_id, beer.style_id, beer.yeast_assumed) == (yeast, style, assumed)


# Source of the table: first principles; slips of a hand that keeps records.
@pytest.mark.parametrize(
    ("record", "place"),
    [
        ("batch: one\nstyle: bittre", "batch.yaml:2: style: found 'bittre'"),
        (
            "pitch:\n  yeast:\n    family: cloud yeast",
            "batch.yaml:3: pitch.yeast.family: found 'cloud yeast'",
        ),
    ],
)
def test_a_beer_that_the_rules_do_not_know_is_named_with_its_line(record: str, place: str) -> None:
    with pytest.raises(UnusableInput) as refusal:
        beer_of(rule_base(), batch_of(record))
    assert str(refusal.value).startswith(place)


@given(bands, bands)
def test_the_chance_to_notice_is_a_chance(amount: Band, threshold: Band) -> None:
    assert 0.0 <= noticed_share(amount, threshold) <= 1.0


@given(bands, bands, st.floats(1.0, 100.0))
def test_more_of_it_is_noticed_no_less(amount: Band, threshold: Band, times: float) -> None:
    more = Band(amount.low * times, amount.mid * times, amount.high * times)
    assert noticed_share(amount, threshold) <= noticed_share(more, threshold) + SAME


@given(amounts, bands)
def test_an_amount_at_the_threshold_is_noticed_half_the_time(amount: float, wide: Band) -> None:
    threshold = Band(min(amount, wide.low), amount, max(amount, wide.high))
    assert noticed_share(Band(amount, amount, amount), threshold) == pytest.approx(0.5)


@given(bands, bands, st.floats(0.01, 100.0))
def test_the_unit_of_both_does_not_matter(amount: Band, threshold: Band, unit: float) -> None:
    other = [Band(b.low * unit, b.mid * unit, b.high * unit) for b in (amount, threshold)]
    assert noticed_share(*other) == pytest.approx(noticed_share(amount, threshold), abs=1e-6)


def test_a_compound_without_a_prediction_has_no_chance_to_notice() -> None:
    assert noticed_shares(rule_base(), {}) == {}


def test_a_predicted_amount_is_held_against_its_compound_s_threshold() -> None:
    much = NumberFinding("dms_ug_per_l", Band(400.0, 400.0, 400.0), "", "")
    little = NumberFinding("dms_ug_per_l", Band(1.0, 1.0, 1.0), "", "")
    shares = [noticed_shares(rule_base(), {"dms_ug_per_l": one})["dms"] for one in (much, little)]
    assert shares[0] > 0.95
    assert shares[1] < 0.05


@pytest.mark.parametrize(
    "compound",
    [one for one in rule_base().compounds.values() if one.predicted_by],
    ids=lambda c: c.id,
)
def test_a_prediction_has_the_unit_of_its_threshold(compound: object) -> None:
    predicted_by, noticed = compound.predicted_by, compound.noticed_from  # type: ignore[attr-defined]
    assert rule_base().measures[predicted_by].unit == noticed.unit
