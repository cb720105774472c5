"""Orders, codes and the sealed key."""

import re
from collections import Counter
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.consult.split_panels import pour
from diagnose.errors import UnusableInput
from diagnose.trial.codes import draw_codes, plain_codes
from diagnose.trial.fitting import TESTS_WITH_BALLOTS
from diagnose.trial.orders import ORDERS, serving_orders
from diagnose.trial.sealing import Key, commitment_of, opened, sealed
from tests.trial.arms import TASTERS, asked_of, usual_plan

TESTS = st.sampled_from(TESTS_WITH_BALLOTS)
PANELS = (TESTS, st.integers(1, 25), st.integers(1, 4), st.integers(0, 10**6))


@given(*PANELS)
def test_every_order_is_served_as_often_as_any_other(test, tasters, rounds, seed):
    served = serving_orders(test, tasters, rounds, Random(seed))
    counts = Counter(order for hand in served for order in hand)
    assert sum(counts.values()) == tasters * rounds
    often = [counts[order] for order in ORDERS[test]]
    assert max(often) - min(often) <= 1


@given(*PANELS)
def test_nobody_gets_an_order_again_before_all_were_used(test, tasters, rounds, seed):
    all_orders = len(ORDERS[test])
    for hand in serving_orders(test, tasters, rounds, Random(seed)):
        assert len(hand) == rounds
        assert len(set(hand[:all_orders])) == min(rounds, all_orders)


@given(st.integers(1, 30), st.integers(0, 10**6))
def test_the_odd_glass_of_a_triangle_stands_evenly_in_each_place(tasters, seed):
    orders = [hand[0] for hand in serving_orders("triangle", tasters, 1, Random(seed))]
    lone = ["S" if order.count("S") == 1 else "O" for order in orders]
    places = Counter(order.index(one) for order, one in zip(orders, lone, strict=True))
    assert max(places.values()) - min(places[place] for place in range(3)) <= 1
    assert abs(lone.count("S") - lone.count("O")) <= 1


@given(st.integers(1, 30), st.integers(0, 10**6))
def test_each_beer_is_the_reference_of_a_duo_trio_equally_often(tasters, seed):
    orders = [hand[0] for hand in serving_orders("duo-trio", tasters, 1, Random(seed))]
    references = [order.split(":")[0] for order in orders]
    assert abs(references.count("s") - references.count("o")) <= 1


def test_the_complete_sets_are_those_of_the_textbook():
    assert {test: len(orders) for test, orders in ORDERS.items()} == {
        "triangle": 6,
        "tetrad": 6,
        "2-afc": 2,
        "3-afc": 3,
        "duo-trio": 4,
        "difference-from-control": 2,
    }
    assert all(len(set(orders)) == len(orders) for orders in ORDERS.values())


# Source: the fact sheet: of 900 numbers, 633 are left without repeated digits and runs.
def test_there_are_as_many_plain_codes_as_the_sheet_counts():
    assert len(plain_codes()) == 633


@given(st.integers(0, 633), st.integers(0, 10**6))
@settings(max_examples=20)
def test_no_code_is_drawn_twice(count, seed):
    codes = draw_codes(count, Random(seed))
    assert len(set(codes)) == count
    assert all(re.fullmatch(r"[1-9]\d\d", code) for code in codes)


def test_more_glasses_than_codes_are_refused():
    with pytest.raises(UnusableInput, match="at most 633"):
        draw_codes(634, Random(1))


@pytest.mark.parametrize("test", TESTS_WITH_BALLOTS)
def test_every_glass_of_a_panel_has_a_code_of_its_own(test):
    poured = pour(usual_plan(), asked_of(test, rounds=2, spares=1), (5, "salt"))
    codes = [code for serving in poured.panel.servings for code in serving.codes]
    assert len(set(codes)) == len(codes) == len(poured.key.arms)


def test_the_same_seed_draws_the_same_panel_and_another_seed_another():
    drawn = [pour(usual_plan(), asked_of(), (seed, "x")).panel.servings for seed in (1, 1, 2)]
    assert drawn[0] == drawn[1] != drawn[2]


