"""Difference from control: how different, and is it more than for a blind control?"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import inf, sqrt

import numpy as np
from numpy.typing import NDArray

from diagnose.errors import Fault, UnusableInput
from diagnose.sensory.distributions import Numbers, chi_square_above, normal_below
from diagnose.sensory.refusing import require_alpha, require_answers

_MOST_TASTERS = 1000
_FLOOR = 1e-300


@dataclass(frozen=True)
class RatedReading:
    """Ratings of the test beer less those of the blind control, taster by taster.

    `p` is one-sided, "the test beer was rated farther off"; `rank_sum` is that of the tasters
    for whom it was, ties sharing their ranks and equal ratings left out.
    """

    tasters: int
    mean_difference: float
    rank_sum: float
    p: float
    p_two_sided: float


def read_ratings(test: Sequence[float], blind_control: Sequence[float]) -> RatedReading:
    """Ratings of difference from a labelled control, paired by taster.

    Args:
        test: rating of the test beer by each taster [points, 0 = no difference].
        blind_control: rating of the control served blind, in the same order [points].

    Returns:
        The reading.

    Raises:
        UnusableInput: no tasters, or not as many ratings of one as of the other.

    Source: Aust et al. (1985) (seen as citation); Wilcoxon's signed ranks, every way of turning
        the signs counted, so that ties do no harm.
    """
    if len(test) != len(blind_control):
        found = f"{len(test)} ratings of the test beer, {len(blind_control)} of the control"
        raise UnusableInput(Fault("panel", 0, "ratings", found, "one of each from every taster"))
    require_answers(len(test))
    gaps = np.asarray(test, dtype=float) - np.asarray(blind_control, dtype=float)
    moved = gaps[gaps != 0.0]
    doubled = _doubled_ranks(np.abs(moved))
    above = int(doubled[moved > 0].sum())
    upper, lower = signed_rank_tails(doubled, above)
    return RatedReading(
        tasters=len(test),
        mean_difference=float(gaps.mean()),
        rank_sum=above / 2.0,
        p=upper,
        p_two_sided=min(1.0, 2.0 * min(upper, lower)),
    )


def _doubled_ranks(sizes: Numbers) -> NDArray[np.int_]:
    """Twice the ranks, so that shared ranks stay whole numbers."""
    below = (sizes[:, np.newaxis] > sizes).sum(axis=1)
    equal = (sizes[:, np.newaxis] == sizes).sum(axis=1)
    return np.asarray(2 * below + equal + 1, dtype=np.int_)


def signed_rank_tails(doubled_ranks: Iterable[int], above: int) -> tuple[float, float]:
    """Chances of a rank sum as high or higher, and as low or lower, by luck.

    Args:
        doubled_ranks: twice the rank of each taster who saw a difference.
        above: twice the sum of the ranks of those who rated the test beer farther off.

    Returns:
        Upper and lower tail, exact.
    """
    ways = np.array([1.0])
    for rank in doubled_ranks:
        longer = np.zeros(ways.size + rank)
        longer[: ways.size] += ways / 2.0
        longer[rank:] += ways / 2.0
        ways = longer
    return min(1.0, float(ways[above:].sum())), min(1.0, float(ways[: above + 1].sum()))


def least_rank_sum(tasters: int, alpha: float) -> tuple[int | None, float]:
    """The smallest rank sum that shows a difference, if every taster saw one and none tie.

    Args:
        tasters: number of tasters.
        alpha: highest risk of a false alarm, one-sided.

    Returns:
        Rank sum, None when not even tasters all of one mind would do, and its exact risk.

    Raises:
        UnusableInput: a panel or an alpha that cannot be.
    """
    require_answers(tasters)
    require_alpha(alpha)
    if tasters > _MOST_TASTERS:
        raise UnusableInput(
            Fault("panel", 0, "tasters", str(tasters), f"at most {_MOST_TASTERS} for this test")
        )
    ways = np.array([1.0])
    for rank in range(1, tasters + 1):
        longer = np.concatenate([ways, np.zeros(rank)])
        longer[rank:] += ways
        ways = longer / 2.0
    above = np.cumsum(ways[::-1])[::-1]
    within = np.flatnonzero(above <= alpha * (1.0 + 1e-12))
    return (int(within[0]), float(above[within[0]])) if within.size else (None, 0.0)


@dataclass(frozen=True)
class RatedDistance:
    """d' from ratings in classes, its error, and the one-sided p against no difference."""

    dprime: float
    standard_error: float
    p: float
    likelihood_root: float


