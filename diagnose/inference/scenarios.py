"""Many sets of evidence over one structure, as columns that are solved together."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from diagnose.evidence.pieces import Evidence
from diagnose.inference.groups import compounds_behind, groups_of
from diagnose.inference.held import held_by
from diagnose.inference.network import Floats, Network
from diagnose.inference.plan import Plan, plan_sweep


@dataclass(frozen=True)
class Structure:
    """What a sweep runs over: the touched compounds, the reported words and their groups.

    `behind` are the compounds with a reported descriptor among their children, over all
    groups; `group_compounds` the same for each group.
    """

    network: Network
    plan: Plan
    compounds: tuple[int, ...]
    words: tuple[int, ...]
    absent: tuple[int, ...]
    reported: frozenset[int]
    behind: frozenset[int]
    groups: tuple[tuple[str, ...], ...]
    group_compounds: tuple[frozenset[int], ...]

    @cached_property
    def speakers(self) -> Mapping[int, frozenset[int]]:
        """The compounds through which causes may speak: they make them and they are behind."""
        behind = sorted(self.behind)
        through: dict[int, list[int]] = {}
        for cause, place in np.argwhere(self.network.strength[:, behind] > 0.0).tolist():
            through.setdefault(cause, []).append(behind[place])
        return {cause: frozenset(some) for cause, some in through.items()}


def structure_of(network: Network, evidence: Evidence, asked: Sequence[str] = ()) -> Structure:
    """The structure that all scenarios about this evidence share.

    Args:
        network: the network.
        evidence: its reported words set the groups; its judged words and weighed compounds
            set what is touched.
        asked: descriptors of which some scenario says something else.
    """
    judged = tuple(dict.fromkeys([*evidence.judged, *asked]))
    reported = evidence.reported
    weighed = {network.compound_index[name] for p in evidence.pieces for name in p.present}
    touched = tuple(sorted(set(compounds_behind(network, judged)) | weighed))
    absent = {word for word in judged if word not in asked and _surely_absent(evidence, word)}
    soft = [network.descriptor_index[word] for word in judged if word not in absent]
    hard = [network.descriptor_index[word] for word in judged if word in absent]
    groups = groups_of(network, reported)
    behind = tuple(frozenset(compounds_behind(network, words)) for words in groups)
    return Structure(
        network=network,
        plan=plan_sweep(network, touched, soft),
        compounds=touched,
        words=tuple(soft),
        absent=tuple(hard),
        reported=frozenset(network.descriptor_index[word] for word in reported),
        behind=frozenset().union(*behind),
        groups=groups,
        group_compounds=behind,
    )


def speaking_only(structure: Structure, reported: tuple[str, ...]) -> Structure:
    """The structure in which only these of the reported words speak for a cause."""
    network = structure.network
    groups = groups_of(network, reported)
    behind = tuple(frozenset(compounds_behind(network, some)) for some in groups)
    return replace(
        structure,
        reported=frozenset(network.descriptor_index[word] for word in reported),
        behind=frozenset().union(*behind),
        groups=groups,
        group_compounds=behind,
    )


def _surely_absent(evidence: Evidence, word: str) -> bool:
    said = [piece.words[word] for piece in evidence.pieces if word in piece.words]
    return bool(said) and all(on == 0.0 and off == 1.0 for off, on in said)


@dataclass(frozen=True)
class Scenarios:
    """Weights of every scenario (column), over the whole network.

    Shapes, with c columns: `off`, `on` (c, causes); `present` (c, compounds), the weight of a
    compound being on; `said` (c, descriptors, 2), likelihoods if not there and if there.
    """

    off: Floats
    on: Floats
    present: Floats
    said: Floats

    @property
    def columns(self) -> int:
        """How many scenarios there are."""
        return int(self.off.shape[0])

    def part(self, columns: slice) -> "Scenarios":
        """Some of the columns."""
        return Scenarios(
            self.off[columns],
            self.on[columns],
            self.present[columns],
            self.said[columns],
        )


def scenarios_of(network: Network, evidences: Sequence[Evidence]) -> Scenarios:
    """One column for each set of evidence; what speaks of responsibility is left to `rank`."""
    held = held_by([evidence.pieces for evidence in evidences])
    log_on = held.added([piece.happened for piece in held.pieces], network.cause_index)
    log_present = held.added([piece.present for piece in held.pieces], network.compound_index)
    said = np.ones((len(evidences), len(network.descriptors), 2))
    possible = np.ones(log_on.shape)
    for column, evidence in enumerate(evidences):
        for name in evidence.impossible:
            possible[column, network.cause_index[name]] = 0.0
        for piece in evidence.pieces:
            for word, likelihoods in piece.words.items():
                said[column, network.descriptor_index[word]] *= likelihoods
    rate = network.base_rate * possible
    return Scenarios(
        off=1.0 - rate,
        on=rate * 10.0 ** (log_on / 10.0),
        present=10.0 ** (log_present / 10.0),
        said=said,
    )
