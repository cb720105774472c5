"""The outcomes of a case over what of a rule base can bear on it."""

from diagnose.casebook.outcomes import Outcomes, outcomes_of_ranking
from diagnose.consult.reaching import Reach, near_rules, ranking_near
from diagnose.knowledge import RuleBase


def outcomes_within(rules: RuleBase, reach: Reach) -> Outcomes:
    """The ranked outcomes of a case; no questions and no explanation.

    Args:
        rules: the rule base that the reach was made of, or a redraw of it.
        reach: the case and what can bear on it.
    """
    return outcomes_of_ranking(ranking_near(near_rules(rules, reach), reach))
