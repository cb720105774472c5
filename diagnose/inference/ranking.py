"""The ranking of one group of descriptors as a distribution, and how unsure it is."""

import numpy as np

from diagnose.inference.network import Floats
from diagnose.inference.posterior import Posterior


def ranking_shares(posterior: Posterior, group: int) -> Floats:
    """The outcomes of a group as shares that sum to 1, for every column.

    Returns:
        Shape (columns, causes + 2): every cause by its responsibility, then expected here,
        then not in the rule base. Responsibilities may overlap, so they are scaled.
    """
    parts = [
        posterior.responsible[:, group, :],
        posterior.expected_here[:, group, None],
        posterior.not_in_rule_base[:, group, None],
    ]
    shares = np.concatenate(parts, axis=1)
    total: Floats = shares.sum(axis=1, keepdims=True)
    return shares / total


def entropy_bits(shares: Floats) -> Floats:
    """Shannon entropy along the last axis, in bits."""
    safe = np.where(shares > 0.0, shares, 1.0)
    entropy: Floats = -(shares * np.log2(safe)).sum(axis=-1)
    return entropy
