"""The plan: one factor, a fair draw, what must be equal, dates, and the file it is kept in."""

from collections import Counter
from datetime import date
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.errors import UnusableInput
from diagnose.trial.drawing import draw_vessels
from diagnose.trial.minding import remarks_on
from diagnose.trial.plan_file import plan_of as plan_in
from diagnose.trial.plan_file import text_of
from diagnose.trial.waiting import calendar_text, escaped, fold_line
from tests.knowledge.shipped import rule_base
from tests.trial.arms import CAUSE, FAULTY, plan_of, usual_plan


def test_the_arms_differ_in_the_suspect_and_in_nothing_else():
    plan = usual_plan()
    first, second = plan.arms
    assert [factor.cause for factor in plan.differ(first, second)] == [CAUSE]
    assert "open" in plan.factors[0].suspect and "purged" in plan.factors[0].other


def test_two_factors_at_once_do_not_isolate_and_three_ways_out_are_offered():
    with pytest.raises(UnusableInput) as refused:
        plan_of(CAUSE, "warm_storage")
    for way in ("two splits", "2x2", "search, not proof"):
        assert way in str(refused.value)


def test_a_two_by_two_has_every_combination_once():
    plan = plan_of(CAUSE, "warm_storage", design="2x2")
    assert len({arm.settings for arm in plan.arms}) == len(plan.arms) == 4
    neighbours = plan.differ(plan.arms[0], plan.arms[1])
    assert [factor.cause for factor in neighbours] == ["warm_storage"]


def test_a_search_changes_everything_and_says_that_it_proves_nothing():
    plan = plan_of(CAUSE, "warm_storage", design="search")
    assert len(plan.differ(*plan.arms)) == 2
    assert any("Search, not proof" in words for words in plan.remarks)


@given(st.integers(0, 10**6), st.integers(1, 6))
def test_every_pair_of_vessels_holds_every_arm_once(seed, pairs):
    vessels = draw_vessels(usual_plan().arms, pairs, Random(seed))
    assert [vessel.number for vessel in vessels] == list(range(1, 2 * pairs + 1))
    assert Counter((v.pair, v.arm) for v in vessels) == {
        (pair, arm): 1 for pair in range(1, pairs + 1) for arm in "AB"
    }


def test_the_draw_hangs_on_the_seed():
    arms = usual_plan().arms
    assert {draw_vessels(arms, 1, Random(seed))[0].arm for seed in range(12)} == {"A", "B"}
    assert plan_of(seed=3) == plan_of(seed=3)


def test_the_other_causes_of_the_fault_have_to_be_equal():
    why = " ".join(one.why for one in usual_plan().equal)
    for rival in ("warm_storage", "uneven_fill_headspace", "dry_hop_air"):
        name = rule_base().causes[rival].name
        assert name[:1].lower() + name[1:] in why


def test_what_lies_before_the_division_is_shared_and_what_comes_after_is_watched():
    plan = usual_plan()
    shared = {one.why.split(" makes")[0] for one in plan.equal if one.shared}
    warm = next(one for one in plan.equal if one.why.startswith("stored too warm"))
    assert not warm.shared
    assert any("hot mash or wort splashed" in why for why in shared)


@pytest.mark.parametrize("words", ["volume", "headspace", "carbonation", "vessels", "glass"])
def test_volumes_headspace_vessels_gas_and_serving_have_to_be_equal(words):
    assert any(words in one.what for one in plan_of("warm_storage").equal)


def test_the_brew_sheet_marks_the_division_once_and_gives_both_systems_of_units():
    divisions = [step.do for step in usual_plan().steps if step.division]
    assert len(divisions) == 1
    assert "5.0 L (1.3 US gal)" in divisions[0]
    assert any("23.0 L (6.1 US gal)" in step.do for step in usual_plan().steps)


def test_spikes_are_food_and_never_chemicals():
    controls = " ".join(usual_plan().controls)
    assert "food only" in controls and "Never with cleaners" in controls


def test_a_caution_that_says_stop_keeps_the_beer_from_being_served():
    text = FAULTY.replace("wet cardboard", "wet cardboard and petrol")
    assert any("Pour it away" in words for words in plan_of(text=text).not_served_because)
    assert usual_plan().not_served_because == ()


def test_a_suspect_whose_own_card_says_stop_is_not_served():
    text = "batch: b\ntastings: [{words: slick and slippery}]\nvolume: 20 L\n"
    assert plan_of("cleaner_residue", text=text).not_served_because


