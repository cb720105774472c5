"""From a tasting to a cause: what the answers say of the suspect, with both nuisances counted."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from diagnose.inference.network import Floats
from diagnose.sensory import Method, bayes_reading

# One split may move the odds of a cause by no more than this, either way: it guards against a
# wrong guess of the two chances below. Practice.
STRONGEST_RATIO = 20.0
# Two beers that differ harmlessly: rare where the taster is asked for the fault by its name,
# commoner where any difference counts. Practice.
HARMLESS_DIRECTED, HARMLESS_UNDIRECTED = 0.05, 0.15
LEAST_FIRES, MOST_FIRES = 0.05, 0.95


def ratio_on_cause(factor: float, fires: float, harmless: float) -> float:
    """How a tasting changes the odds that the cause is responsible.

    Args:
        factor: the Bayes factor for a difference between the arms.
        fires: chance that the fault shows in the suspect arm if the cause is responsible.
        harmless: chance that the arms differ noticeably though it is not.

    Returns:
        Likelihood ratio, kept within 1/20 to 20.

    Source: two nuisances mixed into the likelihoods of a difference and of none; the same prior
        on d' serves for a fault and for a harmless difference. Deviation: a fault comes on top of
        what differs harmlessly, so `fires` counts as `harmless` at least.
    """
    fires = max(fires, harmless)
    ratio = (fires * factor + 1.0 - fires) / (harmless * factor + 1.0 - harmless)
    return min(max(ratio, 1.0 / STRONGEST_RATIO), STRONGEST_RATIO)


def reach_of_ratio(fires: float, harmless: float) -> tuple[float, float]:
    """The lowest and the highest ratio that any tasting of one pair can give."""
    fires = max(fires, harmless)
    ends = ((1.0 - fires) / (1.0 - harmless), fires / harmless)
    low, high = min(ends), max(ends)
    return max(low, 1.0 / STRONGEST_RATIO), min(high, STRONGEST_RATIO)


def harmless_by_test(directed: bool) -> float:
    """Chance of a harmless difference before anything is known of the two arms."""
    return HARMLESS_DIRECTED if directed else HARMLESS_UNDIRECTED


# An A/A split counts as one observation beside this many imagined ones. Judgement.
_IMAGINED = 4.0


def harmless_after_alike(harmless: float, differed: int, tasted: int) -> float:
    """Chance of a harmless difference after splits whose two halves were treated alike.

    Args:
        harmless: the chance before.
        differed: how many of these A/A splits came out different.
        tasted: how many there were.

    Returns:
        The mean of a Beta posterior.
    """
    return (harmless * _IMAGINED + differed) / (_IMAGINED + tasted)


@dataclass(frozen=True)
class Readout:
    """Every possible result of a split.

    `if_so` and `if_not` are the chances of each result if the cause is responsible and if it
    is not, `ratio` what the result does to its odds; all of one shape.
    """

    if_so: Floats
    if_not: Floats
    ratio: Floats


def readout_of_panel(method: Method, answers: int, fires: float, harmless: float) -> Readout:
    """The results of one panel on one pair of vessels, by the number of right answers.

    Args:
        method: the test; not a two-sided one.
        answers: number of answers.
        fires: as for `ratio_on_cause`.
        harmless: as for `ratio_on_cause`.
    """
    fires = max(fires, harmless)
    luck, factor = _luck_and_factor(method, answers)
    if_so = luck * (fires * factor + 1.0 - fires)
    if_not = luck * (harmless * factor + 1.0 - harmless)
    return Readout(if_so, if_not, np.array([ratio_on_cause(f, fires, harmless) for f in factor]))


@lru_cache(maxsize=64)
def _luck_and_factor(method: Method, answers: int) -> tuple[Floats, Floats]:
    """For every count of right answers its chance by luck, and its Bayes factor."""
    chance = np.array([1.0])
    for _ in range(answers):
        longer = np.zeros(chance.size + 1)
        longer[:-1] += chance * (1.0 - method.guess)
        longer[1:] += chance * method.guess
        chance = longer
    factors = [bayes_reading(method, right, answers).factor for right in range(answers + 1)]
    return chance, np.array(factors)


def both(one: Readout, other: Readout) -> Readout:
    """The results of two independent splits, each read by itself."""
    return Readout(
        np.outer(one.if_so, other.if_so).ravel(),
        np.outer(one.if_not, other.if_not).ravel(),
        np.outer(one.ratio, other.ratio).ravel(),
    )


# If the cause fired, the fault is gone from the other arm but for this; if another cause is
# behind it, the other arm has it too, this often. Practice.
STAYS, SHARED = 0.05, 0.9
PATTERNS = ("suspect", "both", "neither", "other")


def readout_of_patterns(fires: float) -> Readout:
    """Each arm judged against a clean reference without error: which of the arms has the fault.

    Args:
        fires: chance that the fault shows in the suspect arm, whatever makes it.

    Returns:
        Results in the order of `PATTERNS`.
    """
    if_so = np.array([fires * (1.0 - STAYS), fires * STAYS, 1.0 - fires, 0.0])
    if_not = np.array([fires * (1.0 - SHARED), fires * SHARED, 1.0 - fires, 0.0])
    return Readout(if_so, if_not, np.array([ratio_of_pattern(one) for one in PATTERNS]))


def ratio_of_pattern(pattern: str) -> float:
    """What it says of the suspect that one arm, both or neither has the fault.

    A fault in neither arm taught nothing; one in the other arm alone points to a mix-up.
    """
    ratios = {"suspect": (1.0 - STAYS) / (1.0 - SHARED), "both": STAYS / SHARED}
    return max(ratios.get(pattern, 1.0), 1.0 / STRONGEST_RATIO)
