"""How much hangs on our own guesses: the judgements on cause and compound cards, redrawn.

A number is drawn between its low and its high with its peak at its value, the points of an
indicator's curve move together within their give or take, and a share of a circumstance, which
has no range of its own, by up to `SHARE_DECIBANS` either way. What was published, derived or is
usual practice stays. So does the amount from which a compound is noticed, which counts with its
whole range already, and so do the judgements beside the two kinds of card (checks, words,
constants of the models): the words are heard and the records measured once.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np

from diagnose.answers import PerturbedCase
from diagnose.batch import read_batch
from diagnose.casebook.case import Case
from diagnose.casebook.outcomes import NOTHING_NAMED
from diagnose.casebook.reach import Reach, outcomes_within, reach_of
from diagnose.casebook.watching import Watch, unwatched
from diagnose.consult import consult_on
from diagnose.documents import Number
from diagnose.knowledge import Cause, CircumstanceShares, Compound, Indicator, RuleBase

SEED = 1979
# Tables of shares carry no range of their own; each share is redrawn by up to this either way.
SHARE_DECIBANS = 2.0


def perturbed_firsts(
    rules: RuleBase,
    cases: Sequence[Case],
    today: date,
    draws: int,
    watch: Watch = unwatched,
) -> tuple[PerturbedCase, ...]:
    """For each case, how often its first outcome stays first over the redrawn rule bases.

    Args:
        rules: the rule base as it stands.
        cases: the cases; their records are read once and keep their findings.
        today: dates after this day are refused.
        draws: how many rule bases to draw; with none there is nothing to tell.
        watch: what may show how far it is.
    """
    if not draws:
        return ()
    batches = [read_batch(case.folder / "batch.yaml", today) for case in cases]
    reaches = [reach_of(rules, consult_on(rules, batch)) for batch in batches]
    firsts = [_first(rules, reach) for reach in reaches]
    counts: list[Counter[str]] = [Counter() for _ in cases]
    random = np.random.default_rng(SEED)
    for _ in watch(range(draws), "draws"):
        redrawn = redraw(rules, random)
        for count, reach in zip(counts, reaches, strict=True):
            count[_first(redrawn, reach)] += 1
    return tuple(
        _line(case, first, count) for case, first, count in zip(cases, firsts, counts, strict=True)
    )


def _first(rules: RuleBase, reach: Reach) -> str:
    outcomes = outcomes_within(rules, reach)
    return outcomes[0][0] if outcomes else NOTHING_NAMED


def _line(case: Case, first: str, count: Counter[str]) -> PerturbedCase:
    rivals = [(name, number) for name, number in count.most_common() if name != first]
    return PerturbedCase(
        case=case.card.id,
        first=first,
        kept=count[first] / max(sum(count.values()), 1),
        rival=rivals[0][0] if rivals else "",
    )


def redraw(rules: RuleBase, random: np.random.Generator) -> RuleBase:
    """The rule base with every judgement on a cause or a compound redrawn within its range."""
    return replace(
        rules,
        causes={key: _cause(card, random) for key, card in rules.causes.items()},
        compounds={key: _compound(card, random) for key, card in rules.compounds.items()},
    )


def _cause(card: Cause, random: np.random.Generator) -> Cause:
    return card.model_copy(
        update={
            "base_rate": _number(card.base_rate, random),
            "indicators": tuple(_indicator(one, random) for one in card.indicators),
            "circumstances": {
                key: _shares(table, random) for key, table in card.circumstances.items()
            },
        }
    )


def _compound(card: Compound, random: np.random.Generator) -> Compound:
    brings = card.brings.model_copy(
        update={
            "unexplained": _number(card.brings.unexplained, random),
            "yeast": _numbers(card.brings.yeast, random),
            "style": _numbers(card.brings.style, random),
        }
    )
    return card.model_copy(
        update={
            "brings": brings,
            "gives": _numbers(card.gives, random),
            "made_by": _numbers(card.made_by, random),
        }
    )


def _numbers(numbers: dict[str, Number], random: np.random.Generator) -> dict[str, Number]:
    return {key: _number(number, random) for key, number in numbers.items()}


def _number(number: Number, random: np.random.Generator) -> Number:
    if number.basis != "judgement" or number.low >= number.high:
        return number
    drawn = float(random.triangular(number.low, number.value, number.high))
    return number.model_copy(update={"value": drawn})


def _indicator(indicator: Indicator, random: np.random.Generator) -> Indicator:
    if indicator.basis != "judgement":
        return indicator
    shift = float(random.uniform(-indicator.give_or_take, indicator.give_or_take))
    return indicator.model_copy(
        update={
            "curve": tuple((value, weight + shift) for value, weight in indicator.curve),
            "values": {key: weight + shift for key, weight in indicator.values.items()},
        }
    )


def _shares(table: CircumstanceShares, random: np.random.Generator) -> CircumstanceShares:
    if table.basis != "judgement":
        return table
    factors = 10.0 ** (random.uniform(-SHARE_DECIBANS, SHARE_DECIBANS, len(table.shares)) / 10.0)
    drawn = {key: share * f for (key, share), f in zip(table.shares.items(), factors, strict=True)}
    total = sum(drawn.values())
    return table.model_copy(update={"shares": {key: part / total for key, part in drawn.items()}})
