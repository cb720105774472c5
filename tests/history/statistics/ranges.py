"""How far apart the ends of n values of a bell curve lie, by the integrals that define it.

Our cards hold the constants of pairs, as a brewer has one value a batch; that the same integrals
give the printed constants of larger groups is what says that the pairs' are the right ones.
"""

from math import exp, lgamma, sqrt
from typing import Any

from scipy import integrate, special, stats

from tests.process.cards import constants

_REACH = 9.0
_PAIR = 2


def constant(name: str, n: int) -> float:
    """A constant of control charts for groups of n; those of pairs are our cards'."""
    if name == "c4":
        return sqrt(2.0 / (n - 1)) * exp(lgamma(n / 2.0) - lgamma((n - 1) / 2.0))
    mean, spread = _of_the_cards() if n == _PAIR else mean_and_spread(n)
    return {
        "d2": mean,
        "d3": spread,
        "D4": 1.0 + 3.0 * spread / mean,
        "E2": 3.0 / mean,
        "A2": 3.0 / (mean * sqrt(n)),
    }[name]


def mean_and_spread(n: int) -> tuple[float, float]:
    """Mean and standard deviation of the range of n values, in standard deviations of one."""

    def wider(x: float) -> float:
        return float(1.0 - special.ndtr(x) ** n - special.ndtr(-x) ** n)

    def wider_than(y: float, x: float) -> float:
        low, high = special.ndtr(y), special.ndtr(x)
        return float(1.0 - high**n - (1.0 - low) ** n + (high - low) ** n)

    mean = integrate.quad(wider, -_REACH, _REACH)[0]
    square = 2.0 * integrate.dblquad(wider_than, -_REACH, _REACH, -_REACH, lambda x: x)[0]
    return mean, sqrt(square - mean**2)


def _of_the_cards() -> tuple[float, float]:
    return constants()["chart_d2_pair"], constants()["chart_d3_pair"]


def barnard(a: int, b: int, c: int, d: int) -> Any:
    """Barnard's test by the reference library; Boschloo's, which we give, is stronger."""
    return stats.barnard_exact([[a, b], [c, d]], alternative="less")
