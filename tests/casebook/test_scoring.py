"""The score of a case, and of many, worked by hand on diagnoses made by hand."""

import math
from pathlib import Path
from textwrap import dedent

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.answers import CautionLine, Diagnosis, FaultGroup, NextStep
from diagnose.casebook import Case, check_rule_base, demo_case, read_cases, score_case, score_cases
from diagnose.casebook.scoring import LEAST_PROBABILITY
from diagnose.errors import UnusableInput
from tests.casebook.replayed import diagnosis_of
from tests.knowledge.shipped import CASES, RULES, TODAY, rule_base

MADE_FROM = "crashed_too_soon"


def case_that_expects(**expect: object) -> Case:
    card = {"id": "made", "title": "t", "story": "s", "teaches": "t", "expect": expect}
    return Case.model_validate({"card": card, "folder": Path("made")})


def group_of(chances: dict[str, float], here: float = 0.0, unknown: float = 0.0) -> FaultGroup:
    """A fault with these suspects and chances, in this order."""
    likeness = diagnosis_of(MADE_FROM).faults[0]
    causes = tuple(
        likeness.causes[0].model_copy(update={"id": cause, "responsible": chance})
        for cause, chance in chances.items()
    )
    return likeness.model_copy(
        update={"causes": causes, "expected_here": here, "not_in_rule_base": unknown}
    )


def diagnosis_with(*groups: FaultGroup, **parts: object) -> Diagnosis:
    made = {"verdict": "close", "next_": (), "cautions": (), **parts}
    return diagnosis_of(MADE_FROM).model_copy(update={"faults": groups, **made})


def step(key: str) -> NextStep:
    return NextStep(id=key, kind="question", text="?", gain_bits=1.0, minutes=1.0, answers=())


ONE = diagnosis_with(group_of({"hop_creep": 0.5, "overprimed": 0.3, "old_hops": 0.1}, here=0.2))
TWO = diagnosis_with(
    group_of({"hop_creep": 0.5, "overprimed": 0.3}), group_of({"overprimed": 0.9, "old_hops": 0.05})
)
BEER = diagnosis_with(group_of({"hop_creep": 0.3}, here=0.6))
NOTHING = diagnosis_with()

# Source of the table: worked by hand; the place is among causes and the beer itself, likeliest
# first, each at its mean over all faults.
PLACES = [
    (ONE, ("hop_creep",), "hop_creep", 1, 0.5),
    (ONE, ("overprimed",), "hop_creep", 2, 0.3),
    (ONE, ("old_hops",), "hop_creep", 4, 0.1),
    (ONE, ("old_hops", "overprimed"), "hop_creep", 2, 0.3),
    (ONE, ("musty_taint",), "hop_creep", None, 0.0),
    (TWO, ("hop_creep",), "overprimed", 2, 0.25),
    (TWO, ("overprimed",), "overprimed", 1, 0.6),
    (BEER, ("hop_creep",), "expected here", 2, 0.3),
    (BEER, (), "expected here", None, 0.6),
    (NOTHING, ("hop_creep",), "nothing named", None, 0.0),
    (NOTHING, (), "nothing named", None, 0.0),
]


@pytest.mark.parametrize(("diagnosis", "wanted", "first", "place", "chance"), PLACES)
def test_a_case_is_scored_by_the_place_and_chance_of_its_cause(
    diagnosis: Diagnosis, wanted: tuple[str, ...], first: str, place: int | None, chance: float
) -> None:
    score = score_case(case_that_expects(first=wanted), diagnosis)
    assert (score.first, score.place, score.probability) == (first, place, chance)


STEPS = diagnosis_with(*ONE.faults, next_=(step("spread"), step("course")))
STOP = diagnosis_with(*ONE.faults, cautions=(CautionLine(level="stop", text="!"),))

# Source of the table: worked by hand from the same diagnoses.
BROKEN = [
    (ONE, {"first": ["hop_creep"]}, ""),
    (ONE, {"first": ["overprimed"]}, "wanted overprimed first, found hop_creep"),
    (ONE, {"first": ["a", "b"]}, "wanted a or b first, found hop_creep"),
    (BEER, {"expected_here": True}, ""),
    (ONE, {"expected_here": True}, "wanted the beer itself first, found hop_creep"),
    (ONE, {"quiet": ["old_hops"]}, ""),
    (ONE, {"quiet": ["musty_taint"]}, ""),
    (ONE, {"quiet": ["overprimed"]}, "overprimed must stay quiet, has 30%"),
    (ONE, {"quiet": ["overprimed"], "quiet_below": 0.4}, ""),
    (ONE, {"quiet": ["overprimed"], "quiet_below": 0.3}, "overprimed must stay quiet, has 30%"),
    (ONE, {"verdict": ["close", "open"]}, ""),
    (ONE, {"verdict": ["separated"]}, "wanted the verdict separated, found close"),
    (STEPS, {"asks": ["course", "season"]}, ""),
    (STEPS, {"asks": ["season"]}, "wanted to be asked season"),
    (STOP, {"cautions": ["stop"]}, ""),
    (STOP, {"cautions": ["stop", "warn"]}, "wanted a caution of level warn"),
    (
        ONE,
        {"first": ["overprimed"], "verdict": ["open"]},
        "wanted overprimed first, found hop_creep; wanted the verdict open, found close",
    ),
]


