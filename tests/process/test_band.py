"""What a range is, and how it passes through a model."""

from collections.abc import Mapping
from functools import partial
from math import hypot, inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import Band, OutsideValidity, spread
from diagnose.process.dms import predict_dms_ug_per_l
from tests.process.cards import bands

SAME = 1e-9
numbers = st.floats(-1e6, 1e6)


def band_of(edges: list[float]) -> Band:
    return Band(*sorted(edges))


def any_band() -> st.SearchStrategy[Band]:
    return st.lists(numbers, min_size=3, max_size=3).map(band_of)


def weighed(*, first: float, second: float, constants: Mapping[str, float]) -> float:
    return constants["weight"] * first + second


@given(any_band(), any_band(), any_band())
def test_the_range_of_an_answer_encloses_its_middle(
    first: Band, second: Band, weight: Band
) -> None:
    answer = spread(weighed, {"first": first, "second": second}, {"weight": weight})
    assert answer.low <= answer.mid <= answer.high


@given(numbers, numbers, numbers)
def test_points_in_give_a_point_out(first: float, second: float, weight: float) -> None:
    entries = {"first": Band(first, first, first), "second": Band(second, second, second)}
    answer = spread(weighed, entries, {"weight": Band(weight, weight, weight)})
    assert answer.low == answer.mid == answer.high == weight * first + second


@given(any_band(), any_band())
def test_independent_deviations_add_in_quadrature_on_each_side(first: Band, second: Band) -> None:
    answer = spread(weighed, {"first": first, "second": second}, {"weight": Band(1.0, 1.0, 1.0)})
    above = hypot(first.high - first.mid, second.high - second.mid)
    assert answer.high - answer.mid == pytest.approx(above, rel=1e-6, abs=1e-6)


@given(any_band(), st.floats(0, 1e5))
def test_a_wider_entry_never_narrows_the_answer(entry: Band, more: float) -> None:
    still = Band(0.0, 0.0, 0.0)
    wider = Band(entry.low - more, entry.mid, entry.high + more)
    ones = {"weight": Band(1.0, 1.0, 1.0)}
    narrow_answer = spread(weighed, {"first": entry, "second": still}, ones)
    wide_answer = spread(weighed, {"first": wider, "second": still}, ones)
    assert wide_answer.low <= narrow_answer.low <= narrow_answer.high <= wide_answer.high


def test_a_falling_model_turns_the_sides_round() -> None:
    answer = spread(lambda *, hours: -hours, {"hours": Band(1.0, 2.0, 5.0)}, {})
    assert answer == Band(-5.0, -2.0, -1.0)


def test_a_constant_that_is_not_read_changes_nothing() -> None:
    entries = {"first": Band(1.0, 2.0, 3.0), "second": Band(0.0, 0.0, 0.0)}
    weight = {"weight": Band(1.0, 1.0, 1.0)}
    unread = {**weight, "unread": Band(-9.0, 0.0, 9.0)}
    assert spread(weighed, entries, unread) == spread(weighed, entries, weight)


def test_an_edge_outside_the_source_is_refused() -> None:
    hot_side = {
        "lager_malt_g_per_l": 200.0, "ale_malt_g_per_l": 0.0, "dark_malt_g_per_l": 0.0,
        "extract_g_per_l": 0.0, "boil_minutes": 60.0, "boiling_c": 100.0,
        "evaporation_percent_per_h": 10.0, "stand_minutes": 0.0, "stand_c": 95.0,
        "stand_venting": 0.0, "chill_minutes": 20.0, "chilled_to_c": 20.0,
    }  # fmt: skip
    entries = {name: Band(value, value, value) for name, value in hot_side.items()}
    entries["wort_ph"] = Band(5.3, 5.6, 6.1)
    with pytest.raises(OutsideValidity, match=r"a boil at pH 6\.1 \(5 to 5\.8\)"):
        spread(predict_dms_ug_per_l, entries, bands())


def test_an_answer_that_is_no_number_is_refused() -> None:
    with pytest.raises(OutsideValidity):
        spread(lambda *, hours: inf * hours, {"hours": Band(0.0, 0.0, 1.0)}, {})


@pytest.mark.parametrize(
    "edges", [(1.0, 0.0, 2.0), (0.0, 2.0, 1.0), (nan, nan, nan), (0.0, 1.0, inf)]
)
def test_a_band_out_of_order_or_without_end_is_refused(edges: tuple[float, float, float]) -> None:
    with pytest.raises(ValueError, match="in order"):
        Band(*edges)


@given(any_band(), numbers, numbers)
def test_a_band_kept_within_limits_stays_within_them(band: Band, one: float, other: float) -> None:
    lowest, highest = sorted((one, other))
    kept = band.kept_within(lowest, highest)
    assert lowest <= kept.low <= kept.mid <= kept.high <= highest


def test_a_refusal_says_what_was_found_and_what_is_covered() -> None:
    refusal = OutsideValidity("a mash at C 58", "62 to 80")
    assert str(refusal) == "outside what the source covers: a mash at C 58 (62 to 80)"


def test_a_doubt_that_reaches_nothing_to_divide_by_is_refused() -> None:
    with pytest.raises(OutsideValidity, match="together give no number"):
        spread(lambda *, litres: 1.0 / litres, {"litres": Band(0.0, 10.0, 20.0)}, {})


def ratio_of_nothing(*, litres: float) -> float:
    return litres / 0.0


def test_a_refusal_names_the_model_that_gave_no_number() -> None:
    with pytest.raises(OutsideValidity, match="inputs of ratio of nothing that together"):
        spread(ratio_of_nothing, {"litres": Band(1.0, 1.0, 1.0)}, {})


def test_a_model_without_a_name_is_refused_all_the_same() -> None:
    with pytest.raises(OutsideValidity, match="inputs of a model that together"):
        spread(partial(ratio_of_nothing), {"litres": Band(1.0, 1.0, 1.0)}, {})
