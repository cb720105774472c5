"""How often each cause acts at this brewer's: from all batches at risk, not the flawed ones only.

A verdict is asked for when a beer is flawed. Counted among flawed batches alone, every cause
would look common; so a base rate is learned from every tasted batch in which the cause was
possible, the clean ones too:

- a batch in which the cause was confirmed: the odds of the confidence over the rule base's own
  odds are the likelihood ratio; a confidence no better than the base rate teaches nothing;
- a batch in which it was ruled out: what its words say, times the odds that the verdict errs;
- a batch without one in which none of the cause's words was told: it acted unnoticed, or not;
- a batch without one in which one was told: it may have been this cause, or any other. Where a
  verdict names another cause for it, that much of it is explained already;
- a batch that nobody tasted, one in which the cause was not possible, and the arm of a split
  that provoked it: nothing.

Each is a straight line in the base rate, the other causes staying at the rule base's figures.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagnose.history.brews import Brew
from diagnose.history.learning_beta import Spread, after_slopes, spread_of
from diagnose.history.learning_facts import Judged, Taught
from diagnose.history.learning_telling import Telling, Tellings, possible_share


@dataclass(frozen=True)
class RateMoved:
    """One base rate before and after, with the batches behind it.

    Of the `at_risk` batches `judged` have a verdict on this cause, `told` have its words and no
    verdict on it, and the others, `quiet`, have neither.
    """

    cause: str
    before: Spread
    after: Spread
    at_risk: int
    quiet: int
    told: tuple[str, ...]
    judged: tuple[Judged, ...]


def learn_rates(
    tellings: Tellings, taught: Taught, judged: Sequence[Judged]
) -> tuple[RateMoved, ...]:
    """Every base rate that the batches say something about, by cause."""
    by_batch: dict[str, dict[str, Judged]] = {}
    for one in judged:
        by_batch.setdefault(one.batch, {})[one.cause] = one
    found = []
    for cause in sorted(tellings.rules.causes):
        before = spread_of(tellings.rules.causes[cause].base_rate)
        if before is not None:
            moved = _moved(tellings, cause, before, (taught, by_batch))
            found += [moved] if moved.at_risk else []
    return tuple(found)


def _moved(
    tellings: Tellings,
    cause: str,
    before: Spread,
    known: tuple[Taught, Mapping[str, Mapping[str, Judged]]],
) -> RateMoved:
    taught, by_batch = known
    telling, card = tellings.of(cause), tellings.rules.causes[cause]
    slopes, told, own = Counter[float](), list[str](), list[Judged]()
    for brew in taught.brews:
        share = possible_share(tellings.rules, card, brew.measures)
        judged = by_batch.get(brew.key, {})
        if (
            not _at_risk(brew, judged, cause)
            or share == 0.0
            or (brew.key, cause) in taught.provoked
        ):
            continue
        heard, slope = bool(telling.words & brew.reported), -telling.caught
        if heard:
            slope = told_slope(telling, _explained(tellings, telling, cause, judged))
        if cause in judged:
            own.append(judged[cause])
            slope = judged_slope(judged[cause], before.mean, slope)
        elif heard:
            told.append(brew.key)
        slopes[slope if cause in judged else share * slope] += 1
    at_risk = slopes.total()
    after = after_slopes(before, slopes) if at_risk else before
    quiet = at_risk - len(told) - len(own)
    return RateMoved(cause, before, after, at_risk, quiet, tuple(told), tuple(own))


def _at_risk(brew: Brew, judged: Mapping[str, Judged], cause: str) -> bool:
    return bool(brew.tastings) or cause in judged


def judged_slope(judged: Judged, rate: float, words: float) -> float:
    """The slope of a batch with a verdict on the cause.

    Args:
        judged: the verdict.
        rate: the base rate the verdict started from.
        words: the slope of the batch's words alone.
    """
    odds = judged.acted / (1.0 - judged.acted)
    if judged.confirmed:
        return odds / (rate / (1.0 - rate)) - 1.0
    return odds * (1.0 + words) - 1.0


def told_slope(telling: Telling, explained: float) -> float:
    """The slope of a batch with a cause's words in it and no verdict on the cause.

    Args:
        telling: how the cause is told.
        explained: the chance that another cause is known to have given them.
    """
    anyway = 1.0 - (1.0 - telling.anyway) * (1.0 - explained)
    return (1.0 - (1.0 - anyway) * (1.0 - telling.caught)) / anyway - 1.0


def _explained(
    tellings: Tellings, telling: Telling, cause: str, judged: Mapping[str, Judged]
) -> float:
    others = [
        one.acted
        for other, one in judged.items()
        if other != cause and one.confirmed and tellings.of(other).words & telling.words
    ]
    return max(others, default=0.0)
