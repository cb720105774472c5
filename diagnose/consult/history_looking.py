"""The contrast of flawed and clean batches, in words; nothing is claimed that the n cannot bear."""

import math
from collections.abc import Iterable, Sequence, Set

import numpy as np

from diagnose.answers.history_looking import Contrast, MovedWith, SuspectLine
from diagnose.consult.history_looking_figures import figures_of
from diagnose.consult.history_looking_words import contrast_says, split_advised
from diagnose.consult.history_shared_cause import causes_that_give, shared_causes
from diagnose.history.brews import Brew
from diagnose.history.learning_heard import heard_in
from diagnose.history.statistics.aliasing import Alias, aliases_of
from diagnose.history.statistics.columns import Column, Flags, columns_of
from diagnose.history.statistics.reach import clean_in_a_row, luck
from diagnose.history.statistics.screening import (
    Suspect,
    effect_of,
    screen,
    second_look,
    table_of,
)
from diagnose.knowledge import RuleBase

LEVEL = 0.05
SHOWN = 10
_SHOWN_ALIASES = 8
# The foremost are held against all other factors even if they are not claimed.
_COMPARED = 3


def contrast(
    rules: RuleBase,
    brews: Sequence[Brew],
    flaw: tuple[str, Set[str]],
    events: Iterable[tuple[str, str]] = (),
    level: float = LEVEL,
) -> Contrast:
    """What separates the flawed batches from the clean ones.

    Args:
        rules: the rule base.
        brews: the batches, in brewing order; those nobody tasted, or in words that say neither
            what is wrong nor that nothing is, do not count.
        flaw: the flaw as typed, and the descriptors it may mean; a batch is flawed if any
            taster reported one of them.
        events: (day, words) of what later batches may feel.
        level: highest adjusted p that is claimed.
    """
    tasted = [one for one in heard_in(rules.lexicon, brews) if one.tastings]
    flawed = np.array([bool(flaw[1] & one.reported) for one in tasted], dtype=np.bool_)
    columns = columns_of(tasted, events)
    screening = screen(columns, flawed, level, _bearing_on(rules, flaw[1]))
    lines = tuple(
        _line(rules, one, (columns if _worth_comparing(one, place, level) else (), flawed), level)
        for place, one in enumerate(screening.suspects[:SHOWN])
    )
    bad = int(flawed.sum())
    rate = bad / len(tasted) if tasted else 0.0
    answer = Contrast(
        flaw=flaw[0],
        descriptors=tuple(sorted(flaw[1])),
        flawed=bad,
        clean=len(tasted) - bad,
        not_tasted=len(brews) - len(tasted),
        level=level,
        tested=len(screening.suspects),
        beyond_reach=tuple(_name(rules, one) for one in screening.beyond_reach),
        suspects=lines,
        # With one flawed batch there is nothing to share.
        model=shared_causes(rules, flaw[1], (tasted, flawed), columns) if bad > 1 else None,
        split=split_advised(lines),
        clean_in_a_row=clean_in_a_row(rate, level),
        luck_of_one_clean=luck(rate, 1) if bad else None,
        luck_of_three_clean=luck(rate, 3) if bad else None,
        says=(),
    )
    latest = tasted[int(np.flatnonzero(flawed)[-1])].key if bad else None
    worth = figures_of(rules)["shared_cause_worth_a_split"]
    return answer.model_copy(update={"says": contrast_says(answer, latest, worth)})


def _worth_comparing(one: Suspect, place: int, level: float) -> bool:
    """Whether to ask what moved with a suspect: of one that says nothing it does not matter."""
    return one.p_adjusted <= level or place < _COMPARED


def _bearing_on(rules: RuleBase, flaw: Set[str]) -> frozenset[str]:
    """Measures that speak for or against a cause of the flaw; they are named before others."""
    return frozenset(
        indicator.measure
        for cause in causes_that_give(rules, flaw)
        for indicator in rules.causes[cause].indicators
    )


def _line(
    rules: RuleBase, one: Suspect, over: tuple[Sequence[Column], Flags], level: float
) -> SuspectLine:
    columns, flawed = over
    column = one.column
    effect = effect_of(column, flawed, level)
    table = table_of(column, flawed) if column.word is not None else None
    aliases = aliases_of(column, columns, flawed, level)[:_SHOWN_ALIASES]
    return SuspectLine(
        name=_name(rules, column),
        test=_test(one),
        flawed=one.n_flawed,
        clean=one.n_clean,
        flawed_with=table.flawed_with if table else None,
        clean_with=table.clean_with if table else None,
        p=one.p,
        p_adjusted=one.p_adjusted,
        claimed=one.p_adjusted <= level,
        second_p=second_look(column, flawed),
        effect=effect.value,
        effect_low=_known(effect.low),
        effect_high=_known(effect.high),
        unit=_unit(rules, column),
        moved_with=tuple(_moved(rules, alias) for alias in aliases),
    )


def _test(one: Suspect) -> str:
    if one.column.word is not None:
        return "Fisher"
    return "Mann-Whitney" if one.exact else "Mann-Whitney, approximate"


def _moved(rules: RuleBase, alias: Alias) -> MovedWith:
    apart = alias.apart
    return MovedWith(
        name=_name(rules, alias.column),
        together=min(1.0, alias.together),
        differ=alias.differ,
        separable=alias.separable,
        suspect_alone=apart.flawed_without + apart.clean_without if apart else None,
        suspect_alone_flawed=apart.flawed_without if apart else None,
        this_alone=apart.with_it if apart else None,
        this_alone_flawed=apart.flawed_with if apart else None,
    )


def _known(end: float) -> float | None:
    return end if math.isfinite(end) else None


def _name(rules: RuleBase, column: Column) -> str:
    card = rules.measures.get(column.factor)
    name = card.name if card else column.factor
    return name if column.word is None else f"{name}: {column.word.replace('_', ' ')}"


def _unit(rules: RuleBase, column: Column) -> str:
    if column.word is not None:
        return "share"
    if column.factor == "brew day":
        return "days"
    card = rules.measures.get(column.factor)
    return card.unit if card else ""
