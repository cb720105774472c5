"""The contrast over synthetic brewers: it finds what was planted, and claims nothing else."""

import math
from dataclasses import replace

import numpy as np
import pytest

from diagnose.consult.history_looking import contrast
from diagnose.consult.history_shared_cause import over_batches, said_by, told_of
from diagnose.evidence.pieces import Piece
from diagnose.history.statistics.columns import columns_of
from diagnose.history.statistics.screening import screen
from diagnose.inference.posterior import solve
from tests.history.statistics.brewers import FLAW, brew, nothing_planted, planted

BUTTERY = ("buttery", frozenset({FLAW}))
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


def test_no_flawed_batch_is_nothing_to_compare(rules):
    answer = contrast(rules, [brew(i, False) for i in range(4)], BUTTERY)
    assert answer.says[0] == "4 batches were tasted, 0 of them flawed: nothing to compare."


def test_one_clean_batch_means_little_and_the_answer_says_so(found):
    assert any("one clean batch is luck 68 % of the time" in one for one in found.says)


def test_the_order_of_the_columns_does_not_matter(rules):
    backwards = [replace(one, factors=dict(reversed(one.factors.items()))) for one in planted()]
    assert contrast(rules, backwards, BUTTERY) == contrast(rules, planted(), BUTTERY)


# The model's view against the definition: the cause ruled out, or as good as certain.
@pytest.mark.parametrize("flawed", [True, False])
def test_a_batch_says_of_a_cause_what_clamping_it_says(rules, flawed):
    one = brew(0, flawed, {"yeast_generation": "reused", "pitch_ratio": (0.3, 0.4, 0.5)})
    cause = "contaminated_reused_yeast"
    network, evidence = told_of(rules, one, {FLAW})
    for_it, against = said_by(rules, one, {FLAW}, [cause])
    off = replace(evidence, impossible=evidence.impossible | {cause})
    on = evidence.with_piece(Piece("check", "clamped", happened={cause: 150.0}))
    plain, clamped_on = solve(network, [evidence, on]).log_evidence
    clamped_off = solve(network, [off]).log_evidence[0]
    prior = network.base_rate[network.cause_index[cause]]
    log_on = clamped_on - 15.0 * math.log(10.0) - math.log(prior)
    assert float(for_it[0]) == pytest.approx(log_on - plain, abs=1e-6)
    # Ruling out leaves the whole weight 1 where there was 1 - prior.
    assert float(against[0]) == pytest.approx(clamped_off - plain, abs=1e-9)


def test_the_shares_of_the_shared_causes_sum_to_one(rules):
    brews = planted()
    bad = [one for one in brews if FLAW in one.reported]
    good = [one for one in brews if FLAW not in one.reported]
    view = over_batches(rules, {FLAW}, bad, good)
    assert float(view.shares.sum()) + view.none == pytest.approx(1.0)


def test_a_measure_that_fits_a_cause_in_the_flawed_batches_only_raises_its_share(rules):
    def share(values: tuple[str, str]) -> float:
        bad = [brew(i, True, {"line_cleaned": values[0]}) for i in range(3)]
        good = [brew(i, False, {"line_cleaned": values[1]}) for i in range(3, 9)]
        view = over_batches(rules, {FLAW}, bad, good)
        return float(view.shares[view.causes.index("dirty_draught_line")])

    assert share(("overdue", "recent")) > share(("recent", "recent"))
