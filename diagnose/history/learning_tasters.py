"""How often each taster notices a compound, from spiked glasses and from tasting with others.

In a forced choice the chance of being right by luck is taken off. A batch counts where a cause
of the compound is judged to have acted and another taster, not this one, named one of the
compound's words: whoever brought the fault up would otherwise look as if nothing escaped them.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from diagnose.errors import UnusableInput
from diagnose.history.brews import Brew
from diagnose.history.kinds import TasterResult
from diagnose.history.learning_beta import Spread, after_likelihood, points, rest
from diagnose.history.learning_facts import CONFIRMED_FROM, Judged, Taught
from diagnose.history.learning_telling import Tellings
from diagnose.knowledge import Compound, RuleBase, fold
from diagnose.sensory.methods import method_named

# What people in general notice counts for so many glasses against a taster's own. Judgement:
# tasters differ widely, so it is soon outweighed.
PEOPLE_WEIGHT: Final = 4.0


@dataclass(frozen=True)
class TasterMoved:
    """A taster's chance of noticing a compound that is there, before and after.

    `right` of `trials` in spiked glasses asked as a forced choice; `named` of `shared` batches.
    """

    taster: str
    compound: str
    before: Spread
    after: Spread
    right: int
    trials: int
    named: int
    shared: int


@dataclass(frozen=True)
class _Glasses:
    right: int
    trials: int
    guess: float


@dataclass(frozen=True)
class _Batch:
    """A batch in which the compound is believed to be there, and whether the taster named it."""

    there: float
    named: bool


def learn_tasters(
    tellings: Tellings, taught: Taught, judged: Sequence[Judged]
) -> tuple[TasterMoved, ...]:
    """Every taster and compound that was met, in the order of the alphabet."""
    glasses, batches = _glasses(tellings.rules, taught), _batches(tellings, taught, judged)
    return tuple(
        _moved(tellings, key, glasses.get(key, []), batches.get(key, []))
        for key in sorted(glasses.keys() | batches.keys())
    )


def _glasses(rules: RuleBase, taught: Taught) -> dict[tuple[str, str], list[_Glasses]]:
    found: dict[tuple[str, str], list[_Glasses]] = {}
    for panel in taught.panels:
        try:
            guess = method_named(panel.method).guess
        except UnusableInput:
            continue
        for one in panel.results:
            card = _compound(rules, one)
            if card is not None and one.correct <= one.trials:
                result = _Glasses(one.correct, one.trials, guess)
                found.setdefault((one.taster, card.id), []).append(result)
    return found


def _compound(rules: RuleBase, result: TasterResult) -> Compound | None:
    """What was added, where it is known and enough that somebody could notice it."""
    named = fold(result.compound or "")
    card = next((c for c in rules.compounds.values() if named in (fold(c.id), fold(c.name))), None)
    if card is None or card.noticed_from is None or result.dose is None:
        return card
    same_unit = result.dose_unit == card.noticed_from.unit
    return None if same_unit and result.dose < card.noticed_from.low else card


def _batches(
    tellings: Tellings, taught: Taught, judged: Sequence[Judged]
) -> dict[tuple[str, str], list[_Batch]]:
    brews = {one.key: one for one in taught.brews}
    found: dict[tuple[str, str], list[_Batch]] = {}
    for compound, card in sorted(tellings.rules.compounds.items()):
        words, there = tellings.words_of(compound), dict[str, float]()
        for one in judged:
            if one.cause in card.made_by and one.acted >= CONFIRMED_FROM:
                there[one.batch] = max(there.get(one.batch, 0.0), one.acted)
        for batch in sorted(there):
            for taster, named in _who_named(brews[batch], words).items():
                others = any(
                    n for who, n in _who_named(brews[batch], words).items() if who != taster
                )
                if taster and others:
                    found.setdefault((taster, compound), []).append(_Batch(there[batch], named))
    return found


def _who_named(brew: Brew, words: frozenset[str]) -> Mapping[str | None, bool]:
    """Whether each taster of a batch ever named one of the words."""
    named: dict[str | None, bool] = {}
    for one in brew.tastings:
        named[one.who] = named.get(one.who, False) or bool(words & one.reported.keys())
    return named


def _moved(
    tellings: Tellings,
    key: tuple[str, str],
    glasses: Sequence[_Glasses],
    batches: Sequence[_Batch],
) -> TasterMoved:
    words, at = tellings.words_of(key[1]), tellings.network.compound_index[key[1]]
    before = Spread(float(tellings.gives_any(words)[at]), PEOPLE_WEIGHT)
    anyway = tellings.anyway(words)
    log_likelihood = np.zeros_like(points())
    for row in sorted(glasses, key=lambda one: (one.guess, one.trials, one.right)):
        log_likelihood += row.right * np.log(row.guess + (1.0 - row.guess) * points())
        log_likelihood += (row.trials - row.right) * np.log((1.0 - row.guess) * rest())
    for one in sorted(batches, key=lambda one: (one.there, one.named)):
        named = one.there * points() + (1.0 - one.there) * anyway
        log_likelihood += np.log(named if one.named else 1.0 - named)
    return TasterMoved(
        *key,
        before,
        after_likelihood(before, log_likelihood),
        right=sum(row.right for row in glasses),
        trials=sum(row.trials for row in glasses),
        named=sum(one.named for one in batches),
        shared=len(batches),
    )
