"""The outcomes of a diagnosis as one ranked list."""

from diagnose.answers import Diagnosis, FaultGroup

EXPECTED_HERE = "expected here"


def outcomes_of(diagnosis: Diagnosis) -> list[tuple[str, float]]:
    """Every cause and the beer's own share, the one that explains most first.

    Over several groups of words the share is the mean over the groups: what explains two of
    three is ahead of what explains one.
    """
    outcomes: dict[str, float] = {}
    for group in diagnosis.faults:
        for name, probability in _outcomes(group):
            outcomes[name] = outcomes.get(name, 0.0) + probability / len(diagnosis.faults)
    return sorted(outcomes.items(), key=lambda one: (-one[1], one[0]))


def _outcomes(group: FaultGroup) -> list[tuple[str, float]]:
    causes = [(cause.id, cause.responsible) for cause in group.causes]
    return [*causes, (EXPECTED_HERE, group.expected_here)]
