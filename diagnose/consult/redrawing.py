"""The judgements on cause and compound cards, redrawn: how much hangs on our own guesses.

A number is drawn between its low and its high with its peak at its value, the points of an
indicator's curve move together within their give or take, and a share of a circumstance, which
has no range of its own, by up to `SHARE_DECIBANS` either way. What was published, derived or is
usual practice stays. So does the amount from which a compound is noticed, which counts with its
whole range already, and so do the judgements beside the two kinds of card (checks, words,
constants of the models): the words are heard and the records measured once.
"""

from dataclasses import replace

import numpy as np

from diagnose.documents import Number
from diagnose.knowledge import Cause, CircumstanceShares, Compound, Indicator, RuleBase

SEED = 1979
# Tables of shares carry no range of their own; each share is redrawn by up to this either way.
SHARE_DECIBANS = 2.0


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
