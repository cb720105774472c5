"""Halving a crowd of suspects: change several things at once, to find where to look."""

from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.knowledge import RuleBase
from diagnose.trial.fault import SuspectedFault
from diagnose.trial.fitting import counting_method, fitting_test, is_directed
from diagnose.trial.gains import expected_bits
from diagnose.trial.likelihood import harmless_by_test, readout_of_panel

# A suspect above this is put to a split of its own. Practice.
LEADS_FROM = 0.30
_LEAST_SHARE, _LARGEST_BUNDLE, _FEWEST_SUSPECTS = 0.02, 4, 3


@dataclass(frozen=True)
class Bundle:
    """Suspects to change together in one arm, their chance taken together, and the bits."""

    causes: tuple[str, ...]
    share: float
    bits: float


def bundle_of(
    rules: RuleBase, fault: SuspectedFault, circumstances: Mapping[str, str], answers: int
) -> Bundle | None:
    """A bundle that halves the suspects; None where one leads or too few can be split.

    Args:
        rules: the rule base.
        fault: the fault and its explanations.
        circumstances: what is told of the fault.
        answers: how many answers the panel gives.
    """
    causes = sorted(fault.explanations[:-2], key=lambda one: (-fault.share(one), one))
    if fault.share(causes[0]) > LEADS_FROM:
        return None
    open_ = [
        one
        for one in causes
        if rules.causes[one].split is not None and fault.share(one) >= _LEAST_SHARE
    ]
    if len(open_) < _FEWEST_SUSPECTS:
        return None
    half = 0.5 * sum(fault.share(one) for one in open_)
    chosen: list[str] = []
    while len(chosen) < _LARGEST_BUNDLE and sum(map(fault.share, chosen)) < half:
        chosen.append(open_[len(chosen)])
    test = fitting_test(fault.words, fault.named, circumstances).test
    harmless = harmless_by_test(is_directed(test))
    readouts = {
        fault.place(one): readout_of_panel(
            counting_method(test), answers, fault.fires(one), harmless
        )
        for one in chosen
    }
    return Bundle(
        tuple(chosen), sum(map(fault.share, chosen)), expected_bits(fault.shares, readouts)
    )
