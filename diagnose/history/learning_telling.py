"""By which words a cause is told, how often it is, and how often they are told without it."""

import math
from collections.abc import Mapping, Set
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from diagnose.history.brews import Measured
from diagnose.inference.network import Floats, Network, network_of
from diagnose.knowledge import Cause, RuleBase

# A word stands for a cause if the cause, once it acts, gives it at least so often; else the one
# it gives most often. Judgement: rarer words say little and are told for many other reasons.
TELLING: Final = 0.2


@dataclass(frozen=True)
class Telling:
    """How a cause is told: by which words, how often if it acts, how often if it does not."""

    words: frozenset[str]
    caught: float
    anyway: float


class Tellings:
    """What the rule base expects to hear of each cause, in a beer of no special style."""

    def __init__(self, rules: RuleBase) -> None:
        """Ready the network; each cause is worked out when it is asked for."""
        self.rules = rules
        self.network: Network = network_of(rules, None, None)
        self._known: dict[str, Telling] = {}

    def of(self, cause: str) -> Telling:
        """How a cause is told."""
        if cause not in self._known:
            strength = self.network.strength[self.network.cause_index[cause]]
            words = self._words(1.0 - np.prod(1.0 - strength[:, None] * self.network.gives, axis=0))
            caught = 1.0 - float(np.prod(1.0 - strength * self.gives_any(words)))
            self._known[cause] = Telling(words, caught, self.anyway(words, cause))
        return self._known[cause]

    def words_of(self, compound: str) -> frozenset[str]:
        """The words by which a compound is told."""
        return self._words(self.network.gives[self.network.compound_index[compound]])

    def gives_any(self, words: Set[str]) -> Floats:
        """For each compound (m,), the chance that it gives any of the words once it is noticed."""
        at = [self.network.descriptor_index[word] for word in sorted(words)]
        chance: Floats = 1.0 - np.prod(1.0 - self.network.gives[:, at], axis=1)
        return chance

    def anyway(self, words: Set[str], apart_from: str | None = None) -> float:
        """The chance that any of the words is told of a batch, whatever else is true of it.

        Args:
            words: descriptor ids.
            apart_from: a cause that did not act.
        """
        at = [self.network.descriptor_index[word] for word in sorted(words)]
        quiet = np.prod(1.0 - self.present(apart_from) * self.gives_any(words))
        return 1.0 - float(quiet * np.prod(1.0 - self.network.wrong_word[at]))

    def present(self, apart_from: str | None = None) -> Floats:
        """For each compound (m,), the chance that it is noticeable without that cause."""
        absent = self._absent
        if apart_from is not None:
            index = self.network.cause_index[apart_from]
            absent = absent - self._log_absent[index]
        chance: Floats = 1.0 - np.exp(absent)
        return chance

    @cached_property
    def _log_absent(self) -> Floats:
        rates = self.network.base_rate * [
            possible_share(self.rules, self.rules.causes[cause], {})
            for cause in self.network.causes
        ]
        logs: Floats = np.log1p(-rates[:, None] * self.network.strength)
        return logs

    @cached_property
    def _absent(self) -> Floats:
        absent: Floats = self._log_absent.sum(axis=0) + np.log1p(-self.network.unexplained)
        return absent

    def _words(self, chances: Floats) -> frozenset[str]:
        least = min(TELLING, float(chances.max()))
        found = np.nonzero((chances >= least) & (chances > 0.0))[0]
        return frozenset(self.network.descriptors[index] for index in found)


def possible_share(rules: RuleBase, cause: Cause, measures: Mapping[str, Measured]) -> float:
    """The chance that a cause was possible in a batch: 0, 1, or the usual share if not logged."""
    share = 1.0
    for condition in cause.possible_when:
        found = measures.get(condition.measure)
        if isinstance(found, str):
            share *= 1.0 if found in condition.any_of else 0.0
        else:
            typical = rules.measures[condition.measure].typical
            share *= math.fsum(part for value, part in typical if value in condition.any_of)
    return share
