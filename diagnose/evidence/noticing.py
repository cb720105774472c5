"""How likely a predicted amount of a compound is to be noticed."""

import math
from collections.abc import Mapping

from diagnose.evidence.finding import Finding, NumberFinding
from diagnose.knowledge import RuleBase
from diagnose.process import Band

# A range from low to high is read as the middle nine tenths of a lognormal spread.
_NINE_TENTHS = 2.0 * 1.645
_LEAST_AMOUNT = 1e-9


def noticed_shares(rules: RuleBase, findings: Mapping[str, Finding]) -> dict[str, float]:
    """For each compound whose amount a model predicts, the chance that it is noticed."""
    shares = {}
    for card_id, compound in rules.compounds.items():
        finding = findings.get(compound.predicted_by or "")
        if isinstance(finding, NumberFinding) and compound.noticed_from is not None:
            noticed = compound.noticed_from
            threshold = Band(noticed.low, noticed.value, noticed.high)
            shares[card_id] = noticed_share(finding.band, threshold)
    return shares


def noticed_share(amount: Band, threshold: Band) -> float:
    """The chance that an amount stands above a taster's threshold.

    Args:
        amount: predicted amount, with its range.
        threshold: from what amount it is noticed, with its range, in the same unit.

    Returns:
        A probability; both are taken as lognormal and independent.
    """
    gap = _log(amount.mid) - _log(threshold.mid)
    spread = math.hypot(_log_sd(amount), _log_sd(threshold))
    if spread == 0.0:
        return 0.5 if gap == 0.0 else float(gap > 0.0)
    return 0.5 * math.erfc(-gap / spread / math.sqrt(2.0))


def _log(amount: float) -> float:
    return math.log(max(amount, _LEAST_AMOUNT))


def _log_sd(band: Band) -> float:
    return (_log(band.high) - _log(band.low)) / _NINE_TENTHS
