"""What the brewer's own batches teach the rule base, derived from the store whenever it is asked.

Nothing of it is kept: a verdict that is withdrawn, a batch that is undone, is gone from it. The
order in which things were written down does not matter.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from diagnose.documents import Number
from diagnose.evidence.palates import keenness
from diagnose.history.cases import Case, cases_of, judged_now
from diagnose.history.learning_beta import Spread
from diagnose.history.learning_facts import Taught
from diagnose.history.learning_heard import as_heard
from diagnose.history.learning_rates import RateMoved, learn_rates
from diagnose.history.learning_strengths import StrengthMoved, learn_strengths
from diagnose.history.learning_tasters import TasterMoved, learn_tasters
from diagnose.history.learning_telling import Tellings
from diagnose.knowledge import RuleBase, fold


@dataclass(frozen=True)
class Learned:
    """What was learned: from how many tasted batches, and every number that moved."""

    tasted: int
    not_tasted: int
    rates: tuple[RateMoved, ...]
    strengths: tuple[StrengthMoved, ...]
    tasters: tuple[TasterMoved, ...]
    cases: tuple[Case, ...]


def learn(rules: RuleBase, taught: Taught) -> Learned:
    """What batches teach, with the rule base as the starting point.

    A verdict on a cause that the rule base does not have any more is left out.
    """
    tellings, taught = Tellings(rules), as_heard(rules.lexicon, taught)
    cases = cases_of(tellings, taught)
    judged = [one for one in judged_now(taught, cases) if one.cause in rules.causes]
    tasted = sum(bool(one.tastings) for one in taught.brews)
    return Learned(
        tasted=tasted,
        not_tasted=len(taught.brews) - tasted,
        rates=learn_rates(tellings, taught, judged),
        strengths=learn_strengths(tellings, taught, judged),
        tasters=learn_tasters(tellings, taught, judged),
        cases=cases,
    )


def taught_rules(rules: RuleBase, learned: Learned) -> RuleBase:
    """The rule base with this brewer's base rates, strengths and tasters.

    The version is that of `rules`.
    """
    rates = {one.cause: one.after for one in learned.rates}
    links: dict[str, dict[str, Spread]] = {}
    for one in learned.strengths:
        links.setdefault(one.compound, {})[one.cause] = one.after
    causes, compounds = dict(rules.causes), dict(rules.compounds)
    for key, spread in rates.items():
        number = _number(causes[key].base_rate, spread)
        causes[key] = causes[key].model_copy(update={"base_rate": number})
    for key, strengths in links.items():
        card = compounds[key]
        made_by = {**card.made_by, **_numbers(card.made_by, strengths)}
        compounds[key] = card.model_copy(update={"made_by": made_by})
    notices = {
        (fold(one.taster), one.compound): keenness(one.after.mean, one.before.mean)
        for one in learned.tasters
    }
    moved = replace(rules, causes=causes, compounds=compounds, notices=notices)
    # The cards that ship are what a version names; what moved is told beside it.
    vars(moved)["version"] = rules.version
    return moved


def _numbers(numbers: Mapping[str, Number], spreads: Mapping[str, Spread]) -> Mapping[str, Number]:
    return {key: _number(numbers[key], spread) for key, spread in spreads.items()}


def _number(number: Number, spread: Spread) -> Number:
    low, high = spread.ends()
    ends = {"low": min(low, spread.mean), "high": max(high, spread.mean)}
    return number.model_copy(update={"value": spread.mean, **ends, "note": _NOTE})


_NOTE = "moved by this brewer's own batches"
