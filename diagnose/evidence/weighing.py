"""Findings to weights of evidence: an indicator's curve, integrated over the finding's range."""

import math
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.knowledge import Cause, Indicator, Measure, RuleBase
from diagnose.process import Band

# Points at which a curve is read over a range: quantile midpoints of a triangular spread.
QUANTILES = 64


def decibans_of(indicator: Indicator, finding: Finding) -> float:
    """What a finding weighs for the indicator's cause, in decibans; 0 when it cannot say."""
    if isinstance(finding, ClassFinding):
        return indicator.values.get(finding.value, 0.0)
    if isinstance(finding, NumberFinding):
        return integrated(indicator.curve, finding.band)
    return 0.0


def integrated(curve: tuple[tuple[float, float], ...], band: Band) -> float:
    """The weight of evidence of an uncertain value, in decibans.

    The likelihood ratio (not its logarithm) is averaged over a triangular spread from the
    band's low to its high with its peak at mid, so a value that may lie on either side of a
    limit says little.

    Args:
        curve: (value, decibans) points, straight between, flat outside.
        band: the value's range.
    """
    if band.high <= band.low:
        return read_curve(curve, band.mid)
    values, decibans = np.array(curve).T
    ratios = 10.0 ** (np.interp(_points(band), values, decibans) / 10.0)
    return 10.0 * math.log10(ratios.mean())


def read_curve(curve: tuple[tuple[float, float], ...], value: float) -> float:
    """The curve at one value, in decibans."""
    if value <= curve[0][0]:
        return curve[0][1]
    for (left, low), (right, high) in pairwise(curve):
        if value <= right:
            return low + (high - low) * (value - left) / (right - left)
    return curve[-1][1]


def _points(band: Band) -> NDArray[np.float64]:
    """The quantile midpoints of the triangular spread."""
    share = (np.arange(QUANTILES) + 0.5) / QUANTILES
    width = band.high - band.low
    rising = band.low + np.sqrt(share * width * (band.mid - band.low))
    falling = band.high - np.sqrt((1.0 - share) * width * (band.high - band.mid))
    return np.where(share * width < band.mid - band.low, rising, falling)


def cause_is_possible(cause: Cause, findings: dict[str, Finding]) -> bool:
    """False when a finding rules the cause out; an unlogged measure leaves it possible."""
    for condition in cause.possible_when:
        finding = findings.get(condition.measure)
        if isinstance(finding, ClassFinding) and finding.value not in condition.any_of:
            return False
    return True


def typical_finding(measure: Measure, value: float | str) -> Finding:
    """The finding an answer to the measure's question would give."""
    if measure.classes:
        return ClassFinding(measure.id, str(value), str(value), "")
    point = float(value)
    return NumberFinding(measure.id, Band(point, point, point), f"{point:g} {measure.unit}", "")


def happened_by(rules: RuleBase, finding: Finding) -> dict[str, float]:
    """What one finding weighs for every cause that listens to its measure, in decibans."""
    listening = rules.listeners.get(finding.measure, {})
    return {card_id: decibans_of(indicator, finding) for card_id, indicator in listening.items()}


def expected_by(rules: RuleBase, circumstance: str, value: str) -> float:
    """What one circumstance weighs for a flavour that yeast or style bring, in decibans."""
    card = rules.circumstances[circumstance]
    if card.when_expected is None:
        return 0.0
    return 10.0 * math.log10(card.when_expected[value] / card.values[value].share)


def responsible_by(rules: RuleBase, circumstance: str, value: str) -> dict[str, float]:
    """What one circumstance weighs for every cause that is told by it, in decibans."""
    return dict(rules.told_by.get((circumstance, value), {}))
