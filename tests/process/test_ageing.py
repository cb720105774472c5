"""Laws of keeping: malt extract, malt and hops."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.process import OutsideValidity
from diagnose.process.hops import PACK_FACTOR, alpha_left_percent, loss_from_index_percent
from diagnose.process.ingredients import (
    SHELF_BY_KIND,
    extract_age_fraction,
    liquid_for_dry_kg,
    malt_age_fraction,
    months_at_20c,
)
from tests.process.cards import constants

SAME = 1e-9
store = st.floats(-25.0, 25.0)
days = st.floats(0.0, 2000.0)


def alpha_left(time_d: float, stored_c: float, *, pack: float = 1.0, loss: float = 35.0) -> float:
    return alpha_left_percent(
        days=time_d,
        stored_c=stored_c,
        pack_factor=pack,
        half_year_loss_percent=loss,
        constants=constants(),
    )


def age_fraction(sealed: float, opened: float, stored_c: float) -> float:
    return extract_age_fraction(
        months_sealed=sealed,
        months_open=opened,
        stored_c=stored_c,
        shelf_months=24.0,
        constants=constants(),
    )


@given(days, days, store)
def test_older_hops_never_hold_more_alpha(first: float, second: float, stored_c: float) -> None:
    young, old = sorted((first, second))
    assert alpha_left(old, stored_c) <= alpha_left(young, stored_c)


@given(days, store, store)
def test_warmer_hops_never_hold_more_alpha(time_d: float, first_c: float, second_c: float) -> None:
    cold, warm = sorted((first_c, second_c))
    assert alpha_left(time_d, warm) <= alpha_left(time_d, cold) * (1 + SAME)


@given(days, store)
def test_a_better_pack_never_holds_less_alpha(time_d: float, stored_c: float) -> None:
    order = ("open", "airtight", "vacuum foil")
    left = [alpha_left(time_d, stored_c, pack=constants()[PACK_FACTOR[pack]]) for pack in order]
    assert left == sorted(left)


@given(st.floats(0.0, 95.0))
def test_half_a_year_in_the_open_at_20_c_costs_the_stated_loss(loss: float) -> None:
    assert 100 - alpha_left(180.0, 20.0, loss=loss) == pytest.approx(loss, abs=1e-9)


@given(st.floats(0.2, 2.5), st.floats(0.2, 2.5))
def test_a_higher_storage_index_never_means_a_smaller_loss(first: float, second: float) -> None:
    low, high = sorted((first, second))
    assert loss_from_index_percent(low, constants()) <= loss_from_index_percent(high, constants())


@given(st.floats(0.0, 36.0), st.floats(0.0, 12.0), st.floats(0.0, 12.0), store)
def test_an_extract_never_gets_younger(
    sealed: float, opened: float, more: float, stored_c: float
) -> None:
    assert age_fraction(sealed, opened, stored_c) <= age_fraction(sealed, opened + more, stored_c)


@given(st.floats(0.0, 36.0), store, store)
def test_a_warmer_extract_never_ages_slower(sealed: float, first_c: float, second_c: float) -> None:
    cold, warm = sorted((first_c, second_c))
    assert age_fraction(sealed, 0.0, cold) <= age_fraction(sealed, 0.0, warm) * (1 + SAME)


@given(st.floats(0.0, 24.0), st.floats(0.0, 24.0), store)
def test_two_stays_of_extract_count_as_one(first: float, second: float, stored_c: float) -> None:
    parts = sum(months_at_20c(stay, stored_c, constants()) for stay in (first, second))
    assert parts == pytest.approx(
        months_at_20c(first + second, stored_c, constants()), rel=SAME, abs=SAME
    )


@pytest.mark.parametrize("kind", sorted(SHELF_BY_KIND))
def test_every_kind_of_malt_and_extract_has_a_keeping_time(kind: str) -> None:
    shelf = constants()[SHELF_BY_KIND[kind]]
    assert malt_age_fraction(shelf, shelf) == pytest.approx(1.0)


@given(st.floats(0.1, 10.0))
def test_more_liquid_than_dry_extract_is_needed(dry_kg: float) -> None:
    assert liquid_for_dry_kg(dry_kg, constants()) > dry_kg


def test_hops_from_a_hot_loft_are_refused() -> None:
    with pytest.raises(OutsideValidity, match="a hop store at C 38"):
        alpha_left(100.0, 38.0)
