"""The band on each bar: seeded, around the chance itself, as wide as our guesses are."""

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from pydantic import BaseModel

from diagnose.answers import Diagnosis
from diagnose.consult import diagnose
from diagnose.consult.bands import DRAWS, with_bands
from diagnose.consult.reaching import near_rules, ranking_near, reach_of
from diagnose.consult.redrawing import SEED, redraw
from diagnose.documents import Number
from diagnose.knowledge import CircumstanceShares, Indicator, RuleBase
from tests.casebook.replayed import consultation_of, diagnosis_of
from tests.consult.asked import asked
from tests.knowledge.shipped import rule_base

# Source: shipped cases of one group and of several, with a log and without, the last of words
# alone; and one whose first cause stands at the edge of what the redraws say.
CASES = ["pale_beer_on_hard_water", "net_shed_in_january", "spring_bitter", "butter_after_dry_hop"]
some_cases = pytest.mark.parametrize("case_id", CASES)
SLACK = 1e-9


def banded_by(rules: RuleBase, case_id: str) -> Diagnosis:
    consultation = consultation_of(case_id)
    return with_bands(rules, consultation, diagnose(rules, consultation))


@cache
def banded(case_id: str) -> Diagnosis:
    return with_bands(rule_base(), consultation_of(case_id), diagnosis_of(case_id))


def widths(diagnosis: Diagnosis) -> list[float]:
    ranges = [one.responsible_range for group in diagnosis.faults for one in group.causes]
    return [held.high - held.low for held in ranges if held]


@pytest.mark.parametrize("case_id", CASES[:2])
def test_the_same_case_has_the_same_digits_each_time(case_id: str) -> None:
    again = banded_by(rule_base(), case_id)
    assert again.model_dump_json() == banded(case_id).model_dump_json()


@some_cases
def test_every_band_holds_the_chance_itself_and_is_of_chances(case_id: str) -> None:
    for group in banded(case_id).faults:
        for cause in group.causes:
            assert cause.responsible_range is not None
            low, high = cause.responsible_range.low, cause.responsible_range.high
            assert 0.0 <= low <= cause.responsible <= high <= 1.0 + SLACK


@some_cases
def test_nothing_but_the_band_is_changed(case_id: str) -> None:
    bare = banded(case_id).model_dump()
    for group in bare["faults"]:
        for cause in group["causes"]:
            cause["responsible_range"] = None
    assert bare == diagnosis_of(case_id).model_dump()


def test_without_a_word_there_is_nothing_to_draw() -> None:
    consultation = asked("")
    silent = diagnose(rule_base(), consultation)
    assert with_bands(rule_base(), consultation, silent) == silent


def test_other_redraws_fall_in_the_band_about_eight_times_in_ten() -> None:
    rules, case_id = rule_base(), "pale_beer_on_hard_water"
    reach, random = reach_of(rules, consultation_of(case_id)), np.random.default_rng(SEED + 1)
    near, first = near_rules(rules, reach), banded(case_id).faults[0].causes[0]
    rankings = [ranking_near(redraw(near, random), reach) for _ in range(2 * DRAWS)]
    place = rankings[0].structure.network.cause_index[first.id]
    found = np.array([ranking.responsible[0, 0, place] for ranking in rankings])
    held = first.responsible_range
    assert held is not None
    assert 0.55 < np.mean((held.low <= found) & (found <= held.high)) < 0.95


def narrowed(value: Any, part: float) -> Any:
    """A card with every range pulled towards its value; tables of shares do not move at all."""
    if isinstance(value, Number):
        low, high = (value.value + part * (end - value.value) for end in (value.low, value.high))
        return value.model_copy(update={"low": low, "high": high})
    if isinstance(value, Indicator):
        return value.model_copy(update={"give_or_take": part * value.give_or_take})
    if isinstance(value, CircumstanceShares):
        return value.model_copy(update={"basis": "practice"})
    if isinstance(value, BaseModel):
        fields = {key: narrowed(getattr(value, key), part) for key in type(value).model_fields}
        return value.model_copy(update=fields)
    if isinstance(value, dict):
        return {key: narrowed(item, part) for key, item in value.items()}
    return tuple(narrowed(item, part) for item in value) if isinstance(value, tuple) else value


def rules_with(part: float) -> RuleBase:
    """The rule base with narrower guesses; from what amount a compound is noticed stays."""
    rules = rule_base()
    compounds = {}
    for key, card in rules.compounds.items():
        held = {"noticed_from": card.noticed_from}
        compounds[key] = narrowed(card, part).model_copy(update=held)
    causes = {key: narrowed(card, part) for key, card in rules.causes.items()}
    return replace(rules, causes=causes, compounds=compounds)


@pytest.mark.parametrize("case_id", CASES[:2])
def test_the_surer_our_guesses_are_the_narrower_is_the_band(case_id: str) -> None:
    wide, half, narrow = (sum(widths(banded_by(rules_with(p), case_id))) for p in (1.0, 0.5, 0.1))
    assert 0.0 < narrow < 0.5 * half < 0.5 * wide


@pytest.mark.parametrize("case_id", CASES[:2])
def test_where_nothing_is_a_guess_the_band_has_no_width(case_id: str) -> None:
    assert max(widths(banded_by(rules_with(0.0), case_id))) < SLACK
