"""What the passes back say at each visit: who happened, what is present, who spoke."""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from diagnose.inference.network import Floats
from diagnose.inference.plan import Step
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

    def note(self, weights: Weights, visit: Visit, *, look: bool, listen: bool) -> None:
        """Note down what the visit says.

        Args:
            weights: of the pass.
            visit: of the pass.
            look: who happened and what is present.
            listen: in which groups each cause of the visit spoke, and whether in all.
        """
        step = visit.stop.step
        if step.kind == "cause" and (look or listen):
            aside, acting = cause_sides(weights, visit)
            if look:
                self.happened[:, step.index] = acting / (aside + acting)
            if listen:
                self._listen_to_cause(weights, visit, acting, aside + acting)
        elif step.kind == "lone" and (look or listen):
            happened, spoke = lone_sides(visit).happened_and_spoke(weights.lone[step])
            if look:
                self.happened[:, step.causes] = happened
            if listen:
                self._listen_to_lone(step, spoke)
        elif step.kind == "close" and look:
            off, on = compound_sides(weights, visit)
            self.present[:, step.index] = on / (off + on)

    def _listen_to_cause(
        self, weights: Weights, visit: Visit, acting: Floats, total: Floats
    ) -> None:
        cause, groups = visit.stop.step.index, self.structure.group_compounds
        _, on = weights.causes[cause]
        speakers = self.structure.speakers.get(cause, NONE)
        found = {NONE: acting / total}

        def kept(compounds: frozenset[int]) -> Floats:
            quiet = compounds & speakers
            if quiet not in found:
                found[quiet] = on * kept_quiet(visit, quiet) / total
            return found[quiet]

        for place, group in enumerate(groups):
            if group & speakers:
                spoke = np.maximum(found[NONE] - kept(group), 0.0)
                self.responsible[:, place, cause] = spoke
        if not self.briefly:
            self.in_every_group[:, cause] = (
                self.responsible[:, 0, cause]
                if len(groups) == 1
                else _spoke_everywhere(groups, speakers, kept)
            )

    def _listen_to_lone(self, step: Step, spoke: Floats) -> None:
        """The same for lone causes, which speak through one compound, so in one group."""
        groups = self.structure.group_compounds
        for place, group in enumerate(groups):
            if step.index in group:
                self.responsible[:, place, step.causes] = spoke
        if len(groups) == 1 and not self.briefly:
            self.in_every_group[:, step.causes] = spoke


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
