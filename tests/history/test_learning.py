"""What batches teach: laws of the arithmetic first, then what moves which number and what does not.

Closed forms are those of the Beta-binomial model (from memory of any textbook on it).
"""

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from diagnose.history.kinds import Arm, PanelNote, SplitNote, TasterResult
from diagnose.history.learning import learn, taught_rules
from diagnose.history.learning_beta import LEAST_WEIGHT, Spread, after_slopes, spread_of
from diagnose.history.learning_facts import Judged, taught
from diagnose.history.learning_rates import judged_slope, told_slope
from diagnose.history.learning_telling import Telling, Tellings
from diagnose.history.noting import Noted
from tests.history.brewed import MADE, brew, buttery, clean, tasting, verdict
from tests.knowledge.shipped import rule_base

LEFT = "diacetyl_left_at_packaging"
RULES = rule_base()
SHARES = st.floats(0.02, 0.98)
# The two sides of a Beta spread, as few as a card's widest range gives.
COUNTS = st.floats(0.4, 300)
# The grid over the odds is fine enough for this.
CLOSE = 1e-6


def learned(*brews, splits=(), panels=()):
    return learn(RULES, taught(brews, splits, panels))


def rate(found, cause=LEFT):
    return next((one.after.mean for one in found.rates if one.cause == cause), None)


def before(cause=LEFT):
    return RULES.causes[cause].base_rate.value


@given(COUNTS, COUNTS, st.integers(0, 300))
@settings(max_examples=25)
def test_batches_in_which_it_surely_did_not_act_are_the_closed_form(acted, not_, batches):
    assume(acted + not_ >= LEAST_WEIGHT)
    before = Spread(acted / (acted + not_), acted + not_)
    after = after_slopes(before, {-1.0: batches})
    assert after.mean == pytest.approx(acted / (acted + not_ + batches), rel=1e-4)
    assert after.weight == pytest.approx(acted + not_ + batches, rel=1e-2)


@given(COUNTS, COUNTS)
@settings(max_examples=25)
def test_a_batch_in_which_it_surely_acted_is_the_closed_form(acted, not_):
    after = after_slopes(Spread(acted / (acted + not_), acted + not_), {1e15: 1})
    assert after.mean == pytest.approx((acted + 1) / (acted + not_ + 1), rel=1e-4)


@given(SHARES, SHARES, SHARES)
@settings(max_examples=25)
def test_batches_without_any_verdict_lead_to_the_true_rate(true, caught, anyway):
    telling = Telling(frozenset(), caught, anyway)
    told = 1.0 - (1.0 - anyway) * (1.0 - true * caught)
    # So many that even a cause that is seldom caught and often feigned is found out.
    batches = 200.0 / (caught * (1.0 - anyway)) ** 2 * 20.0
    slopes = {told_slope(telling, 0.0): told * batches, -caught: (1.0 - told) * batches}
    assert after_slopes(Spread(0.5, 2.0), slopes).mean == pytest.approx(true, abs=0.05)


@pytest.mark.parametrize("cause", sorted(RULES.causes))
def test_without_batches_a_rate_is_the_rule_bases_own(cause):
    number = RULES.causes[cause].base_rate
    spread = spread_of(number)
    assert spread.mean == number.value
    low, high = spread.ends()
    # A skewed spread holds the card's range only about; never half or double of it.
    assert 0.5 < (high - low) / (number.high - number.low) < 1.5


@given(SHARES)
def test_a_verdict_no_surer_than_the_base_rate_teaches_nothing(share):
    said = Judged("b1", LEFT, share, "2026-01-01", "brewer", "confirmed")
    assert judged_slope(said, share, 9.0) == pytest.approx(0.0, abs=1e-12)


