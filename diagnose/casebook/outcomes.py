"""The outcomes of a diagnosis as one ranked list."""

from diagnose.answers import Diagnosis, FaultGroup

EXPECTED_HERE = "expected here"


def outcomes_of(diagnosis: Diagnosis) -> list[tuple[str, float]]:
    """Every cause and the beer's own share over all groups, the likeliest first."""
    outcomes: dict[str, float] = {}
    for group in diagnosis.faults:
        for name, probability in _outcomes(group):
            outcomes[name] = max(outcomes.get(name, 0.0), probability)
    return sorted(outcomes.items(), key=lambda one: (-one[1], one[0]))


def _outcomes(group: FaultGroup) -> list[tuple[str, float]]:
    causes = [(cause.id, cause.responsible) for cause in group.causes]
    return [*causes, (EXPECTED_HERE, group.expected_here)]
