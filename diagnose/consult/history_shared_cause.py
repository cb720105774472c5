"""The model's own view across batches: have the flawed ones a cause in common, and which?

The chances are those of a list in which every entry could be true: each cause of the rule base,
something that is not in it, what yeast and style bring, or no cause in common at all. What the
flawed batches suggest one by one, on average, counts once, however many they are, as the habits
of one brewer are in all of them. What grows with their number is only the pattern: that the
measures speak for the cause in the flawed batches and not in the clean ones.
"""

import math
from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass

import numpy as np

from diagnose.answers.chances import odds_text
from diagnose.answers.history_looking import SharedCauseLine, SharedCauses
from diagnose.consult.history_looking_batch import Told, told_of
from diagnose.consult.history_looking_figures import figures_of
from diagnose.history.brews import Brew
from diagnose.history.statistics.columns import Column, Flags
from diagnose.history.statistics.pattern import pattern_log_ratio
from diagnose.inference.network import Floats
from diagnose.inference.ranking import rank
from diagnose.knowledge import RuleBase, paths_between

# The latest flawed batches that are looked at, each of which takes a solve of its own, and the
# clean ones of the same time.
MOST_FLAWED = 25
MOST_CLEAN = 75
_SHOWN = 5
# Fits that differ by rounding only are the same.
_SAME = 1e-9
# Log odds that leave no doubt; what does not fit is for the misfits.
_SURE = 20.0
_NEPERS_PER_DECIBAN = math.log(10.0) / 10.0


Batches = tuple[Sequence[Brew], Flags]


@dataclass(frozen=True)
class CauseOverBatches:
    """Shares (n,) of the causes that can give the flaw, and of what else there may be.

    `shares`, `none`, `unknown` and `own` sum to 1. `alone` (n,) are the mean shares of the causes
    in the flawed batches one by one, `pattern` (n,) the log likelihood ratios of the pattern of
    flawed and clean batches. `goes_with` are the columns that fit the pattern best, for what is
    not in the rule base.
    """

    causes: tuple[str, ...]
    shares: Floats
    alone: Floats
    pattern: Floats
    none: float
    unknown: float
    own: float
    goes_with: tuple[Column, ...]


def causes_that_give(rules: RuleBase, flaw: Set[str]) -> tuple[str, ...]:
    """The causes that can make any of these flavours."""
    return tuple(
        cause
        for cause in sorted(rules.causes)
        if any(paths_between(rules, cause, word) for word in flaw)
    )


def shared_causes(
    rules: RuleBase, flaw: Set[str], batches: Batches, columns: Sequence[Column]
) -> SharedCauses | None:
    """What the flawed batches may have in common; None where nothing can be said.

    Args:
        rules: the rule base.
        flaw: descriptor ids.
        batches: the tasted batches in brewing order, and which of them are flawed.
        columns: what was logged of the batches, in the same order.
    """
    brews, flawed = batches
    places = _looked_at(flawed)
    some = [brews[place] for place in places]
    found = over_batches(rules, flaw, (some, flawed[places]), [_part(c, places) for c in columns])
    if found is None:
        return None
    order = sorted(range(len(found.causes)), key=lambda i: (-found.shares[i], found.causes[i]))
    return SharedCauses(
        flawed=int(flawed[places].sum()),
        clean=int((~flawed[places]).sum()),
        none=found.none,
        unknown=found.unknown,
        own=found.own,
        goes_with=tuple(one.name for one in found.goes_with),
        causes=tuple(_line(rules, found, i) for i in order[:_SHOWN] if found.shares[i] > 0.0),
    )


def _looked_at(flawed: Flags) -> list[int]:
    """Places of the latest flawed batches and of clean ones spread over the same time."""
    bad = np.flatnonzero(flawed)[-MOST_FLAWED:]
    first = bad[0] if np.count_nonzero(flawed) > MOST_FLAWED else 0
    good = np.flatnonzero(~flawed[first:]) + first
    if good.size > MOST_CLEAN:
        good = good[np.linspace(0, good.size - 1, MOST_CLEAN).round().astype(np.int64)]
    return [int(place) for place in sorted([*bad, *good])]


def _part(column: Column, places: list[int]) -> Column:
    return Column(column.factor, column.word, column.values[places], column.logged[places])


