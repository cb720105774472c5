"""The figures of the rule base that looking over many batches needs."""

from diagnose.knowledge import RuleBase


def figures_of(rules: RuleBase) -> dict[str, float]:
    """Every constant's value by its id."""
    return {key: one.value for key, one in rules.constants.items()}
