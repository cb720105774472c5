"""The chance that a panel finds a difference that is there."""

import numpy as np
from numpy.typing import NDArray

from diagnose.sensory.criticals import least_right
from diagnose.sensory.distributions import Numbers, at_least, at_most
from diagnose.sensory.methods import Method
from diagnose.sensory.psychometric import share_from_able, share_right
from diagnose.sensory.refusing import require_alpha, require_answers


def chance_to_find(method: Method, answers: int, alpha: float, share: float) -> float:
    """The chance that a panel shows a difference (power).

    Args:
        method: the test.
        answers: number of answers.
        alpha: highest risk of a false alarm.
        share: true chance of a right answer.

    Returns:
        Power, exact.

    Raises:
        UnusableInput: no tasters, or an alpha that decides nothing.
    """
    require_answers(answers)
    require_alpha(alpha)
    return float(chances_to_find(method, np.array([answers]), alpha, share)[0])


def chances_to_find(
    method: Method, answers: NDArray[np.int_], alpha: float, share: float
) -> Numbers:
    """Power of many panel sizes at once; arguments as for `chance_to_find`."""
    least = least_right(method, answers, alpha)
    found = np.asarray(at_least(least, answers, share), dtype=float)
    if method.two_sided:
        found = found + np.where(least > answers, 0.0, at_most(answers - least, answers, share))
    return found


def power_by_dprime(method: Method, answers: int, alpha: float, dprime: float) -> float:
    """The chance that a panel finds a difference of size d'; see `chance_to_find`."""
    return chance_to_find(method, answers, alpha, float(share_right(method, dprime)))


def power_by_able(method: Method, answers: int, alpha: float, able: float) -> float:
    """The chance that a panel finds a difference that a share of tasters can taste."""
    return chance_to_find(method, answers, alpha, share_from_able(method, able))
