"""A cause is found by what a brewer types for it, or the near ones are offered."""

import pytest

from diagnose.consult import explain_card
from diagnose.errors import UnusableInput
from diagnose.knowledge import named_cause, near_causes
from tests.knowledge.shipped import rule_base
from tests.trial.arms import plan_of

RULES = rule_base()


@pytest.mark.parametrize("cause", RULES.causes)
def test_a_cause_is_known_by_its_id_and_by_its_name(cause: str) -> None:
    name = RULES.causes[cause].name
    for typed in (cause, cause.replace("_", "-"), name, name.upper()):
        assert named_cause(RULES, typed) == cause


@pytest.mark.parametrize("cause", RULES.causes)
def test_an_id_with_a_slip_of_the_hand_is_offered(cause: str) -> None:
    for slip in (cause[:-1], f"{cause[:3]}{cause[4:]}", cause.replace("_", "__", 1)):
        assert cause in near_causes(RULES, slip) or named_cause(RULES, slip) == cause


# Source of the table: how a brewer would say it.
@pytest.mark.parametrize(
    ("typed", "cause"),
    [
        ("diacetyl_left", "diacetyl_left_at_packaging"),
        ("stored warm", "warm_storage"),
        ("dirty tap line", "dirty_draught_line"),
        ("butter", "diacetyl_left_at_packaging"),
        ("oxigen", "oxygen_at_packaging"),
        ("oxydation", "oxygen_at_packaging"),
        ("clorine water", "chlorinated_water"),
        ("buttery", "diacetyl_left_at_packaging"),
        ("infektion", "lactic_contamination"),
        ("skunky", "light_struck"),
    ],
)
def test_a_cause_is_offered_by_words(typed: str, cause: str) -> None:
    assert cause in near_causes(RULES, typed)


@pytest.mark.parametrize("typed", ["", "zzz", "_"])
def test_what_is_near_nothing_offers_nothing(typed: str) -> None:
    assert near_causes(RULES, typed) == ()


def test_a_plan_for_a_misspelt_cause_names_the_near_ones() -> None:
    with pytest.raises(UnusableInput) as refused:
        plan_of("oxygen_at_packagin")
    assert "perhaps oxygen_at_packaging (Oxygen picked up at packaging)" in str(refused.value)


def test_a_plan_takes_a_cause_by_its_name() -> None:
    (factor,) = plan_of("Oxygen picked up at packaging").factors
    assert factor.cause == "oxygen_at_packaging"


def test_a_card_that_is_not_there_offers_causes_by_words() -> None:
    with pytest.raises(UnusableInput) as refused:
        explain_card(RULES, "dirty tap line")
    assert "dirty_draught_line" in str(refused.value)


# Source of the table: spelling by ear; judgement.
@pytest.mark.parametrize(
    ("typed", "card"),
    [("oxigen", "oxygen_at_packaging"), ("diacetil", "diacetyl"), ("sauer", "lactic")],
)
def test_a_card_spelt_by_ear_offers_what_it_sounds_like_first(typed: str, card: str) -> None:
    with pytest.raises(UnusableInput) as refused:
        explain_card(RULES, typed)
    first, second, *_ = refused.value.faults[0].wanted.removeprefix("one of ").split(", ")
    assert card in f"{first} {second}"
