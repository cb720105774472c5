"""From the count of a panel to the cause: the ratio, and the ranking before and after."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np

from diagnose.inference.ranking import Ranking
from diagnose.sensory import Method, bayes_reading
from diagnose.trial.gains import shares_after
from diagnose.trial.likelihood import ratio_of_pattern, ratio_on_cause, reach_of_ratio
from diagnose.trial.plan import Explanation, Plan


@dataclass(frozen=True)
class Chances:
    """What the ratio rests on; None where the plan's own value holds.

    `fires` and `harmless` as in `ratio_on_cause`; `pattern` says which arm has the fault when
    both are held against a clean reference.
    """

    fires: float | None = None
    harmless: float | None = None
    pattern: str | None = None


@dataclass(frozen=True)
class Taught:
    """What splits of a fault taught: the words of the fault, and the ratio on each suspect."""

    words: tuple[str, ...] = ()
    ratios: Mapping[str, float] = field(default_factory=dict)


NOTHING_TAUGHT = Taught()


@dataclass(frozen=True)
class Moved:
    """One explanation before and after."""

    explanation: Explanation
    before: float
    after: float


@dataclass(frozen=True)
class Lesson:
    """What a tasting says of each suspect, and the ranking before and after.

    `ratios` are by cause, in the order of the plan; `reach` are the lowest and the highest ratio
    that any tasting of this pair could have given.
    """

    causes: tuple[str, ...]
    ratios: tuple[float, ...]
    reach: tuple[float, float]
    fires: float
    harmless: float
    moved: tuple[Moved, ...]

    def of(self, cause: str) -> Moved:
        """What happened to one cause."""
        return next(one for one in self.moved if one.explanation.id == cause)


def learn(
    plan: Plan, compared: tuple[str, str], count: tuple[Method, int, int], chances: Chances
) -> Lesson:
    """What a count teaches.

    Args:
        plan: the plan with its ranking.
        compared: labels of the two arms that were served.
        count: the test, right answers and answers.
        chances: what the ratio rests on.

    Returns:
        The lesson. Several sittings on one pair of vessels are one count; only another pair is a
        new lesson. A clean reference that shows the fault in both arms, in neither or in the
        wrong one overrides the count.
    """
    method, right, answers = count
    factor = bayes_reading(method, right, answers).factor if answers else 1.0
    first, second = (plan.arm(label) for label in compared)
    assert first is not None and second is not None
    factors = plan.differ(first, second)
    harmless = plan.harmless if chances.harmless is None else chances.harmless
    fires = [one.fires if chances.fires is None else chances.fires for one in factors]
    ratios = [_ratio(factor, one, harmless, chances.pattern) for one in fires]
    causes = tuple(one.cause for one in factors)
    low, high = reach_of_ratio(fires[0], harmless)
    return Lesson(
        causes=causes,
        ratios=tuple(ratios),
        reach=(min(low, *ratios), max(high, *ratios)),
        fires=fires[0],
        harmless=harmless,
        moved=_moved(plan, dict(zip(causes, ratios, strict=True))),
    )


def _ratio(factor: float, fires: float, harmless: float, pattern: str | None) -> float:
    if pattern in (None, "suspect"):
        return ratio_on_cause(factor, fires, harmless)
    return ratio_of_pattern(pattern or "")


def plan_after(plan: Plan, ratios: Mapping[str, float]) -> Plan:
    """A plan whose ranking starts from what others of its pairs taught."""
    after = tuple(
        one.explanation.model_copy(update={"share": one.after}) for one in _after(plan, ratios)
    )
    return plan.model_copy(update={"explanations": after})


def ranking_after(ranking: Ranking, taught: Taught) -> Ranking:
    """A ranking whose first scenario starts from what splits of the same fault taught."""
    network, shares = ranking.structure.network, ranking.shares.copy()
    places = {
        network.cause_index[cause]: ratio
        for cause, ratio in taught.ratios.items()
        if cause in network.cause_index
    }
    for group, words in enumerate(ranking.structure.groups):
        if set(words) & set(taught.words):
            shares[0, group] = shares_after(shares[0, group], places)
    return replace(ranking, shares=shares)


def _after(plan: Plan, ratios: Mapping[str, float]) -> list[Moved]:
    """The ranking after; what the plan left out as too small stays beside it as a remainder."""
    listed = plan.explanations
    before = np.array([one.share for one in listed])
    rest = max(1.0 - float(before.sum()), 0.0)
    places = {place: ratios[one.id] for place, one in enumerate(listed) if one.id in ratios}
    after = shares_after(np.append(before, rest), places)
    return [Moved(one, one.share, float(share)) for one, share in zip(listed, after, strict=False)]


def _moved(plan: Plan, ratios: Mapping[str, float]) -> tuple[Moved, ...]:
    moved = _after(plan, ratios)
    return tuple(sorted(moved, key=lambda one: (-one.after, one.explanation.id)))