# Source of the table: the text on bad input.
REFUSED = [
    (("no_such_cause",), {}, "as `faultwort split choose` lists"),
    (("exposure_event",), {}, "a cause that can be split"),
    (("chlorinated_water",), {}, "a cause that may be behind the fault"),
    ((CAUSE, CAUSE), {"design": "search"}, "each cause once"),
    ((CAUSE,), {"design": "2x2"}, "two for a 2x2"),
    ((CAUSE,), {"pairs": 0}, "pairs of vessels"),
    ((CAUSE,), {"litres": 0.5}, "at least"),
]


@pytest.mark.parametrize(("causes", "told", "says"), REFUSED, ids=[says for *_, says in REFUSED])
def test_a_plan_that_cannot_be_is_refused(causes, told, says):
    with pytest.raises(UnusableInput, match=says):
        plan_of(*causes, **told)


@pytest.mark.parametrize(("given", "is_short"), [(4.9, True), (5.0, False), (5.1, False)])
def test_a_vessel_is_called_short_of_beer_only_when_it_is(given, is_short):
    remarks = remarks_on("isolating", 1, (5.0, given))
    assert any(words.startswith("Each vessel gets") for words in remarks) == is_short


def test_a_small_batch_is_divided_and_the_brewer_is_told():
    plan = plan_of(litres=4.0)
    assert plan.litres_per_arm == pytest.approx(2.0)
    assert any("less than" in words for words in plan.remarks)


@pytest.mark.parametrize(
    "name", ["no", "1e3", "0x1F", "12:30", "2026-01-01", "a: b # c", "é – ß", "~"]
)
def test_a_plan_comes_back_from_its_file_as_it_was(name):
    plan = usual_plan().model_copy(update={"batch": name})
    assert plan_in(text_of(plan, "a heading"), "plan.yaml") == plan


def test_a_plan_changed_past_use_is_refused_with_its_line():
    text = text_of(usual_plan(), "a heading").replace("tasters: 9", "tasters: none")
    with pytest.raises(UnusableInput, match=r"plan\.yaml:\d+: tasters"):
        plan_in(text, "plan.yaml")


def lines_of(text: str) -> list[str]:
    assert text.endswith("\r\n")
    return text.removesuffix("\r\n").split("\r\n")


def test_the_calendar_ends_every_line_as_the_standard_wants():
    text = calendar_text(usual_plan())
    assert text.count("\n") == text.count("\r\n")
    assert "\r" not in text.replace("\r\n", "")


def test_no_line_of_the_calendar_is_longer_than_75_octets():
    plan = usual_plan().model_copy(update={"batch": "Überlanger Name, ein Bitter; " * 5})
    assert all(len(line.encode()) <= 75 for line in lines_of(calendar_text(plan)))


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=200))
def test_a_folded_line_unfolds_to_what_it_was(line):
    pieces = fold_line(line)
    assert all(piece.startswith(" ") for piece in pieces[1:])
    assert pieces[0] + "".join(piece[1:] for piece in pieces[1:]) == line
    assert all(len(piece.encode()) <= 75 for piece in pieces)


# Source of the table: RFC 5545, section 3.3.11.
@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("a,b", "a\\,b"),
        ("a;b", "a\\;b"),
        ("a\\b", "a\\\\b"),
        ("a\nb", "a\\nb"),
        ("a\r\nb", "a\\nb"),
    ],
)
def test_text_is_escaped_as_the_standard_wants(text, written):
    assert escaped(text) == written


# Source of the table: RFC 5545, sections 3.4 and 3.6.1.
@pytest.mark.parametrize(
    "key", ["UID", "DTSTAMP", "DTSTART;VALUE=DATE", "DTEND;VALUE=DATE", "SUMMARY"]
)
def test_every_event_has_what_the_standard_requires_once(key):
    lines = lines_of(calendar_text(usual_plan()))
    events = lines.count("BEGIN:VEVENT")
    assert events == lines.count("END:VEVENT") == len(usual_plan().dates)
    assert sum(line.startswith(f"{key}:") for line in lines) == events


def test_events_have_ids_of_their_own():
    uids = [line for line in lines_of(calendar_text(usual_plan())) if line.startswith("UID:")]
    assert len(set(uids)) == len(uids)


def test_the_calendar_is_wrapped_and_versioned():
    lines = lines_of(calendar_text(usual_plan()))
    assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
    assert "VERSION:2.0" in lines and any(line.startswith("PRODID:") for line in lines)
    assert f"DTSTART;VALUE=DATE:{date(2026, 7, 1):%Y%m%d}" in lines