def _line(rules: RuleBase, found: CauseOverBatches, index: int) -> SharedCauseLine:
    cause = found.causes[index]
    return SharedCauseLine(
        id=cause,
        name=rules.causes[cause].name,
        share=float(found.shares[index]),
        odds=odds_text(float(found.shares[index])),
        alone=float(found.alone[index]),
        pattern_decibans=float(found.pattern[index]) / _NEPERS_PER_DECIBAN,
    )


def over_batches(
    rules: RuleBase, flaw: Set[str], batches: Batches, columns: Sequence[Column]
) -> CauseOverBatches | None:
    """The chances of all that the flawed batches may have in common.

    Args:
        rules: the rule base.
        flaw: descriptor ids.
        batches: the batches, each of which takes a solve if it is flawed, and which are.
        columns: what was logged of the batches.
    """
    brews, flawed = batches
    causes = causes_that_give(rules, flaw)
    if not causes or not flawed.any():
        return None
    figures = figures_of(rules)
    told = [told_of(rules, one, flaw) for one in brews]
    bad = [one for one, is_bad in zip(told, flawed, strict=True) if is_bad]
    alone, own, unknown = _one_by_one(bad, causes)
    most, misfit = figures["shared_cause_most_decibans"], figures["shared_cause_misfit"]
    signs = np.array([_signs(one, causes, most) for one in told])
    pattern = np.array([pattern_log_ratio(column, flawed, misfit) for column in signs.T])
    factors = [one for one in columns if one.word is not None and one.factor not in rules.measures]
    fits, goes_with = _unknown_fits(factors, flawed, figures)
    shared = np.array([*(alone * np.exp(pattern)), unknown * fits, own])
    before = figures["shared_cause_before"]
    weights = np.append(before * shared, 1.0 - before)
    shares = weights / weights.sum()
    return CauseOverBatches(
        causes=causes,
        shares=shares[:-3],
        alone=alone,
        pattern=pattern,
        unknown=float(shares[-3]),
        own=float(shares[-2]),
        none=float(shares[-1]),
        goes_with=goes_with,
    )


def _one_by_one(told: Sequence[Told], causes: Sequence[str]) -> tuple[Floats, float, float]:
    """Mean share of each cause in these batches, of yeast and style, and of the unknown."""
    shares = np.mean(
        [rank(one.network, [one.evidence]).shares[0].mean(axis=0) for one in told], axis=0
    )
    at = [told[0].network.cause_index[cause] for cause in causes]
    return shares[at], float(shares[-2]), float(shares[-1])


def _signs(told: Told, causes: Sequence[str], most_decibans: float) -> list[float]:
    """What the measures of one batch say of each cause at work in it, as log ratios."""
    said, possible = dict.fromkeys(causes, 0.0), dict.fromkeys(causes, 0.0)
    for piece in told.evidence.pieces:
        weighed = possible if piece.kind == "unlogged" else said
        for cause in weighed.keys() & piece.happened.keys():
            weighed[cause] += piece.happened[cause]
    return [
        -math.inf
        if cause in told.evidence.impossible
        else _NEPERS_PER_DECIBAN
        * (max(-most_decibans, min(most_decibans, said[cause])) + possible[cause])
        for cause in causes
    ]


def _unknown_fits(
    factors: Sequence[Column], flawed: Flags, figures: Mapping[str, float]
) -> tuple[float, tuple[Column, ...]]:
    """How well a cause that the rule base lacks fits the pattern, and what it would go with.

    It may go with something that was logged, any of the factors alike, being at work where the
    batch has its word; or with nothing that was, and then it says nothing of the pattern.
    """
    logged, misfit = figures["shared_cause_unknown_logged"], figures["shared_cause_misfit"]
    signs = [
        np.where(one.logged, np.where(one.values.astype(bool), _SURE, -_SURE), 0.0)
        for one in factors
    ]
    fits = np.array([pattern_log_ratio(one, flawed, misfit) for one in signs])
    if not fits.size:
        return 1.0, ()
    best = float(fits.max())
    goes_with = tuple(
        one for one, fit in zip(factors, fits, strict=True) if fit > max(0.0, best - _SAME)
    )
    return 1.0 - logged + logged * float(np.exp(fits).mean()), goes_with
