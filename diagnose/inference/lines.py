"""Straight lines above and below the log of a + b exp(-t), on 0 <= t <= end.

What a word or a compound tells of what lies above it is of this form, with t the sum of the links
that act. A line in t is a product over those links: it weighs each of them alone, and nothing
hangs together through it any more.

Source: the bounds are those of Jaakkola T.S., Jordan M.I. (1999) Variational probabilistic
inference and the QMR-DT network, J. Artif. Intell. Res. 10:291-322 (from memory); the log is
convex where b > 0 and concave where b < 0.
"""

import math
from dataclasses import dataclass

import numpy as np

from diagnose.inference.network import Floats

_LEAST = 1e-300


@dataclass(frozen=True)
class Line:
    """The straight line `start` + `slope` x t."""

    start: float
    slope: float


def lines_around(a: float, b: float, end: float, near: float) -> tuple[Line, Line]:
    """A line that is nowhere below the log of a + b exp(-t), and one that is nowhere above.

    Args:
        a: at least 0.
        b: at least -a.
        end: the greatest t.
        near: where the line that touches the curve does so.
    """
    chord, tangent = _chord(a, b, end), _tangent(a, b, min(max(near, 0.0), end))
    return (chord, tangent) if b > 0.0 else (tangent, chord)


def _log(a: float, b: float, t: float) -> float:
    return math.log(max(a + b * math.exp(-t), _LEAST))


def _chord(a: float, b: float, end: float) -> Line:
    start = _log(a, b, 0.0)
    return Line(start, (_log(a, b, end) - start) / end if end > 0.0 else 0.0)


def _tangent(a: float, b: float, near: float) -> Line:
    value = max(a + b * math.exp(-near), _LEAST)
    slope = -b * math.exp(-near) / value
    return Line(math.log(value) - slope * near, slope)


def costs_of(links: Floats) -> Floats:
    """How much t each link adds: minus the log of the chance that it fails."""
    costs: Floats = -np.log(np.maximum(1.0 - links, _LEAST))
    return costs
