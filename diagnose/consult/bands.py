"""How far each chance moves when the rule base's own guesses are redrawn: a band on each bar."""

from collections.abc import Sequence

import numpy as np

from diagnose.answers import ChanceRange, Diagnosis, FaultGroup, RankedCause
from diagnose.consult.gathering import Consultation
from diagnose.consult.reaching import near_rules, ranking_near, reach_of
from diagnose.consult.redrawing import SEED, redraw
from diagnose.inference.network import Floats
from diagnose.knowledge import RuleBase

DRAWS = 60
# The band holds the middle eight tenths of the draws.
LOW_PERCENT, HIGH_PERCENT = 10.0, 90.0


def with_bands(rules: RuleBase, consultation: Consultation, diagnosis: Diagnosis) -> Diagnosis:
    """The diagnosis with the range of every shown chance; the same digits each time.

    Args:
        rules: the rule base.
        consultation: the batch.
        diagnosis: what came of it.
    """
    if not diagnosis.faults:
        return diagnosis
    reach = reach_of(rules, consultation)
    near, random = near_rules(rules, reach), np.random.default_rng(SEED)
    rankings = [ranking_near(redraw(near, random), reach) for _ in range(DRAWS)]
    places = rankings[0].structure.network.cause_index
    shares = np.array([ranking.responsible[0] for ranking in rankings])
    ranges: Floats = np.percentile(shares, [LOW_PERCENT, HIGH_PERCENT], axis=0)
    faults = tuple(
        _banded(group, {name: ranges[:, number, place] for name, place in places.items()})
        for number, group in enumerate(diagnosis.faults)
    )
    return diagnosis.model_copy(update={"faults": faults})


def _banded(group: FaultGroup, ranges: "dict[str, Floats]") -> FaultGroup:
    causes = tuple(_with_range(cause, ranges.get(cause.id, (0.0, 0.0))) for cause in group.causes)
    return group.model_copy(update={"causes": causes})


def _with_range(cause: RankedCause, ends: "Sequence[float] | Floats") -> RankedCause:
    """The cause with its range, which always holds the chance as our guesses stand."""
    low, high = (float(end) for end in ends)
    held = ChanceRange(low=min(low, cause.responsible), high=max(high, cause.responsible))
    return cause.model_copy(update={"responsible_range": held})
