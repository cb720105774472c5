"""How often a taster is right, given how far apart two beers taste."""

from math import sqrt

import numpy as np
from numpy.typing import ArrayLike

from diagnose.sensory.distributions import (
    Numbers,
    crossing,
    normal_below,
    normal_density,
    normal_quantile,
    quadrature,
)
from diagnose.sensory.methods import Method

# Beyond nine standard deviations nothing of the normal distribution is left in a double.
_POINTS, _WEIGHTS = quadrature(-9.0, 9.0)
_DENSITY = _WEIGHTS * normal_density(_POINTS)
_HALF_POINTS, _HALF_WEIGHTS = quadrature(0.0, 9.0)
_HALF_DENSITY = _HALF_WEIGHTS * normal_density(_HALF_POINTS)
_LARGEST_DPRIME = 30.0


def share_right(method: Method, dprime: ArrayLike) -> Numbers:
    """The chance that a taster is right.

    Args:
        method: the test.
        dprime: distance between the two beers [standard deviations of one sensation], 0 or more.

    Returns:
        Chance of a right answer, of the shape of `dprime`; accurate to 1e-9 and better.

    Source: equal-variance Thurstonian models: Ennis (1993) J. Sensory Studies 8:353-370 (from
        memory); Brockhoff & Christensen (2010) Food Quality and Preference 21:330-338 (from
        memory); tetrad: Ennis et al. (1998) (from memory). All held against stored values of
        the R package sensR and against a simulation of the tasting rule.
    """
    d = np.asarray(dprime, dtype=float)
    # Rounding may carry a sum of weights past 1, where a logarithm would fail.
    return np.minimum(_share_right(method, d), 1.0)


def _share_right(method: Method, d: Numbers) -> Numbers:
    if method.rule == "2-afc":
        return np.asarray(normal_below(d / sqrt(2.0)))
    if method.rule == "duo-trio":
        near, far = normal_below(d / sqrt(2.0)), normal_below(d / sqrt(6.0))
        return np.asarray(1.0 - near - far + 2.0 * near * far)
    if method.rule == "triangle":
        return _triangle(d[..., np.newaxis])
    return _by_strength(method.rule, d[..., np.newaxis])


def _triangle(d: Numbers) -> Numbers:
    shift, spread = d * sqrt(2.0 / 3.0), _HALF_POINTS * sqrt(3.0)
    odd = normal_below(shift - spread) + normal_below(-shift - spread)
    return np.asarray(2.0 * odd @ _HALF_DENSITY)


def _by_strength(rule: str, d: Numbers) -> Numbers:
    x = _POINTS
    if rule == "3-afc":
        return np.asarray(np.square(normal_below(x + d)) @ _DENSITY)
    if rule == "tetrad-specified":
        both = 2.0 * normal_below(x) * np.square(normal_below(d - x))
        return np.asarray(both @ _DENSITY)
    below, shifted = normal_below(x), normal_below(x - d)
    return np.asarray(1.0 - 2.0 * (2.0 * below * shifted - np.square(shifted)) @ _DENSITY)


def slope(method: Method, dprime: float) -> float:
    """How fast the chance of a right answer grows with d'.

    Args:
        method: the test.
        dprime: distance between the two beers [standard deviations].

    Returns:
        Change of the chance per unit of d'.

    Source: derivatives of the functions of `share_right`.
    """
    d, root2, root6 = dprime, sqrt(2.0), sqrt(6.0)
    if method.rule == "2-afc":
        return float(normal_density(d / root2) / root2)
    if method.rule == "duo-trio":
        near = normal_density(d / root2) / root2 * (2.0 * normal_below(d / root6) - 1.0)
        far = normal_density(d / root6) / root6 * (2.0 * normal_below(d / root2) - 1.0)
        return float(near + far)
    if method.rule == "triangle":
        shift, spread = d * sqrt(2.0 / 3.0), _HALF_POINTS * sqrt(3.0)
        odd = normal_density(shift - spread) - normal_density(-shift - spread)
        return float(2.0 * sqrt(2.0 / 3.0) * odd @ _HALF_DENSITY)
    return _slope_by_strength(method.rule, d)


def _slope_by_strength(rule: str, d: float) -> float:
    x = _POINTS
    if rule == "3-afc":
        return float(2.0 * normal_below(x + d) * normal_density(x + d) @ _DENSITY)
    if rule == "tetrad-specified":
        rise = normal_below(x) * normal_below(d - x) * normal_density(d - x)
        return float(4.0 * rise @ _DENSITY)
    apart = normal_below(x) - normal_below(x - d)
    return float(4.0 * normal_density(x - d) * apart @ _DENSITY)


def dprime_from_share(method: Method, share: float) -> float:
    """The distance at which tasters are right in a given share of answers.

    Args:
        method: the test.
        share: chance of a right answer.

    Returns:
        d' [standard deviations]; 0 at or below the luck of a guess, infinite for a share of 1.
    """
    if share <= method.guess:
        return 0.0
    if share >= 1.0:
        return float("inf")
    if method.rule == "2-afc":
        return sqrt(2.0) * normal_quantile(share)
    far = float(share_right(method, _LARGEST_DPRIME))
    if share >= far:
        return float("inf")
    return crossing(lambda d: float(share_right(method, d)) - share, 0.0, _LARGEST_DPRIME)


def share_from_able(method: Method, able: float) -> float:
    """The chance of a right answer when a share of tasters can tell and the others guess.

    Args:
        method: the test.
        able: proportion of tasters who can tell (discriminators), 0 to 1.

    Returns:
        Chance of a right answer.
    """
    return method.guess + (1.0 - method.guess) * able


def able_from_share(method: Method, share: float) -> float:
    """The proportion of tasters who can tell (discriminators), behind a share of right answers."""
    return max((share - method.guess) / (1.0 - method.guess), 0.0)