@given(st.permutations(range(7)), st.permutations(range(3)))
@settings(max_examples=20)
def test_the_order_in_which_things_were_told_does_not_matter(order, notes):
    day = "2026-02-01"
    alike = (verdict(LEFT, 0.9, at=day, basis="repeat"), verdict(LEFT, 0.4, at=day))
    brews = [
        clean(1),
        clean(2),
        buttery(3, *alike, verdict(LEFT, 0.85, at="2026-01-04", basis="panel")),
        buttery(4, verdict(LEFT, 0.3, "ruled out"), verdict("hop_creep", 0.6)),
        buttery(5),
        brew(6, tasting("sour", "Pike", "vinegar"), tasting("buttery", "Wren", "butter")),
        clean(7),
    ]
    shuffled = [replace(brews[at], verdicts=brews[at].verdicts[::-1]) for at in order]
    panels = [spiked("Wren", right, 6) for right in (2, 4, 6)]
    splits = [split(f"s{place}", f"b{3 + place}", 0.2 + 0.3 * place) for place in range(3)]
    again = learned(
        *shuffled, splits=[splits[at] for at in notes], panels=[panels[at] for at in notes]
    )
    assert again == learned(*brews, splits=splits, panels=panels)


def spiked(taster, right, trials, method="triangle"):
    result = TasterResult(taster=taster, trials=trials, correct=right, compound="diacetyl")
    return PanelNote(method=method, results=(result,))


def split(name, batch, after, arms=()):
    line = {"id": LEFT, "name": "", "before": 0.3, "after": after}
    reading = {"ratios": [{"cause": LEFT}], "ranking": [line]}
    set_up = [Arm(batch=arm, setting="suspect") for arm in arms]
    note = SplitNote(name=name, cause=LEFT, arms=tuple(set_up), reading=reading)
    return Noted(name, 1, batch, MADE, note)


def test_a_surer_verdict_moves_the_rate_further():
    rates = [
        rate(learned(buttery(1, verdict(LEFT, confidence)), clean(2), clean(3)))
        for confidence in (0.1, 0.3, 0.6, 0.8, 1.0)
    ]
    assert all(lower < higher for lower, higher in pairwise(rates))


def test_a_cause_ruled_out_is_rarer():
    assert rate(learned(buttery(1, verdict(LEFT, 0.9, "ruled out")))) < before()


def test_a_suspicion_is_no_verdict():
    suspected = buttery(1, verdict(LEFT, 0.9, "suspected"))
    assert learned(suspected).rates == learned(buttery(1)).rates


def test_clean_batches_count_so_three_flawed_of_fifteen_are_not_three_of_three():
    flawed = [buttery(number, verdict(LEFT, 0.9)) for number in (1, 2, 3)]
    alone = rate(learned(*flawed))
    among = rate(learned(*flawed, *(clean(number) for number in range(4, 16))))
    assert before() < among < alone


def test_flawed_batches_without_a_verdict_raise_every_cause_of_their_words():
    assert rate(learned(buttery(1), buttery(2))) > before()
    assert rate(learned(buttery(1), buttery(2)), "light_struck") < before("light_struck")


def test_a_flaw_that_another_cause_is_known_for_hardly_raises_this_one():
    explained = rate(learned(buttery(1, verdict("hop_creep", 0.95))))
    assert before() <= explained < rate(learned(buttery(1)))


def test_a_later_verdict_stands_instead_of_an_earlier_one():
    both = buttery(1, verdict(LEFT, 0.9, at="2026-03-01"), verdict(LEFT, 0.2, at="2026-04-01"))
    assert rate(learned(both)) == rate(learned(buttery(1, verdict(LEFT, 0.2))))


# What says nothing of a base rate: (why, the batch)
SILENT = [
    ("nobody tasted it", brew(1)),
    ("only a word that says that something is wrong", brew(1, tasting("tastes off"))),
    ("words that were not understood", brew(1, tasting("a bit of xyzzy plugh"))),
]


@pytest.mark.parametrize("batch", [one for _, one in SILENT], ids=[why for why, _ in SILENT])
def test_a_batch_that_says_nothing_moves_nothing(batch):
    assert learned(batch).rates == ()


