"""The fault that a split is about: its words, and every explanation with its chance."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats, Network
from diagnose.inference.ranking import Ranking
from diagnose.inference.unnamed import UNNAMED_GROUP
from diagnose.knowledge import RuleBase
from diagnose.trial.likelihood import LEAST_FIRES, MOST_FIRES

EXPECTED_HERE, NOT_IN_RULE_BASE = "expected_here", "not_in_rule_base"


@dataclass(frozen=True)
class SuspectedFault:
    """One group of words and what may be behind it.

    `explanations` are the causes by id, then the beer's own share and the unknown; `shares`
    (n,) their chances. `compounds` are the ids of those that may carry the words.
    """

    words: tuple[str, ...]
    explanations: tuple[str, ...]
    shares: Floats
    compounds: tuple[str, ...]
    network: Network

    @property
    def named(self) -> bool:
        """Whether somebody put a flavour word to it."""
        return self.words != UNNAMED_GROUP

    def place(self, explanation: str) -> int:
        """Where an explanation stands in `shares`."""
        return self.explanations.index(explanation)

    def share(self, explanation: str) -> float:
        """The chance of an explanation."""
        return float(self.shares[self.place(explanation)])

    def fires(self, cause: str) -> float:
        """The chance that the fault shows in the suspect arm if the cause is responsible.

        It is that of at least one of the cause's links into the fault's compounds.
        """
        links = [
            self.network.strength[self.network.cause_index[cause], self.network.compound_index[one]]
            for one in self.compounds
        ]
        silent = float(np.prod([1.0 - link for link in links]))
        return min(max(1.0 - silent, LEAST_FIRES), MOST_FIRES)


def faults_in(ranking: Ranking) -> tuple[SuspectedFault, ...]:
    """The groups of words of a ranking, each with its explanations."""
    structure = ranking.structure
    network = structure.network
    every = tuple(range(len(network.compounds)))
    groups = structure.group_compounds or (frozenset(every),)
    return tuple(
        SuspectedFault(
            words=words,
            explanations=(*network.causes, EXPECTED_HERE, NOT_IN_RULE_BASE),
            shares=ranking.shares[0, place],
            compounds=tuple(network.compounds[j] for j in sorted(groups[place])),
            network=network,
        )
        for place, words in enumerate(structure.groups)
    )


def fault_of_cause(faults: tuple[SuspectedFault, ...], cause: str) -> SuspectedFault:
    """The fault for which the cause is likeliest to be responsible."""
    return max(faults, key=lambda fault: fault.share(cause))


def loudest_word(rules: RuleBase, fault: SuspectedFault, cause: str) -> str:
    """The word of the fault that the cause's compounds give most readily."""

    def strength(word: str) -> float:
        found = [
            compound.made_by[cause].value * compound.gives[word].value
            for name in fault.compounds
            if cause in (compound := rules.compounds[name]).made_by and word in compound.gives
        ]
        return max(found, default=0.0)

    return max(fault.words, key=lambda word: (strength(word), word))


def names_of(rules: RuleBase) -> Mapping[str, str]:
    """Every explanation by id, as it is shown."""
    own = {EXPECTED_HERE: "Expected here", NOT_IN_RULE_BASE: "Something not in the rule base"}
    return {**{key: cause.name for key, cause in rules.causes.items()}, **own}
