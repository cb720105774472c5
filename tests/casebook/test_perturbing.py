"""Redrawn rule bases: what moves, how far, what stays, and how often a first cause does."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from diagnose.batch import read_batch
from diagnose.casebook import Case, read_cases, score_cases
from diagnose.casebook.outcomes import Outcomes, outcomes_of, outcomes_of_ranking
from diagnose.casebook.perturbing import perturbed_firsts
from diagnose.casebook.reach import outcomes_within
from diagnose.consult import Consultation, consult_on
from diagnose.consult.networks import network_of_batch
from diagnose.consult.reaching import reach_of
from diagnose.consult.redrawing import SEED, SHARE_DECIBANS, redraw
from diagnose.documents import Number
from diagnose.evidence.gathering import gather
from diagnose.inference.ranking import rank
from diagnose.knowledge import CircumstanceShares, Indicator, RuleBase
from tests.casebook.replayed import consultation_of, diagnosis_of
from tests.knowledge.shipped import TODAY, case_ids, rule_base

SLACK = 1e-9
# What counts with its whole range in every ranking is not redrawn as well.
WHOLE = {"noticed_from"}
seeds = st.integers(0, 2**32 - 1)


@cache
def redrawn(seed: int) -> RuleBase:
    return redraw(rule_base(), np.random.default_rng(seed))


def cards(rules: RuleBase) -> dict[str, Any]:
    return {**{f"causes {k}": c for k, c in rules.causes.items()}, **rules.compounds}


def parts(value: Any, path: str = "") -> Iterator[tuple[str, Any]]:
    """Every number, curve and table of shares inside a card, with the way to it."""
    if isinstance(value, Number | Indicator | CircumstanceShares):
        yield path, value
    elif isinstance(value, BaseModel):
        for key in sorted(set(type(value).model_fields) - WHOLE):
            yield from parts(getattr(value, key), f"{path}.{key}")
    elif isinstance(value, dict):
        for key, item in value.items():
            yield from parts(item, f"{path}.{key}")
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            yield from parts(item, f"{path}[{index}]")


def pairs(seed: int, kind: type) -> list[tuple[Any, Any]]:
    """Every part of a kind before and after a redraw."""
    before, after = dict(parts(cards(rule_base()))), dict(parts(cards(redrawn(seed))))
    assert list(before) == list(after)
    return [(before[path], after[path]) for path in before if isinstance(before[path], kind)]


@given(seeds)
@settings(max_examples=5)
def test_the_same_seed_draws_the_same_rule_base(seed: int) -> None:
    again = redraw(rule_base(), np.random.default_rng(seed))
    assert (again.causes, again.compounds) == (redrawn(seed).causes, redrawn(seed).compounds)


def test_another_seed_draws_another_rule_base() -> None:
    assert redrawn(1).compounds != redrawn(2).compounds


@given(seeds)
@settings(max_examples=10)
def test_every_redrawn_number_stays_within_its_range(seed: int) -> None:
    for old, new in pairs(seed, Number):
        assert old.low <= new.value <= old.high
        assert (new.low, new.high, new.basis) == (old.low, old.high, old.basis)


@given(seeds)
@settings(max_examples=5)
def test_every_judgement_with_a_range_is_drawn_anew(seed: int) -> None:
    numbers = [(old, new) for old, new in pairs(seed, Number) if old.low < old.high]
    assert sum(new.value == old.value for old, new in numbers) == 0


@pytest.mark.parametrize("basis", ["published-seen", "published-recalled", "derived", "practice"])
def test_what_is_no_judgement_stays(basis: str) -> None:
    settled = with_basis(rule_base(), basis)
    drawn = redraw(settled, np.random.default_rng(1))
    assert (drawn.causes, drawn.compounds) == (settled.causes, settled.compounds)


def test_the_published_thresholds_and_constants_stay() -> None:
    rules, drawn = rule_base(), redrawn(1)
    for key, card in rules.compounds.items():
        assert drawn.compounds[key].noticed_from == card.noticed_from
    assert (drawn.constants, drawn.checks, drawn.lexicon) == (
        rules.constants,
        rules.checks,
        rules.lexicon,
    )


@given(seeds)
@settings(max_examples=5)
def test_the_points_of_a_curve_move_together_within_their_give_or_take(seed: int) -> None:
    for old, new in pairs(seed, Indicator):
        was = [weight for _, weight in old.curve] + list(old.values.values())
        now = [weight for _, weight in new.curve] + list(new.values.values())
        shifts = [after - before for before, after in zip(was, now, strict=True)]
        assert max(shifts) - min(shifts) < SLACK
        assert abs(shifts[0]) <= old.give_or_take + SLACK
        assert [value for value, _ in new.curve] == [value for value, _ in old.curve]


@given(seeds)
@settings(max_examples=5)
def test_redrawn_shares_sum_to_one_and_move_no_further_than_twice_their_leeway(seed: int) -> None:
    for old, new in pairs(seed, CircumstanceShares):
        assert sum(new.shares.values()) == pytest.approx(1.0)
        assert list(new.shares) == list(old.shares)
        # Each is multiplied by up to the leeway, and then all are scaled by up to as much.
        moved = [10.0 * np.log10(new.shares[key] / share) for key, share in old.shares.items()]
        assert max(map(abs, moved)) <= 2.0 * SHARE_DECIBANS + SLACK


def with_basis(rules: RuleBase, basis: str) -> RuleBase:
    """The rule base with another basis under everything on its causes and compounds."""
    return replace(
        rules,
        causes={key: restated(card, basis) for key, card in rules.causes.items()},
        compounds={key: restated(card, basis) for key, card in rules.compounds.items()},
    )


def restated(value: Any, basis: str) -> Any:
    if isinstance(value, BaseModel):
        fields = {key: restated(getattr(value, key), basis) for key in type(value).model_fields}
        stated = {"basis": basis} if "basis" in fields else {}
        return value.model_copy(update={**fields, **stated})
    if isinstance(value, dict):
        return {key: restated(item, basis) for key, item in value.items()}
    if isinstance(value, tuple):
        return tuple(restated(item, basis) for item in value)
    return value


def fully_ranked(rules: RuleBase, consultation: Consultation) -> Outcomes:
    network = network_of_batch(rules, consultation)
    return outcomes_of_ranking(rank(network, [gather(rules, consultation.known)]))


def with_checks() -> list[str]:
    return [one for one in case_ids() if consultation_of(one).known.checks][:4]


@pytest.mark.parametrize("case_id", [*case_ids()[::12], *with_checks()])
def test_what_cannot_bear_on_a_case_changes_none_of_its_shares(case_id: str) -> None:
    rules = redrawn(3)
    reach = reach_of(rule_base(), consultation_of(case_id))
    near, full = outcomes_within(rules, reach), dict(fully_ranked(rules, reach.consultation))
    assert len(reach.causes) < len(rules.causes)
    assert [share for _, share in near] == pytest.approx([full.pop(name) for name, _ in near])
    assert sum(full.values()) == pytest.approx(0.0, abs=SLACK)


@pytest.mark.parametrize("case_id", case_ids()[5::25])
def test_the_bare_ranking_has_the_same_first_as_the_diagnosis(case_id: str) -> None:
    reach = reach_of(rule_base(), consultation_of(case_id))
    assert outcomes_within(rule_base(), reach)[0] == pytest.approx(
        outcomes_of(diagnosis_of(case_id))[0]
    )


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Three cases: one word, two groups of words, and words that nobody understands."""
    folder = tmp_path_factory.mktemp("cases")
    records = {"one": "butter", "two": "butter, sticking plaster", "none": "frobnicated"}
    for name, words in records.items():
        (folder / name).mkdir()
        card = f"{{id: {name}, title: t, story: s, teaches: t, expect: {{}}}}"
        (folder / name / "case.yaml").write_text(card)
        (folder / name / "batch.yaml").write_text(f'tastings: [{{words: "{words}"}}]')
    return folder


