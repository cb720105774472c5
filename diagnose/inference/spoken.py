"""What the passes back say at each visit: who happened, what is present, who spoke."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from diagnose.inference import operators as op
from diagnose.inference.network import Floats
from diagnose.inference.scenarios import Scenarios, Structure
from diagnose.inference.sweep import (
    NONE,
    Visit,
    cause_sides,
    compound_sides,
    kept_quiet,
    lone_sides,
)
from diagnose.inference.weights import Weights


@dataclass(frozen=True)
class Found:
    """The quantities of a `Posterior` that come from visits, filled in as they are found."""

    structure: Structure
    happened: Floats
    responsible: Floats
    in_every_group: Floats
    present: Floats
    briefly: bool

    @classmethod
    def empty(cls, structure: Structure, scenarios: Scenarios, briefly: bool) -> "Found":
        """Nothing found yet; causes that no step looks at happened as their weights say."""
        happened = scenarios.on / (scenarios.off + scenarios.on)
        columns, causes = happened.shape
        return cls(
            structure=structure,
            happened=np.full_like(happened, np.nan) if briefly else happened,
            responsible=np.zeros((columns, len(structure.groups), causes)),
            in_every_group=np.full_like(happened, np.nan) if briefly else np.zeros_like(happened),
            present=np.full(scenarios.present.shape, np.nan),
            briefly=briefly,
        )

    def look_at(self, weights: Weights, visit: Visit) -> None:
        """Note down what the visit says of its cause or its compound."""
        stop, before, after = visit
        unhushed = stop, before, op.without_hushed(after)
        if stop.step.kind == "cause":
            off, on = cause_sides(weights, unhushed)
            self.happened[:, stop.step.index] = on / (off + on)
        elif stop.step.kind == "lone":
            sides = lone_sides(unhushed)
            self.happened[:, list(stop.step.causes)] = sides.happened(weights.lone[stop.step])
        elif stop.step.kind == "close":
            off, on = compound_sides(weights, unhushed)
            self.present[:, stop.step.index] = on / (off + on)

    def listen_to(self, weights: Weights, visit: Visit) -> None:
        """Note down in which groups each cause of the visit spoke, and whether in all."""
        if visit[0].step.kind == "lone":
            self._listen_to_lone(weights, visit)
        else:
            self._listen_to_cause(weights, visit)

    def _listen_to_cause(self, weights: Weights, visit: Visit) -> None:
        stop, before, after = visit
        cause, groups = stop.step.index, self.structure.group_compounds
        off, on = weights.causes[cause]
        aside = off * op.dot(before, op.without_hushed(after))
        acting = on * kept_quiet(visit, NONE)
        total = aside + acting
        speakers = self.structure.speakers(cause)

        def kept(compounds: frozenset[int]) -> Floats:
            if not compounds & speakers:
                return acting / total
            return on * kept_quiet(visit, compounds) / total

        for place, group in enumerate(groups):
            if group & speakers:
                spoke = np.maximum(acting / total - kept(group), 0.0)
                self.responsible[:, place, cause] = spoke
        if not self.briefly:
            self.in_every_group[:, cause] = (
                self.responsible[:, 0, cause]
                if len(groups) == 1
                else _spoke_everywhere(groups, speakers, kept)
            )

    def _listen_to_lone(self, weights: Weights, visit: Visit) -> None:
        """The same for lone causes, which speak through one compound, so in one group."""
        stop, groups = visit[0], self.structure.group_compounds
        lone, sides, causes = weights.lone[stop.step], lone_sides(visit), list(stop.step.causes)
        spoke = np.maximum(sides.happened(lone) * (1.0 - sides.quiet_share(lone)), 0.0)
        for place, group in enumerate(groups):
            if stop.step.index in group:
                self.responsible[:, place, causes] = spoke
        if len(groups) == 1 and not self.briefly:
            self.in_every_group[:, causes] = spoke


def _spoke_everywhere(
    groups: tuple[frozenset[int], ...],
    speakers: frozenset[int],
    kept: Callable[[frozenset[int]], Floats],
) -> Floats:
    """Probability of speaking in every group, by inclusion and exclusion over the groups."""
    total = kept(NONE)
    if any(not group & speakers for group in groups):
        return np.zeros_like(total)
    for number in range(1, len(groups) + 1):
        for some in combinations(groups, number):
            total = total + (-1.0) ** number * kept(frozenset().union(*some))
    return np.clip(total, 0.0, 1.0)