@pytest.mark.parametrize(("diagnosis", "expect", "why"), BROKEN)
def test_a_case_holds_or_says_what_is_broken(
    diagnosis: Diagnosis, expect: dict[str, object], why: str
) -> None:
    score = score_case(case_that_expects(**expect), diagnosis)
    assert (score.holds, score.why) == (why == "", why)


@given(st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_cause_must_be_quieter_than_its_limit(chance: float, limit: float) -> None:
    diagnosis = diagnosis_with(group_of({"hop_creep": chance}))
    score = score_case(case_that_expects(quiet=["hop_creep"], quiet_below=limit), diagnosis)
    assert score.holds == (chance < limit)


@pytest.fixture
def two_cases(tmp_path: Path) -> Path:
    """Two cases: one that butter wins, one that expects what cannot be."""
    for name, first in (("won", "diacetyl_left_at_packaging"), ("lost", "musty_taint")):
        folder = tmp_path / name
        folder.mkdir()
        (folder / "case.yaml").write_text(
            f"{{id: {name}, title: t, story: s, teaches: t, expect: {{first: [{first}]}}}}"
        )
        (folder / "batch.yaml").write_text("tastings: [{words: butter}]")
    return tmp_path


def test_the_score_of_all_cases_is_their_mean(two_cases: Path) -> None:
    answer = score_cases(rule_base(), [two_cases], TODAY)
    won = next(score.probability for score in answer.cases if score.case == "won")
    assert (answer.top_1, answer.top_3, answer.all_hold) == (0.5, 0.5, False)
    worked = (-math.log(won) - math.log(LEAST_PROBABILITY)) / 2.0
    assert answer.mean_log_loss == pytest.approx(worked)


def test_a_case_without_a_wanted_cause_does_not_count_in_the_mean(two_cases: Path) -> None:
    (two_cases / "lost" / "case.yaml").write_text(
        "{id: lost, title: t, story: s, teaches: t, expect: {verdict: [close, separated]}}"
    )
    answer = score_cases(rule_base(), [two_cases], TODAY)
    assert len(answer.cases) == 2
    assert answer.top_1 == 1.0


def test_several_folders_of_cases_are_scored_together(two_cases: Path) -> None:
    answer = score_cases(rule_base(), [two_cases / "won", two_cases / "lost"], TODAY)
    assert [score.case for score in answer.cases] == ["won", "lost"]


# Source of the table: first principles; slips of a hand that writes cases.
@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("id: other\ntitle: t\nstory: s\nteaches: t\nexpect: {}", "case.yaml:1: id: found other"),
        ("id: won\ntitle: t\nstory: s\nteaches: t", "'expect', which is required"),
        ("id: won\ntitle: t\nstory: s\nteaches: t\nexpect: {frist: [a]}", "'first', perhaps"),
        ("id: won\ntitle: t\nstory: s\nteaches: t\nexpect: {verdict: [sure]}", "verdict[1]"),
    ],
)
def test_a_slip_in_a_case_is_named(two_cases: Path, text: str, said: str) -> None:
    (two_cases / "won" / "case.yaml").write_text(text)
    with pytest.raises(UnusableInput) as refusal:
        read_cases(two_cases)
    assert said in str(refusal.value)


def test_the_slips_of_all_cases_are_named_at_once(two_cases: Path) -> None:
    for name in ("won", "lost"):
        (two_cases / name / "case.yaml").write_text("id: neither")
    with pytest.raises(UnusableInput) as refusal:
        read_cases(two_cases)
    assert len({fault.file for fault in refusal.value.faults}) == 2


def test_a_folder_without_cases_is_refused(tmp_path: Path) -> None:
    with pytest.raises(UnusableInput) as refusal:
        read_cases(tmp_path)
    assert "no case.yaml below it" in str(refusal.value)


def test_the_demo_is_the_case_that_says_so(two_cases: Path) -> None:
    text = dedent("""
        {id: won, title: t, story: s, teaches: t, demo: true, expect: {}}
    """)
    (two_cases / "won" / "case.yaml").write_text(text)
    assert demo_case(two_cases).card.id == "won"


def test_a_sound_rule_base_is_counted() -> None:
    answer = check_rule_base(RULES, CASES)
    assert answer.cards["causes"] == len(rule_base().causes)


def test_a_rule_base_that_cannot_be_loaded_is_all_faults(tmp_path: Path) -> None:
    answer = check_rule_base(tmp_path, CASES)
    assert answer.cards == {}
    assert answer.faults
