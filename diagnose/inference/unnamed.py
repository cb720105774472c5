"""A fault nobody could name: what speaks for a cause is the record and the circumstances alone."""

from dataclasses import replace

import numpy as np

from diagnose.inference.posterior import Posterior

UNNAMED_GROUP = ("something_off",)


def unnamed_posterior(posterior: Posterior) -> Posterior:
    """The posterior with one group for a flavour that was not named.

    Any noticeable compound would do for "something is off", so a cause is responsible when it
    acted and made at least one; what yeast and style bring is no fault; the unknown is as
    likely as that an unexplained compound stands out.

    Args:
        posterior: a solve without reported words.
    """
    network = posterior.structure.network
    makes_something = 1.0 - np.prod(1.0 - network.strength, axis=1)
    unknown = 1.0 - float(np.prod(1.0 - network.unexplained))
    columns = len(posterior.log_evidence)
    return replace(
        posterior,
        structure=replace(posterior.structure, groups=(UNNAMED_GROUP,)),
        responsible=(posterior.happened * makes_something)[:, None, :],
        expected_here=np.zeros((columns, 1)),
        not_in_rule_base=np.full((columns, 1), unknown),
    )
