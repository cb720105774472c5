"""What was learned, in a brewer's words, with what it rests on and what it cannot say."""

from collections.abc import Sequence

from diagnose.answers.chances import lower_first, percent
from diagnose.history.cases import Case
from diagnose.history.learning import Learned
from diagnose.history.learning_facts import CLOSED_FROM, CLOSING, Judged
from diagnose.history.learning_rates import RateMoved
from diagnose.history.learning_strengths import StrengthMoved
from diagnose.history.learning_tasters import TasterMoved
from diagnose.knowledge import RuleBase

_SHOWN = 4


def learned_says(
    learned: Learned, suspected: int, named: Sequence[RateMoved], *, on: bool
) -> tuple[str, ...]:
    """What to know before the numbers are read.

    Args:
        learned: what was learned.
        suspected: how many verdicts only suspect.
        named: the base rates that moved by a tenth or more.
        on: whether it is used.
    """
    if not learned.tasted and not learned.cases:
        so = "no rate and no link moved" if learned.tasters else "nothing was learned"
        return (f"No batch was tasted yet, so {so}.", _switch(on))
    judged = {(one.batch, one.cause) for rate in learned.rates for one in rate.judged}
    count = _many(len(judged), "verdict", "verdicts")
    found = [
        f"Learned from {_many(learned.tasted, 'tasted batch', 'tasted batches')} and {count}: "
        f"{_many(len(named), 'base rate', 'base rates')} moved by a tenth or more.",
        "A rate counts every tasted batch in which the cause was possible, clean ones too; "
        "among flawed batches alone every cause would look common.",
    ]
    found += _left_out(learned, suspected)
    if not judged:
        found.append(
            "No verdict is there yet. Say what a fault turned out to be: "
            "'faultwort history verdict BATCH CAUSE --confidence 0.8'."
        )
    return (*found, _switch(on))


def _left_out(learned: Learned, suspected: int) -> list[str]:
    found = []
    open_ = {batch for rate in learned.rates for batch in rate.told} - {
        one.batch for rate in learned.rates for one in rate.judged
    }
    if open_:
        found.append(
            f"{_many(len(open_), 'flawed batch has', 'flawed batches have')} no verdict: each "
            "speaks a little for every cause of its words. A verdict would say more."
        )
    if learned.not_tasted:
        found.append(
            f"{_many(learned.not_tasted, 'batch', 'batches')} not tasted, or in words that say "
            "neither what is wrong nor that nothing is: not counted."
        )
    if suspected:
        found.append(f"{_many(suspected, 'verdict', 'verdicts')} only suspected: not counted.")
    return found


def _switch(on: bool) -> str:
    if on:
        return (
            "Switched on: 'faultwort diagnose BATCH --learned' uses it and says so; "
            "'faultwort history learn --off' ends that."
        )
    return "Not used yet: 'faultwort history learn --apply' lets 'diagnose --learned' use it."


def rate_says(one: RateMoved) -> str:
    """The batches behind a base rate."""
    parts = [f"with a verdict on it: {_judged(one.judged)}"] if one.judged else []
    if one.told:
        parts.append(f"{len(one.told)} with a flavour it makes and no verdict")
    if one.quiet:
        parts.append(f"{one.quiet} without")
    risk = _many(one.at_risk, "tasted batch", "tasted batches")
    weight = f"the rule base's own rate weighs as much as {one.before.weight:.0f} batches"
    return f"of {risk} in which it was possible: {'; '.join(parts)}; {weight}"


def strength_says(one: StrengthMoved) -> str:
    """The batches behind a link."""
    judged = _many(len(one.judged), "judged batch", "judged batches")
    return f"told in {len(one.told)} of {judged}: {_judged(one.judged)}"


def taster_says(one: TasterMoved) -> str:
    """The glasses and batches behind a taster's chance."""
    parts = []
    if one.trials:
        parts.append(f"right in {one.right} of {one.trials} glasses with a known addition")
    if one.shared:
        batches = _many(one.shared, "batch", "batches")
        parts.append(f"named it in {one.named} of {batches} in which another taster did")
    return "; ".join(parts)


def case_says(rules: RuleBase, one: Case) -> str:
    """How a case stands, and what to do."""
    name = lower_first(rules.causes[one.cause].name)
    head = f"{one.batch}, {name} ({percent(one.said)} sure)"
    if one.state == "not closed":
        return f"{head}: not closed. {_to_close(one)}"
    if one.state == "closed":
        batches = _many(one.tasted_since, "batch", "batches")
        since = (
            f"not back in the {batches} tasted since" if one.tasted_since else "none tasted since"
        )
        return f"{head}: closed by the {one.basis}; {since}."
    if one.same_cause:
        return (
            f"{head}: open again since {one.since}, which had the same cause. "
            "The cure did not hold, or was not done."
        )
    return (
        f"{head}: open again since {one.since}, which has the flaw anew "
        f"({one.flawed_since} of {one.tasted_since} tasted since); believed to "
        f"{percent(one.now)} now."
    )


def _to_close(one: Case) -> str:
    if one.basis in CLOSING:
        return f"The {one.basis} left too much doubt; {percent(CLOSED_FROM)} or more closes it."
    word = "word" if one.basis == "brewer" else "result"
    return (
        f"It rests on the {one.basis}'s {word}; a repeat or a blind test closes it: the same "
        "verdict again with '--basis repeat', 'panel' or 'split'."
    )


def _judged(several: Sequence[Judged]) -> str:
    shown = [f"{one.batch} ({one.state}, {percent(one.acted)}, {one.basis})" for one in several]
    more = f" and {len(shown) - _SHOWN} more" if len(shown) > _SHOWN else ""
    return ", ".join(shown[:_SHOWN]) + more


def _many(number: int, one: str, several: str) -> str:
    return f"{number} {one if number == 1 else several}"
