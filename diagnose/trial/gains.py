"""What a split may teach: expected information about the ranking, in bits."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats
from diagnose.inference.ranking import entropy_bits
from diagnose.sensory import Method
from diagnose.trial.likelihood import (
    MOST_FIRES,
    Readout,
    both,
    harmless_after_alike,
    readout_of_panel,
    readout_of_patterns,
)

# A provoked arm is pushed until the fault would show nine times in ten. Practice.
PROVOKED_FIRES = 0.9


def shares_after(shares: Floats, ratios: Mapping[int, float]) -> Floats:
    """The ranking once the odds of some explanations have changed.

    Args:
        shares: chances of every explanation of the fault, shape (n,), summing to 1.
        ratios: likelihood ratio by place.

    Returns:
        Chances after, shape (n,). Explanations exclude one another, so this is Bayes' rule.
    """
    after = np.array(shares, dtype=float)
    for place, ratio in ratios.items():
        after[place] *= ratio
    scaled: Floats = after / after.sum()
    return scaled


def expected_bits(shares: Floats, readouts: Mapping[int, Readout]) -> float:
    """Expected information of a split about which explanation is right.

    Args:
        shares: chances of every explanation, shape (n,).
        readouts: for each suspect that the split bears on, by place, its readout over the same
            results; several for a bundle.

    Returns:
        Bits: the entropy of the mean ranking afterwards less the mean entropy; never negative.
    """
    first = next(iter(readouts.values()))
    chance = np.repeat(first.if_not[:, None], len(shares), axis=1)
    ratio = np.ones_like(chance)
    for place, readout in readouts.items():
        chance[:, place], ratio[:, place] = readout.if_so, readout.ratio
    total = chance @ shares
    after = ratio * shares
    after = after / after.sum(axis=1, keepdims=True)
    bits = float(entropy_bits(total @ after) - total @ entropy_bits(after))
    return max(bits, 0.0)


@dataclass(frozen=True)
class Worth:
    """One way to strengthen a split, and the bits that it would give."""

    what: str
    bits: float


def worth_of_more(
    shares: Floats, place: int, method: Method, answers: int, chances: tuple[float, float]
) -> tuple[Worth, ...]:
    """What replicates and controls are worth, beside the split as planned.

    Args:
        shares: chances of every explanation.
        place: the suspect's place in them.
        method: the test.
        answers: number of answers.
        chances: that the fault fires if the suspect is responsible, and that the arms differ
            harmlessly.
    """
    fires, harmless = chances

    def bits(readout: Readout) -> float:
        return expected_bits(shares, {place: readout})

    plain = readout_of_panel(method, answers, fires, harmless)
    pushed = readout_of_panel(method, answers, max(fires, PROVOKED_FIRES), harmless)
    calm = readout_of_panel(method, answers, fires, harmless_after_alike(harmless, 0, 2))
    more = readout_of_panel(method, 2 * answers, fires, harmless)
    found = [
        Worth("one pair of vessels, as planned", bits(plain)),
        Worth("the same pair tasted twice as often", bits(more)),
        Worth("a second pair of vessels, tasted as often again", bits(both(plain, plain))),
        Worth("two A/A splits first, if both come out alike", bits(calm)),
        Worth(
            "each arm judged against a clean reference (at best)", bits(readout_of_patterns(fires))
        ),
    ]
    if fires < min(PROVOKED_FIRES, MOST_FIRES):
        found.append(Worth("the suspect setting pushed until it surely shows", bits(pushed)))
    return tuple(found)