@pytest.fixture
def poured():
    return pour(usual_plan(), asked_of("triangle"), (11, "a salt"))


def test_a_sealed_key_opens_as_it_was(poured):
    assert opened(sealed(poured.key), poured.panel, "key") == poured.key


def test_the_sealed_file_shows_neither_codes_nor_arms(poured):
    text = sealed(poured.key)
    body = text.splitlines()[1]
    assert "arms" not in body and "salt" not in body
    assert not any(f'"{code}"' in body for code in poured.key.arms)


@given(st.integers(0, 200), st.integers(1, 63))
@settings(max_examples=30)
def test_any_change_to_the_sealed_key_is_found_out(place, step):
    poured = pour(usual_plan(), asked_of("triangle"), (11, "a salt"))
    signs = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"
    head, body = sealed(poured.key).splitlines()
    at = place % (len(body) - 4)
    changed = signs[(signs.index(body[at]) + step) % 64]
    broken = f"{head}\n{body[:at]}{changed}{body[at + 1 :]}\n"
    with pytest.raises(UnusableInput, match="changed by hand"):
        opened(broken, poured.panel, "key")


def test_a_key_of_another_panel_does_not_fit(poured):
    other = pour(usual_plan(), asked_of("triangle"), (12, "a salt"))
    with pytest.raises(UnusableInput, match="host's sheet"):
        opened(sealed(other.key), poured.panel, "key")


@pytest.mark.parametrize("text", ["", "nothing", "a\nAAAA\n", "a\nnot base64!\n"])
def test_a_key_that_is_none_is_refused_in_a_sentence(poured, text):
    with pytest.raises(UnusableInput, match="pour a new one"):
        opened(text, poured.panel, "key")


def test_the_commitment_hangs_on_the_salt_and_on_every_glass(poured):
    key = poured.key
    code = next(iter(key.arms))
    swapped = {**key.arms, code: "S" if key.arms[code] == "O" else "O"}
    parts = (key.open_glass, key.compared, key.pair, key.seed)
    others = [Key(swapped, *parts, key.salt), Key(key.arms, *parts, "another salt")]
    assert len({commitment_of(one) for one in (key, *others)}) == 3
    assert re.fullmatch(r"[0-9a-f]{64}", commitment_of(key))


# Source of the table: the list of bad input.
BAD_PANELS = [
    ({"tasters": ()}, "1 to 60 tasters"),
    ({"tasters": ("Wren", "wren")}, "each taster once"),
    ({"tasters": ("Anna Example",)}, "no full names"),
    ({"test": "2-afc-two-sided"}, "one of triangle"),
    ({"arms": ("A", "C")}, "two of A, B"),
    ({"arms": ("A", "A")}, "two of A, B"),
    ({"pair": 2}, "as planned"),
    ({"rounds": 9}, "1 to 6"),
]


@pytest.mark.parametrize(("told", "says"), BAD_PANELS, ids=[says for _, says in BAD_PANELS])
def test_a_panel_that_cannot_be_is_refused(told, says):
    with pytest.raises(UnusableInput, match=says):
        pour(usual_plan(), asked_of(**told), (1, "x"))


def test_a_batch_under_a_stop_caution_is_not_served_and_the_reason_is_said():
    plan = usual_plan().model_copy(update={"not_served_because": ("It may hold cleaner.",)})
    with pytest.raises(UnusableInput, match="It may hold cleaner"):
        pour(plan, asked_of(), (1, "x"))


def test_a_fault_without_a_name_cannot_be_asked_for_by_name():
    plan = usual_plan().model_copy(update={"ask": None})
    with pytest.raises(UnusableInput, match="nobody has named"):
        pour(plan, asked_of("2-afc"), (1, "x"))
    assert pour(plan, asked_of("tetrad"), (1, "x")).panel.ask is None


def test_spare_sets_are_not_waited_for():
    panel = pour(usual_plan(), asked_of(spares=2), (1, "x")).panel
    assert len(panel.servings) == len(TASTERS) + 2
    assert {taster for taster, _ in panel.awaited} == set(TASTERS)
