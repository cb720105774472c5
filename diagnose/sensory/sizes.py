"""How many answers to plan for, and which numbers of tasters are worse than fewer."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from diagnose.sensory.criticals import least_right
from diagnose.sensory.distributions import Numbers, at_least
from diagnose.sensory.methods import Method
from diagnose.sensory.power import chances_to_find
from diagnose.sensory.refusing import require_alpha, require_answers, require_share

Reaches = Callable[[NDArray[np.int_]], NDArray[np.bool_]]
_FEWEST = 3
# A search beyond this would help nobody: no club has so many mouths.
_LONGEST_SEARCH = 65_536


@dataclass(frozen=True)
class PanelSize:
    """One number of answers: the limit, its exact risk of a false alarm, and the power."""

    answers: int
    least_right: int
    exact_alpha: float
    power: float


@dataclass(frozen=True)
class Sizes:
    """What to plan for.

    `first` is the fewest answers that reach the power, `safe` the number from which every
    larger one reaches it too; None when the search ends before. `good` holds each size that
    beats every smaller one; `poor` pairs each other size with a smaller one at least as good.
    """

    first: int | None
    safe: int | None
    good: tuple[PanelSize, ...]
    poor: tuple[tuple[int, int], ...]


def panel_sizes(
    method: Method, share: float, *, alpha: float, power: float, most: int = 30
) -> Sizes:
    """Sizes of a panel for a difference of given size.

    Args:
        method: the test.
        share: chance of a right answer if the difference is there.
        alpha: highest risk of a false alarm.
        power: wanted chance of finding the difference.
        most: the most answers to list.

    Returns:
        The first and the safe size, and which of the listed sizes are good.

    Raises:
        UnusableInput: a risk, chance or panel that cannot be.

    Source: exact binomial power; saw-tooth and "stable" sizes as in Ennis & Jesionka (2011)
        J. Sensory Studies (abstract seen).
    """
    require_alpha(alpha)
    require_share("power", power)
    require_answers(most)
    first, safe = first_and_safe(method, share, alpha=alpha, power=power)
    answers = np.arange(_FEWEST, max(most, _FEWEST) + 1)
    chances = chances_to_find(method, answers, alpha, share)
    best = np.maximum.accumulate(np.concatenate([[0.0], chances[:-1]]))
    is_good = chances > best + 1e-12
    good = tuple(_sizes_at(method, answers[is_good], alpha, chances[is_good]))
    return Sizes(first, safe, good, _poor(answers, chances, is_good))


def _sizes_at(
    method: Method, answers: NDArray[np.int_], alpha: float, chances: Numbers
) -> list[PanelSize]:
    least = least_right(method, answers, alpha)
    sides = 2.0 if method.two_sided else 1.0
    exact = sides * at_least(least, answers, method.guess)
    rows = zip(answers, least, exact, chances, strict=True)
    return [PanelSize(int(n), int(c), float(a), float(p)) for n, c, a, p in rows]


def _poor(
    answers: NDArray[np.int_], chances: Numbers, is_good: NDArray[np.bool_]
) -> tuple[tuple[int, int], ...]:
    good = answers[is_good]
    pairs = []
    for size, chance in zip(answers[~is_good], chances[~is_good], strict=True):
        rivals = good[(good < size) & (chances[is_good] >= chance - 1e-12)]
        if rivals.size:
            pairs.append((int(size), int(rivals[0])))
    return tuple(pairs)


def first_and_safe(
    method: Method, share: float, *, alpha: float, power: float
) -> tuple[int | None, int | None]:
    """The first size that reaches a power, and the one from which all larger ones do.

    Args:
        method: the test.
        share: chance of a right answer if the difference is there.
        alpha: highest risk of a false alarm.
        power: wanted chance of finding the difference.

    Returns:
        Numbers of answers; None where 65,536 are not enough.
    """

    def reaches(answers: NDArray[np.int_]) -> NDArray[np.bool_]:
        return np.asarray(chances_to_find(method, answers, alpha, share) >= power)

    return first_and_last_tooth(reaches)


def first_and_last_tooth(reaches: Reaches) -> tuple[int | None, int | None]:
    """The first number at which a saw-tooth reaches its mark, and the one after its last fall.

    The teeth shrink as numbers grow: nothing falls back below the mark beyond the double of
    the first success and some, which is where the search ends.

    Args:
        reaches: says for numbers of answers whether they are enough.

    Returns:
        The two numbers; None where the search found none.
    """
    end = 64
    while end <= _LONGEST_SEARCH:
        answers = np.arange(1, end + 1)
        enough = reaches(answers)
        if enough.any() and 2 * (first := int(answers[enough][0])) + 40 <= end:
            short = answers[~enough]
            return first, (int(short[-1]) + 1 if short.size else 1)
        end *= 4
    return None, None
