"""The contrast over synthetic brewers: it finds what was planted, and claims nothing else."""

import math
from dataclasses import replace

import numpy as np
import pytest

from diagnose.consult.history_looking import contrast
from diagnose.history.brews import Tasting
from diagnose.history.statistics.columns import columns_of
from diagnose.history.statistics.screening import screen
from tests.history.statistics.brewers import BUTTERY, FLAW, brew, nothing_planted, planted

SEEDS = 200
LEVEL = 0.05


@pytest.fixture(scope="module")
def found(rules):
    return contrast(rules, planted(), BUTTERY)


def test_the_planted_cause_comes_first(found, rules):
    assert found.suspects[0].name == f"{rules.measures['yeast_generation'].name}: reused"


def test_the_planted_cause_is_claimed(found):
    assert found.suspects[0].claimed


def test_its_decoys_are_named_with_it_the_closest_first(found):
    names = [one.name for one in found.suspects[0].moved_with]
    assert names == ["vessel: steel bucket", "lot: hop 12", "brewer: tansy"]


def test_no_decoy_can_be_told_from_it(found):
    assert not any(one.separable for one in found.suspects[0].moved_with)


def test_the_sentences_say_what_cannot_be_told_apart(found):
    assert any("always together with vessel: steel bucket" in one for one in found.says)


def test_the_split_keeps_every_decoy_alike(found):
    split = next(one for one in found.says if one.startswith("A split"))
    assert all(name in split for name in ("vessel: steel bucket", "lot: hop 12", "brewer: tansy"))


def test_the_split_stands_in_the_answer_too(found):
    assert (found.split.differ_in, len(found.split.keep_alike)) == (found.suspects[0].name, 3)


def test_every_suspect_says_how_many_batches_stand_behind_it(found):
    assert all(one.flawed + one.clean <= 25 and one.flawed and one.clean for one in found.suspects)


def test_the_luck_of_a_clean_batch_stands_in_the_answer(found):
    assert found.luck_of_one_clean == pytest.approx(17 / 25)


def test_only_what_moved_with_the_planted_cause_is_claimed(found):
    claimed = {one.name for one in found.suspects if one.claimed}
    known = {one.name for one in found.suspects[0].moved_with} | {found.suspects[0].name}
    assert claimed <= known


@pytest.mark.parametrize("seed", range(1, 6))
def test_it_comes_first_in_other_draws_too(rules, seed):
    assert contrast(rules, planted(seed), BUTTERY).suspects[0].name.endswith("reused")


# The share of false claims may not stand above the level by more than three standard
# deviations of 200 draws; that the tests are discrete keeps it below.
def test_with_nothing_planted_claims_are_no_more_frequent_than_the_level():
    claims = 0
    for seed in range(SEEDS):
        brews = nothing_planted(seed)
        flawed = np.array([FLAW in one.reported for one in brews])
        screening = screen(columns_of(brews), flawed, LEVEL)
        claims += any(one.p_adjusted <= LEVEL for one in screening.suspects)
    assert claims / SEEDS <= LEVEL + 3 * math.sqrt(LEVEL * (1 - LEVEL) / SEEDS)


def test_a_claim_is_made_only_at_the_level(found):
    assert all(one.claimed == (one.p_adjusted <= found.level) for one in found.suspects)


def test_two_flawed_batches_of_five_are_not_tested(rules):
    brews = [brew(i, i < 2, factors={"hop": ("old" if i < 2 else "new",)}) for i in range(5)]
    answer = contrast(rules, brews, BUTTERY)
    assert (answer.tested, answer.says[0]) == (
        0,
        "No test was made: with 2 flawed of 5 even a perfect match comes about by luck 10 % of "
        "the time. 2 batches more, clean ones, are the fewest that could show anything.",
    )


def test_batches_that_nobody_tasted_are_left_out(rules):
    brews = [*planted(), brew(25, None), brew(26, None)]
    assert contrast(rules, brews, BUTTERY).not_tasted == 2


def test_a_complaint_that_was_not_understood_is_no_clean_batch(rules):
    grumbled = replace(
        brew(25, False), tastings=(Tasting("Wren", None, "flurble", {}, frozenset()),)
    )
    answer = contrast(rules, [*planted(), grumbled], BUTTERY)
    assert (answer.clean, answer.not_tasted) == (contrast(rules, planted(), BUTTERY).clean, 1)


def test_no_flawed_batch_is_nothing_to_compare(rules):
    answer = contrast(rules, [brew(i, False) for i in range(4)], BUTTERY)
    assert answer.says[0] == "4 batches tasted, none flawed: nothing to compare."


def test_one_clean_batch_means_little_and_the_answer_says_so(found):
    assert any("one clean batch is luck 68 % of the time" in one for one in found.says)


def test_the_order_of_the_columns_does_not_matter(rules):
    backwards = [replace(one, factors=dict(reversed(one.factors.items()))) for one in planted()]
    assert contrast(rules, backwards, BUTTERY) == contrast(rules, planted(), BUTTERY)
