"""What the brewer's own batches teach, as an answer with its reasons."""

import math
from collections.abc import Iterable, Sequence
from typing import TypeVar

from diagnose.answers import LearnedUse
from diagnose.answers.history_learning import (
    CaseLine,
    HistoryLearned,
    JudgedLine,
    RateLine,
    SpreadLine,
    StrengthLine,
    TasterLine,
)
from diagnose.consult.history_learning_words import (
    case_says,
    learned_says,
    rate_says,
    strength_says,
    taster_says,
)
from diagnose.history.cases import Case
from diagnose.history.learning import Learned, learn, taught_rules
from diagnose.history.learning_beta import Spread
from diagnose.history.learning_facts import Judged, taught_by
from diagnose.history.learning_rates import RateMoved
from diagnose.history.learning_strengths import StrengthMoved
from diagnose.history.learning_switch import is_on
from diagnose.history.learning_tasters import TasterMoved
from diagnose.history.opening import Store
from diagnose.knowledge import RuleBase

Moved = TypeVar("Moved", RateMoved, StrengthMoved)
# A number that moved by less than this share of itself is not named. Judgement.
WORTH_NAMING = 0.1


def learned_from(rules: RuleBase, store: Store, offers: Sequence[str] = ()) -> HistoryLearned:
    """What the batches of a store teach.

    Args:
        rules: the rule base as it ships.
        store: the history.
        offers: sentences about instruments that were off.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    taught, on = taught_by(store), is_on(store)
    learned = learn(rules, taught)
    return HistoryLearned(
        rules=rules.version,
        on=on,
        tasted=learned.tasted,
        not_tasted=learned.not_tasted,
        rates=tuple(_rate(rules, one) for one in _most_moved(learned.rates)),
        strengths=tuple(_strength(rules, one) for one in _most_moved(learned.strengths)),
        tasters=tuple(_taster(rules, one) for one in learned.tasters),
        cases=tuple(_case(rules, one) for one in learned.cases),
        offers=tuple(offers),
        says=learned_says(learned, taught.suspected, named_rates(learned.rates), on=on),
    )


def case_lines(rules: RuleBase, store: Store, batch: str) -> tuple[str, ...]:
    """How the cases of one batch stand, a sentence each."""
    found = learn(rules, taught_by(store)).cases
    return tuple(case_says(rules, one) for one in found if one.batch == batch)


def use_learned(rules: RuleBase, store: Store, batch: str | None) -> tuple[RuleBase, LearnedUse]:
    """The rule base to diagnose a batch with, and what to say of it.

    Args:
        rules: the rule base as it ships.
        store: the history.
        batch: the key of the batch that is diagnosed, if it is there: what is said of it does
            not count, as it would be counted twice.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    if not is_on(store):
        return rules, LearnedUse(used=False, batches=0, base_rates=(), strengths=(), says=_OFF)
    learned = learn(rules, taught_by(store, apart_from=batch))
    rates = tuple(one.cause for one in named_rates(learned.rates))
    links = tuple((one.cause, one.compound) for one in learned.strengths if is_named(one))
    use = LearnedUse(
        used=True,
        batches=learned.tasted,
        base_rates=rates,
        strengths=links,
        tasters=tuple(dict.fromkeys(one.taster for one in learned.tasters)),
        says=_use_says(learned, len(rates), len(links), apart=batch is not None),
    )
    return taught_rules(rules, learned), use


_OFF = (
    "Does not use what your batches taught: it is switched off ('faultwort history learn --apply')."
)


def _use_says(learned: Learned, rates: int, links: int, *, apart: bool) -> str:
    batches, tasters = learned.tasted, len({one.taster for one in learned.tasters})
    moved = [_counted(rates, "base rate")] + ([_counted(links, "link")] if links else [])
    what = "batch" if batches == 1 else "batches"
    by = f"{' and '.join(moved)} moved by a tenth or more"
    palates = f" It knows how much {_counted(tasters, 'taster')} noticed." if tasters else ""
    which, left = (" other", " This batch itself is left out.") if apart else ("", "")
    return f"Uses what your {batches}{which} tasted {what} taught: {by}.{left}{palates}"


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def named_rates(rates: Iterable[RateMoved]) -> list[RateMoved]:
    """The base rates that moved far enough to be named, those moved most first."""
    return [one for one in _most_moved(rates) if is_named(one)]


def is_named(one: RateMoved | StrengthMoved) -> bool:
    """Whether a number moved far enough to be named."""
    return abs(one.after.mean / one.before.mean - 1.0) >= WORTH_NAMING


def _most_moved(moved: Iterable[Moved]) -> list[Moved]:
    return sorted(moved, key=_how_far)


def _how_far(one: RateMoved | StrengthMoved) -> tuple[bool, float, str]:
    # What a verdict moved comes before what clean batches alone did.
    far = abs(math.log(one.after.mean / one.before.mean))
    return not one.judged, -far, one.cause


def _rate(rules: RuleBase, one: RateMoved) -> RateLine:
    return RateLine(
        cause=one.cause,
        name=rules.causes[one.cause].name,
        before=_spread(one.before),
        after=_spread(one.after),
        at_risk=one.at_risk,
        judged=_judged(one.judged),
        told=one.told,
        quiet=one.quiet,
        says=rate_says(one),
    )


def _strength(rules: RuleBase, one: StrengthMoved) -> StrengthLine:
    return StrengthLine(
        cause=one.cause,
        cause_name=rules.causes[one.cause].name,
        compound=one.compound,
        compound_name=rules.compounds[one.compound].name,
        before=_spread(one.before),
        after=_spread(one.after),
        told=one.told,
        judged=_judged(one.judged),
        says=strength_says(one),
    )


def _taster(rules: RuleBase, one: TasterMoved) -> TasterLine:
    return TasterLine(
        taster=one.taster,
        compound=one.compound,
        name=rules.compounds[one.compound].name,
        before=_spread(one.before),
        after=_spread(one.after),
        right=one.right,
        trials=one.trials,
        named=one.named,
        shared=one.shared,
        says=taster_says(one),
    )


def _case(rules: RuleBase, one: Case) -> CaseLine:
    return CaseLine(
        batch=one.batch,
        cause=one.cause,
        name=rules.causes[one.cause].name,
        state=one.state,
        said=one.said,
        now=one.now,
        since=one.since,
        flawed_since=one.flawed_since,
        tasted_since=one.tasted_since,
        says=case_says(rules, one),
    )


def _spread(one: Spread) -> SpreadLine:
    low, high = one.ends()
    return SpreadLine(value=one.mean, low=low, high=high, weight=one.weight)


def _judged(several: Iterable[Judged]) -> tuple[JudgedLine, ...]:
    return tuple(
        JudgedLine(
            batch=one.batch, on=one.day, basis=one.basis, state=one.state, believed=one.acted
        )
        for one in several
    )
