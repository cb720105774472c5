"""Laws of the weight of evidence: what a curve says of a value, known well or badly."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding, OutsideFinding
from diagnose.evidence.weighing import decibans_of, integrated, read_curve, typical_finding
from diagnose.knowledge import Indicator, Measure
from diagnose.process import Band
from tests.knowledge.shipped import rule_base

SAME_DECIBANS = 1e-9
Curve = tuple[tuple[float, float], ...]

decibans = st.floats(-25.0, 25.0)
values = st.floats(-50.0, 50.0)
edges = st.lists(st.floats(-60.0, 60.0), min_size=3, max_size=3).map(sorted)
bands = edges.map(lambda three: Band(*three))


@st.composite
def curves(draw: st.DrawFn, rising: bool = False) -> Curve:
    at = draw(st.lists(st.integers(-50, 50), min_size=1, max_size=6, unique=True).map(sorted))
    weights = draw(st.lists(decibans, min_size=len(at), max_size=len(at)))
    weights = sorted(weights) if rising else weights
    return tuple(zip(map(float, at), weights, strict=True))


def highest_and_lowest(curve: Curve, band: Band) -> tuple[float, float]:
    inside = [weight for value, weight in curve if band.low <= value <= band.high]
    found = [read_curve(curve, band.low), read_curve(curve, band.high), *inside]
    return max(found), min(found)


@given(curves())
def test_a_curve_passes_through_its_points(curve: Curve) -> None:
    assert [read_curve(curve, value) for value, _ in curve] == pytest.approx(
        [weight for _, weight in curve], abs=SAME_DECIBANS
    )


@given(curves(), st.floats(0.0, 100.0))
def test_a_curve_is_flat_outside_its_points(curve: Curve, beyond: float) -> None:
    (first, at_first), (last, at_last) = curve[0], curve[-1]
    assert read_curve(curve, first - beyond) == at_first
    assert read_curve(curve, last + beyond) == pytest.approx(at_last, abs=SAME_DECIBANS)


@given(curves(), st.data())
def test_a_curve_is_straight_between_two_points(curve: Curve, data: st.DataObject) -> None:
    assume(len(curve) > 1)
    (left, low), (right, high) = data.draw(st.sampled_from(list(pairwise(curve))))
    middle = read_curve(curve, (left + right) / 2.0)
    assert middle == pytest.approx((low + high) / 2.0, abs=SAME_DECIBANS)


@given(curves(), values)
def test_a_value_known_exactly_reads_the_curve(curve: Curve, value: float) -> None:
    assert integrated(curve, Band(value, value, value)) == read_curve(curve, value)


@given(curves(), bands)
def test_a_range_weighs_between_the_curve_s_ends_over_it(curve: Curve, band: Band) -> None:
    highest, lowest = highest_and_lowest(curve, band)
    weight = integrated(curve, band)
    assert lowest - SAME_DECIBANS <= weight <= highest + SAME_DECIBANS


@given(decibans, bands)
def test_a_curve_that_always_says_the_same_says_it_of_any_range(weight: float, band: Band) -> None:
    assert integrated(((0.0, weight),), band) == pytest.approx(weight, abs=SAME_DECIBANS)


@given(st.floats(-2.0, 2.0), values, st.floats(0.01, 5.0), st.floats(1.0, 2.0))
def test_a_wider_range_weighs_no_less_on_a_straight_curve(
    slope: float, mid: float, half: float, wider: float
) -> None:
    # Ratios are averaged, not their logarithms: the side that speaks up gains more than the
    # other loses.
    curve = ((mid - 10.0, -10.0 * slope), (mid + 10.0, 10.0 * slope))
    narrow = integrated(curve, Band(mid - half, mid, mid + half))
    wide = integrated(curve, Band(mid - half * wider, mid, mid + half * wider))
    assert -SAME_DECIBANS <= narrow <= wide + SAME_DECIBANS


def test_a_value_on_either_side_of_a_limit_weighs_the_mean_of_both_ratios() -> None:
    # Half the range at a tenth, half at ten times: 10 log10 of 5.05.
    limit = ((0.0, -10.0), (1e-9, 10.0))
    assert integrated(limit, Band(-1.0, 0.0, 1.0)) == pytest.approx(7.033, abs=1e-3)


@given(curves(rising=True), bands, st.floats(0.0, 20.0))
def test_a_rising_curve_weighs_a_higher_range_no_less(
    curve: Curve, band: Band, shift: float
) -> None:
    higher = Band(band.low + shift, band.mid + shift, band.high + shift)
    assert integrated(curve, band) <= integrated(curve, higher) + SAME_DECIBANS


@given(curves(), bands, st.floats(-10.0, 10.0))
def test_lifting_a_curve_lifts_every_weight_by_as_much(
    curve: Curve, band: Band, lift: float
) -> None:
    lifted = tuple((value, weight + lift) for value, weight in curve)
    assert integrated(lifted, band) == pytest.approx(integrated(curve, band) + lift, abs=1e-6)


@given(curves(), st.floats(-50.0, 50.0), st.floats(0.0, 5.0))
def test_a_range_that_shrinks_to_a_point_comes_to_the_curve(
    curve: Curve, mid: float, half: float
) -> None:
    steepest = max(
        (abs(high - low) / (right - left) for (left, low), (right, high) in pairwise(curve)),
        default=0.0,
    )
    weight = integrated(curve, Band(mid - half, mid, mid + half))
    assert abs(weight - read_curve(curve, mid)) <= steepest * half + 1e-6


def indicator(**speaks: object) -> Indicator:
    return Indicator.model_validate(
        {
            "measure": "any",
            "give_or_take": 1,
            "because": "so",
            "basis": "judgement",
            "source": "trade_judgement",
            **speaks,
        }
    )


NUMBER = indicator(curve=((0.0, -5.0), (10.0, 5.0)))
CLASS = indicator(values={"yes": 6.0, "no": -3.0})


# Source of the table: first principles.
@pytest.mark.parametrize(
    ("speaks", "finding", "weight"),
    [
        (NUMBER, NumberFinding("any", Band(5.0, 5.0, 5.0), "", ""), 0.0),
        (NUMBER, NumberFinding("any", Band(8.0, 8.0, 8.0), "", ""), 3.0),
        (NUMBER, OutsideFinding("any", "beyond the model", ""), 0.0),
        (CLASS, ClassFinding("any", "yes", "", ""), 6.0),
        (CLASS, ClassFinding("any", "no", "", ""), -3.0),
        (CLASS, ClassFinding("any", "partly", "", ""), 0.0),
        (CLASS, OutsideFinding("any", "beyond the model", ""), 0.0),
    ],
)
def test_a_finding_weighs_what_the_indicator_says(
    speaks: Indicator, finding: Finding, weight: float
) -> None:
    assert decibans_of(speaks, finding) == pytest.approx(weight)


@pytest.mark.parametrize("measure", rule_base().measures.values(), ids=lambda one: one.id)
def test_the_answer_to_a_measure_s_question_is_a_finding_of_that_measure(measure: Measure) -> None:
    for value, _ in measure.typical:
        finding = typical_finding(measure, value)
        kind = ClassFinding if measure.classes else NumberFinding
        assert isinstance(finding, kind)
        assert finding.measure == measure.id
