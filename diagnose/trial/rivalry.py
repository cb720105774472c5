"""How an unintended difference between two arms may speak for a rival of the suspect."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.evidence.finding import Finding
from diagnose.evidence.weighing import decibans_of
from diagnose.knowledge import RuleBase
from diagnose.trial.equal import rivals_of

# What was let differ between two arms is a worse risk than in a batch at large: a rival that
# listens to it gets this chance at least before the arms are looked at. Judgement.
LEAST_PRIOR, MOST_PRIOR = 0.2, 0.8
# Less than this does not spoil a reading. Judgement.
LEAST_SPOILT = 0.002


@dataclass(frozen=True)
class Rival:
    """A cause of the same compounds, and the chance that it now acts in one arm alone and shows."""

    cause: str
    spoils: float


@dataclass(frozen=True)
class Suspects:
    """What is put to the split: the causes, the fault's compounds, and the harmless chance.

    `shares` are the chances of the explanations when the split was planned.
    """

    causes: tuple[str, ...]
    compounds: tuple[str, ...]
    harmless: float
    shares: Mapping[str, float] = field(default_factory=dict)

    def prior(self, cause: str) -> float:
        """The chance that a rival acts, before the arms are looked at."""
        return min(max(self.shares.get(cause, 0.0), LEAST_PRIOR), MOST_PRIOR)


def reach_of(rules: RuleBase, suspects: Suspects) -> dict[str, float]:
    """How surely each cause, when it acts, shows through the fault's compounds."""
    reach = {}
    for cause, made in rivals_of(rules, suspects.compounds).items():
        silent = 1.0
        for strength in made.values():
            silent *= 1.0 - strength
        reach[cause] = 1.0 - silent
    return reach


def tells_of_factor(
    rules: RuleBase,
    measure: str,
    found: tuple[Finding, Finding],
    suspects: Suspects,
    reach: Mapping[str, float],
) -> bool:
    """Whether a measure tells of the factor: nothing listens to it more than the suspects do.

    A measure that says the same thing as one of theirs belongs to the factor too.
    """
    about = rules.measures[measure].about
    own = [m for cause in suspects.causes for m in measures_of(rules, cause)]
    if measure not in own:
        return any(rules.measures[one].about == about for one in own)
    gaps = {cause: _gap(rules, cause, measure, found) for cause in (*suspects.causes, *reach)}
    largest = max(gaps.values())
    return any(gaps[cause] >= largest for cause in suspects.causes)


def rivals_by(
    rules: RuleBase,
    measure: str,
    found: tuple[Finding, Finding],
    suspects: Suspects,
    reach: Mapping[str, float],
) -> tuple[Rival, ...]:
    """The causes of the same compounds that the difference speaks to, the worst first."""
    rivals = []
    for cause, reaches in reach.items():
        for indicator in rules.causes[cause].indicators:
            if indicator.measure != measure or cause in suspects.causes:
                continue
            chances = [_acts(suspects.prior(cause), decibans_of(indicator, one)) for one in found]
            spoils = abs(chances[0] - chances[1]) * reaches
            if spoils >= LEAST_SPOILT:
                rivals.append(Rival(cause, spoils))
    return tuple(sorted(rivals, key=lambda rival: (-rival.spoils, rival.cause)))


def _gap(rules: RuleBase, cause: str, measure: str, found: tuple[Finding, Finding]) -> float:
    """How differently the two arms speak to a cause, in decibans."""
    return max(
        (
            abs(decibans_of(indicator, found[0]) - decibans_of(indicator, found[1]))
            for indicator in rules.causes[cause].indicators
            if indicator.measure == measure
        ),
        default=0.0,
    )


def _acts(prior: float, decibans: float) -> float:
    odds: float = prior / (1.0 - prior) * 10.0 ** (decibans / 10.0)
    return odds / (1.0 + odds)


def any_of(rivals: tuple[Rival, ...]) -> float:
    """The chance that at least one of the rivals made a difference."""
    none = 1.0
    for rival in rivals:
        none *= 1.0 - rival.spoils
    return 1.0 - none


def measures_of(rules: RuleBase, cause: str) -> set[str]:
    """The measures that a cause listens to."""
    return {indicator.measure for indicator in rules.causes[cause].indicators}
