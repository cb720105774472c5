"""Brewers drawn from the rule base itself, to see how often the model's view is right.

Each measure of a batch is drawn from its typical spread, and of a batch in which the planted cause
is at work by the weights that speak for it. Some measures are a habit: the same in all batches.
One flawed batch in ten is flawed for another reason, and one clean batch takes its place.
"""

from functools import cache
from typing import Any

import numpy as np

from diagnose.consult.history_looking_batch import told_of
from diagnose.consult.history_shared_cause import (
    CauseOverBatches,
    causes_that_give,
    over_batches,
)
from diagnose.history.brews import Brew, Measured
from diagnose.history.statistics.columns import Flags, columns_of
from diagnose.knowledge import RuleBase
from tests.history.statistics.brewers import FLAW, brew

BATCHES, FLAWED, FACTORS = 25, 8, 12
HABITS, OTHER_REASONS = 0.3, 0.1
NOTHING, VESSEL = "nothing", "a vessel"


def simulated(rules: RuleBase, seed: int, kind: str) -> tuple[str, CauseOverBatches]:
    """What was planted, and what the model says: `kind` is "a cause", NOTHING or VESSEL."""
    random = np.random.default_rng(seed)
    cause = _drawn_cause(rules, random) if kind == "a cause" else None
    at_work = np.zeros(BATCHES, dtype=np.bool_)
    at_work[random.choice(BATCHES, FLAWED, replace=False)] = True
    flawed = at_work if kind == NOTHING else _with_others(random, at_work)
    habits = {
        key: _drawn(rules, random, (key, None))
        for key in rules.measures
        if random.random() < HABITS and not (cause and _speaks(rules, key, cause))
    }
    brews = []
    for number in range(BATCHES):
        acting = cause if at_work[number] else None
        told = {
            key: habits[key] if key in habits else _drawn(rules, random, (key, acting))
            for key in rules.measures
        }
        factors = {f"factor {i}": (str(random.choice(["this", "that"])),) for i in range(FACTORS)}
        if kind == VESSEL:
            factors["vessel"] = ("steel" if at_work[number] else "glass",)
        measures = {key: value for key, value in told.items() if value is not None}
        brews.append(brew(number, bool(flawed[number]), measures, factors))
    return cause or kind, _seen(rules, brews, flawed)


def named(found: CauseOverBatches) -> tuple[str, float]:
    """What the model puts first, and the chance it gives it."""
    names = (*found.causes, VESSEL, NOTHING, "the beer itself")
    shares = [*found.shares, found.unknown, found.none, found.own]
    best = int(np.argmax(shares))
    return names[best], float(shares[best])


def _seen(rules: RuleBase, brews: list[Brew], flawed: Flags) -> CauseOverBatches:
    found = over_batches(rules, {FLAW}, (brews, flawed), columns_of(brews))
    assert found is not None
    return found


def _drawn_cause(rules: RuleBase, random: np.random.Generator) -> str:
    """A cause, as often as it makes the flaw in batches at large."""
    causes = causes_that_give(rules, {FLAW})
    makes = [card for card in rules.compounds.values() if FLAW in card.gives]
    often = np.array(
        [
            rules.causes[cause].base_rate.value
            * max((one.made_by[cause].value for one in makes if cause in one.made_by), default=0.0)
            for cause in causes
        ]
    )
    return str(random.choice(causes, p=often / often.sum()))


def _with_others(random: np.random.Generator, at_work: Flags) -> Flags:
    number = random.binomial(FLAWED, OTHER_REASONS)
    flawed = at_work.copy()
    flawed[random.choice(np.flatnonzero(at_work), number, replace=False)] = False
    flawed[random.choice(np.flatnonzero(~at_work), number, replace=False)] = True
    return flawed


def _speaks(rules: RuleBase, key: str, cause: str) -> bool:
    return any(one.measure == key for one in rules.causes[cause].indicators)


def _drawn(
    rules: RuleBase, random: np.random.Generator, about: tuple[str, str | None]
) -> Measured | None:
    key, cause = about
    values = [value for value, _ in rules.measures[key].typical]
    shares = np.array([float(share) for _, share in rules.measures[key].typical])
    if cause is not None:
        shares = shares * [_weight(_Rules(rules), key, value, cause) for value in values]
    if shares.sum() <= 0.0:
        return None
    value: Any = values[int(random.choice(len(values), p=shares / shares.sum()))]
    return value if rules.measures[key].classes else (float(value),) * 3


class _Rules:
    """A rule base that can be a key, there being one only."""

    def __init__(self, rules: RuleBase) -> None:
        self.rules = rules

    def __hash__(self) -> int:
        return 0

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Rules)


@cache
def _weight(base: _Rules, key: str, value: Any, cause: str) -> float:
    """How many times as often the measure has this value where the cause is at work."""
    rules = base.rules
    told: Measured = value if rules.measures[key].classes else (float(value),) * 3
    evidence = told_of(rules, brew(0, False, {key: told}), {FLAW}).evidence
    if cause in evidence.impossible:
        return 0.0
    decibans = sum(p.happened.get(cause, 0.0) for p in evidence.pieces if p.kind == "measure")
    return float(10.0 ** (decibans / 10.0))
