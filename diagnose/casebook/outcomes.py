"""The outcomes of a diagnosis as one ranked list."""

from collections.abc import Iterable

from diagnose.answers import Diagnosis, FaultGroup
from diagnose.inference.ranking import Ranking

EXPECTED_HERE = "expected here"
NOTHING_NAMED = "nothing named"
Outcomes = list[tuple[str, float]]


def outcomes_of(diagnosis: Diagnosis) -> Outcomes:
    """Every cause and the beer's own share, the one that explains most first.

    Over several groups of words the share is the mean over the groups: what explains two of
    three is ahead of what explains one.
    """
    outcomes: dict[str, float] = {}
    for group in diagnosis.faults:
        for name, probability in _outcomes(group):
            outcomes[name] = outcomes.get(name, 0.0) + probability / len(diagnosis.faults)
    return _likeliest_first(outcomes.items())


def _outcomes(group: FaultGroup) -> Outcomes:
    causes = [(cause.id, cause.responsible) for cause in group.causes]
    return [*causes, (EXPECTED_HERE, group.expected_here)]


def outcomes_of_ranking(ranking: Ranking) -> Outcomes:
    """The same of a bare ranking, for its first scenario; empty where no word was heard."""
    if not ranking.structure.groups:
        return []
    names = (*ranking.structure.network.causes, EXPECTED_HERE)
    means = ranking.shares[0, :, :-1].mean(axis=0)
    return _likeliest_first(zip(names, means.tolist(), strict=True))


def _likeliest_first(outcomes: Iterable[tuple[str, float]]) -> Outcomes:
    return sorted(outcomes, key=lambda one: (-one[1], one[0]))