def distance_from_ratings(control: Sequence[int], test: Sequence[int]) -> RatedDistance:
    """d' from how often each class of difference was given.

    Args:
        control: for each class from "no difference" up, how often the blind control got it.
        test: the same for the test beer.

    Returns:
        The distance by maximum likelihood.

    Raises:
        UnusableInput: classes that do not match, or fewer than two in use.

    Source: Thurstonian degree-of-difference model with equal variances, held against stored
        values of sensR (seen).
    """
    counts = _used_classes(control, test)
    start = np.append(np.full(counts.shape[1] - 1, 0.5), 1.0)
    free = _lowest(lambda x: surprise(np.cumsum(np.exp(x[:-1])), x[-1], counts), np.log(start))
    bounds, dprime = np.cumsum(np.exp(free[:-1])), abs(float(free[-1]))
    best = surprise(bounds, dprime, counts)
    root = sqrt(max(2.0 * (surprise_if_same(counts) - best), 0.0))
    return RatedDistance(
        dprime, _error(bounds, dprime, counts), chi_square_above(root**2) / 2.0, root
    )


def _used_classes(control: Sequence[int], test: Sequence[int]) -> Numbers:
    if len(control) != len(test):
        found = f"{len(control)} classes for the control, {len(test)} for the test beer"
        raise UnusableInput(Fault("panel", 0, "ratings", found, "the same classes for both"))
    counts = np.array([control, test], dtype=float)
    counts = counts[:, counts.sum(axis=0) > 0]
    if counts.shape[1] < 2 or counts.sum(axis=1).min() == 0:
        wanted = "ratings of both beers, in at least two classes"
        raise UnusableInput(Fault("panel", 0, "ratings", "too few ratings", wanted))
    return counts


def surprise(bounds: Numbers, dprime: float, counts: Numbers) -> float:
    """Negative log likelihood of class bounds and d'; counts are control, then test."""
    edges = np.concatenate([[0.0], bounds, [inf]]) / sqrt(2.0)
    shift = dprime / sqrt(2.0)
    same = 2.0 * normal_below(edges) - 1.0
    apart = normal_below(edges - shift) - normal_below(-edges - shift)
    chances = np.maximum(np.diff([same, apart], axis=1), _FLOOR)
    return -float((counts * np.log(chances)).sum())


def surprise_if_same(counts: Numbers) -> float:
    """Negative log likelihood of ratings that do not depend on the beer."""
    shares = counts.sum(axis=0) / counts.sum()
    return -float((counts.sum(axis=0) * np.log(shares)).sum())


def _lowest(function: Callable[[Numbers], float], start: Numbers) -> Numbers:
    # Only this fit needs the optimiser, which is slow to import.
    from scipy.optimize import minimize  # type: ignore[import-untyped]  # noqa: PLC0415

    rough = minimize(function, start, method="Nelder-Mead", options={"maxiter": 4000})
    fine = minimize(function, rough.x, method="BFGS")
    return np.asarray(fine.x if fine.fun <= rough.fun else rough.x, dtype=float)


def _error(bounds: Numbers, dprime: float, counts: Numbers) -> float:
    """Standard error of d' from the curvature of the likelihood, by differences."""
    at = np.append(bounds, dprime)
    size, step = at.size, 1e-4
    shifts = np.eye(size) * step

    def value(x: Numbers) -> float:
        return surprise(x[:-1], float(x[-1]), counts)

    curvature = np.empty((size, size))
    for i in range(size):
        for j in range(size):
            corners = [(1, 1, 1), (1, -1, -1), (-1, 1, -1), (-1, -1, 1)]
            parts = [sign * value(at + a * shifts[i] + b * shifts[j]) for a, b, sign in corners]
            curvature[i, j] = sum(parts) / (4.0 * step**2)
    try:
        spread = float(np.linalg.inv(curvature)[-1, -1])
    except np.linalg.LinAlgError:
        return inf
    return sqrt(spread) if spread > 0.0 else inf