def test_a_batch_in_which_the_cause_was_not_possible_does_not_count():
    card = RULES.causes["hop_creep"]
    (condition,) = card.possible_when
    other = next(
        value
        for value in RULES.measures[condition.measure].classes
        if value not in condition.any_of
    )
    assert rate(learned(clean(1, **{condition.measure: other})), "hop_creep") is None
    assert rate(learned(clean(1, **{condition.measure: condition.any_of[0]})), "hop_creep")


def test_a_read_split_is_a_verdict_on_the_batch_it_was_about():
    found = learned(buttery(1), splits=[split("s", "b1", 0.8)])
    assert rate(found) == rate(learned(buttery(1, verdict(LEFT, 0.8))))


def test_an_arm_in_which_the_cause_was_provoked_does_not_make_it_common():
    arm = buttery(2)
    found = learned(clean(1), arm, splits=[split("s", "b1", 0.05, ("b2",))])
    assert next(one.at_risk for one in found.rates if one.cause == LEFT) == 1


def test_a_cause_of_one_compound_learns_no_strength_from_what_was_tasted():
    cause = next(
        cause
        for cause in sorted(RULES.causes)
        if sum(cause in card.made_by for card in RULES.compounds.values()) == 1
    )
    word = min(Tellings(RULES).of(cause).words)
    told = brew(1, tasting("so", "Wren", word), verdicts=(verdict(cause, 0.95),))
    (link,) = learned(told).strengths
    assert link.after.mean == pytest.approx(link.before.mean, rel=CLOSE)


def test_a_compound_that_a_cause_never_brings_here_is_a_weaker_link():
    cause = "lactic_contamination"
    sour = tasting("sour milk", "Wren", "sour_milk")
    brews = [brew(number, sour, verdicts=(verdict(cause, 0.95),)) for number in range(1, 7)]
    links = {one.compound: one for one in learned(*brews).strengths}
    assert links["diacetyl"].after.mean < links["diacetyl"].before.mean
    assert links["lactic_acid"].after.mean > links["lactic_acid"].before.mean


def noticing(found, taster="Wren", compound="diacetyl"):
    return next(one for one in found.tasters if (one.taster, one.compound) == (taster, compound))


# (right of six in a triangle, whether that is better than people in general); two are luck
@pytest.mark.parametrize(("right", "better"), [(0, False), (2, False), (4, False), (6, True)])
def test_luck_is_taken_off_a_tasters_right_answers(right, better):
    one = noticing(learned(panels=[spiked("Wren", right, 6)]))
    assert (one.after.mean > one.before.mean) is better


def test_a_taster_who_missed_what_another_named_is_less_sensitive():
    two = (tasting("buttery", "Pike", "butter"), tasting("nothing wrong", "Wren"))
    found = learned(brew(1, *two, verdicts=(verdict(LEFT, 0.9),)))
    wren = noticing(found)
    assert (wren.named, wren.shared, wren.after.mean < wren.before.mean) == (0, 1, True)
    # Nobody bears Pike out, so for Pike the batch does not count.
    assert [one.taster for one in found.tasters if one.compound == "diacetyl"] == ["Wren"]


def test_a_dose_that_nobody_notices_does_not_count():
    card = RULES.compounds["diacetyl"].noticed_from
    note = spiked("Wren", 0, 6)
    faint = {"dose": card.low / 2, "dose_unit": card.unit}
    (result,) = note.results
    weak = note.model_copy(update={"results": (result.model_copy(update=faint),)})
    assert learned(panels=[weak]).tasters == ()


def test_the_rules_that_are_used_have_the_learned_rates_and_the_version_that_ships():
    found = learned(buttery(1, verdict(LEFT, 0.9)))
    moved = taught_rules(RULES, found)
    assert moved.causes[LEFT].base_rate.value == rate(found)
    assert moved.version == RULES.version


def test_a_verdict_on_a_cause_that_is_gone_is_left_out():
    gone = learned(buttery(1, verdict("gremlins", 0.9)))
    assert gone.rates == learned(buttery(1)).rates
