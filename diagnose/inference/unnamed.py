"""A fault nobody could name: what speaks for a cause is the record and the circumstances alone."""

from dataclasses import replace

import numpy as np

from diagnose.inference.network import Floats, Network
from diagnose.inference.scenarios import Structure

UNNAMED_GROUP = ("something_off",)


def unnamed_group(structure: Structure) -> Structure:
    """The structure with one group, for a flavour that was not named."""
    return replace(structure, groups=(UNNAMED_GROUP,))


def unnamed_outcomes(network: Network, happened: Floats) -> tuple[Floats, Floats, Floats]:
    """Responsible, expected here and not in the rule base, for the one group of a nameless fault.

    Any noticeable compound would do for "something is off", so a cause is responsible when it
    acted and made at least one; what yeast and style bring is no fault; the unknown is as
    likely as that an unexplained compound stands out.

    Args:
        network: the network.
        happened: chances that the causes acted, of a solve without reported words, (c, n).

    Returns:
        Shapes (c, 1, n), (c, 1) and (c, 1).
    """
    makes_something = 1.0 - np.prod(1.0 - network.strength, axis=1)
    unknown = 1.0 - float(np.prod(1.0 - network.unexplained))
    columns = len(happened)
    responsible = (happened * makes_something)[:, None, :]
    return responsible, np.zeros((columns, 1)), np.full((columns, 1), unknown)