@pytest.fixture(scope="module")
def made(folder: Path) -> dict[str, Case]:
    return {case.card.id: case for case in read_cases(folder)}


def firsts_of(case: Case, draws: int) -> list[str]:
    """The first outcomes as a full ranking of every drawn rule base has them."""
    consultation = consult_on(rule_base(), read_batch(case.folder / "batch.yaml", TODAY))
    random = np.random.default_rng(SEED)
    redraws = [redraw(rule_base(), random) for _ in range(draws)]
    return [fully_ranked(rules, consultation)[0][0] for rules in redraws]


# "two" has close rivals, so that some of its draws do not keep the first.
@pytest.mark.parametrize("name", ["one", "two"])
def test_a_case_keeps_its_first_as_often_as_full_rankings_do(
    made: dict[str, Case], name: str
) -> None:
    (line,) = perturbed_firsts(rule_base(), [made[name]], TODAY, draws=12)
    drawn = Counter(firsts_of(made[name], 12))
    others = drawn - Counter({line.first: 12})
    assert line.kept == drawn[line.first] / 12
    assert others[line.rival] == max(others.values(), default=0)
    assert (line.rival == "") == (not others)


def test_the_same_draws_come_out_of_every_run(made: dict[str, Case]) -> None:
    one, other = (
        perturbed_firsts(rule_base(), list(made.values()), TODAY, draws=3) for _ in range(2)
    )
    assert one == other


def test_a_case_s_line_does_not_depend_on_the_cases_beside_it(made: dict[str, Case]) -> None:
    together = perturbed_firsts(rule_base(), list(made.values()), TODAY, draws=3)
    alone = [perturbed_firsts(rule_base(), [case], TODAY, draws=3)[0] for case in made.values()]
    assert list(together) == alone


@pytest.mark.parametrize("name", ["one", "two"])
def test_where_nothing_is_judged_every_first_stays(made: dict[str, Case], name: str) -> None:
    settled = with_basis(rule_base(), "practice")
    (line,) = perturbed_firsts(settled, [made[name]], TODAY, draws=4)
    assert (line.kept, line.rival) == (1.0, "")


def test_words_that_nobody_understands_name_nothing_in_any_draw(made: dict[str, Case]) -> None:
    (line,) = perturbed_firsts(rule_base(), [made["none"]], TODAY, draws=3)
    assert (line.first, line.kept, line.rival) == ("nothing named", 1.0, "")


def test_without_a_draw_there_is_no_table(made: dict[str, Case], folder: Path) -> None:
    assert perturbed_firsts(rule_base(), list(made.values()), TODAY, draws=0) == ()
    assert score_cases(rule_base(), [folder], TODAY).perturbed == ()


def test_a_score_with_draws_has_a_line_for_every_case(folder: Path) -> None:
    answer = score_cases(rule_base(), [folder], TODAY, draws=2)
    assert [line.case for line in answer.perturbed] == [case.case for case in answer.cases]
    assert answer.draws == 2


def test_a_run_can_be_watched_draw_by_draw(folder: Path) -> None:
    seen: list[tuple[str, int]] = []

    def watch(steps: Sequence[Any], what: str) -> Iterator[Any]:
        for step in steps:
            yield step
            seen.append((what, len(steps)))

    score_cases(rule_base(), [folder], TODAY, draws=2, watch=watch)
    assert seen == [("cases", 3)] * 3 + [("draws", 2)] * 2
