"""The verdict: one word for scripts, one sentence for the brewer."""

import math
from collections.abc import Iterable

from diagnose.answers import (
    FaultGroup,
    OneForAll,
    RankedCause,
    Separating,
    Verdict,
    chance_words,
    lower_first,
    percent,
)
from diagnose.knowledge import RuleBase

# A first suspect at least this likely, and this many times likelier than the second, is
# "separated"; where none reaches the floor, and no family of them is sure, all is open. Judgement.
SURE_FROM = 0.55
TIMES_LIKELIER = 2.5
OPEN_BELOW = 0.25
# Of the ways in which known causes explain every group, this part must be one cause's doing for
# the verdict to be one fault: as likely as not.
SHARED_FROM = 0.5
# A question that is expected to tell at least this part of what is open "would" tell two apart.
SETTLES_FROM = 0.5
CANNOT_TELL = "cannot tell these two apart yet"
NOTHING_WRONG = "The beer is praised and no fault is named, so there is nothing to explain."
NOTHING_NAMED = "No flavour known here was named, so there is nothing to explain yet."
NOTHING_WOULD = ", and no one question or check here is likely to"


def verdict_of(
    rules: RuleBase,
    faults: tuple[FaultGroup, ...],
    for_all: tuple[OneForAll, ...] = (),
    apart: Separating | None = None,
    *,
    praised: bool = False,
) -> tuple[Verdict, str]:
    """The verdict in one word and in one sentence.

    Groups that nothing here explains, and groups that the beer brings by itself, do not make a
    second fault; they are named beside the verdict on the others.

    Args:
        rules: the rule base.
        faults: the groups of words.
        for_all: the likeliest causes of all groups at once.
        apart: what would best tell the first two of these apart.
        praised: whether the beer was only praised.
    """
    if not faults:
        return "open", NOTHING_WRONG if praised else NOTHING_NAMED
    open_groups = tuple(group for group in faults if _is_open(group))
    expected = tuple(group for group in faults if _is_expected(group))
    faulty = tuple(group for group in faults if group not in (*open_groups, *expected))
    if faulty:
        verdict, text = _verdict_of_faults(rules, faulty, (for_all, apart))
    elif expected:
        verdict, text = "expected", _expected_text(rules, expected)
    else:
        return "open", _open_text(faults[0].causes[0])
    if open_groups:
        text += f" Unexplained: {_words(rules, *open_groups)}."
    if expected and faulty:
        text += f" The beer brings {_words(rules, *expected)} by itself."
    return verdict, text


def _is_open(group: FaultGroup) -> bool:
    first = max(group.causes[0].responsible, group.expected_here)
    family = max((family.responsible for family in group.families), default=0.0)
    unexplained = group.not_in_rule_base > max(first, family)
    return unexplained or (first < OPEN_BELOW and family < SURE_FROM)


def _is_expected(group: FaultGroup) -> bool:
    return not _is_open(group) and group.expected_here > group.causes[0].responsible


def _verdict_of_faults(
    rules: RuleBase,
    faults: tuple[FaultGroup, ...],
    shared: tuple[tuple[OneForAll, ...], Separating | None],
) -> tuple[Verdict, str]:
    for_all, apart = shared
    if len(faults) == 1:
        return _verdict_of_one(faults[0])
    explained = math.prod(1.0 - g.not_in_rule_base - g.expected_here for g in faults)
    if for_all and sum(one.probability for one in for_all) >= SHARED_FROM * explained:
        return _verdict_of_shared(for_all, apart)
    family = _family_of_all(faults)
    names = dict.fromkeys(group.causes[0].name for group in faults)
    if len(names) == 1:
        return "close", _first_of_each_text(rules, faults, family)
    if family is not None:
        firsts = _listed(map(lower_first, names))
        return "close", f"{family} may be behind all of it: {firsts} come first."
    return "two_faults", _two_faults_text(rules, faults)


def _first_of_each_text(rules: RuleBase, faults: tuple[FaultGroup, ...], family: str | None) -> str:
    shares = [f"{percent(one.causes[0].responsible)} for {_words(rules, one)}" for one in faults]
    name = faults[0].causes[0].name
    if family is not None:
        start = f"{family} may be behind all of it: {lower_first(name)} comes first for each"
        return f"{start} ({'; '.join(shares)})."
    return f"{name} comes first for each ({'; '.join(shares)}); it may be one fault or several."


def _two_faults_text(rules: RuleBase, faults: tuple[FaultGroup, ...]) -> str:
    apart = [
        f"{_words(rules, group)} (first: {lower_first(group.causes[0].name)}, "
        f"{percent(group.causes[0].responsible)})"
        for group in faults
    ]
    return f"No one compound gives all of it, so these may be separate faults: {'; '.join(apart)}."


def _family_of_all(faults: tuple[FaultGroup, ...]) -> str | None:
    """The family that is likely in every group, where there is one."""
    likely = [
        {family.name for family in group.families if family.responsible >= SURE_FROM}
        for group in faults
    ]
    return min(set.intersection(*likely), default=None)


def _words(rules: RuleBase, *groups: FaultGroup) -> str:
    return _listed(rules.descriptors[word].name for group in groups for word in group.descriptors)


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last


def _verdict_of_shared(
    for_all: tuple[OneForAll, ...], apart: Separating | None
) -> tuple[Verdict, str]:
    first, *others = for_all
    chance = chance_words(first.probability)
    if first.probability >= SURE_FROM:
        return "separated", f"Behind all of it: {first.name} ({chance})."
    told = f"Behind all of it, perhaps: {first.name} ({chance})"
    if not others or first.probability >= TIMES_LIKELIER * others[0].probability:
        return "close", f"{told}."
    second = f"{lower_first(others[0].name)} ({percent(others[0].probability)})"
    return "close", f"{told} or {second}: {_cannot_tell(apart)}"


def _verdict_of_one(group: FaultGroup) -> tuple[Verdict, str]:
    first, second = group.causes[0], group.causes[1]
    if first.responsible >= SURE_FROM and first.responsible >= TIMES_LIKELIER * second.responsible:
        return "separated", f"{first.name}: {chance_words(first.responsible)}."
    of_them = _family_text(group)
    if first.responsible < TIMES_LIKELIER * second.responsible:
        told = f"{of_them}{first.name} ({percent(first.responsible)})"
        other = f"{lower_first(second.name)} ({percent(second.responsible)})"
        return "close", f"{told} or {other}: {_cannot_tell(group.told_apart_by)}"
    if of_them:
        return "close", (
            f"{of_them}Which one is open; {lower_first(first.name)} comes first "
            f"({percent(first.responsible)}).{_asked(group.told_apart_by)}"
        )
    return "close", (
        f"{first.name} is ahead ({chance_words(first.responsible)}), but "
        f"{lower_first(second.name)} ({percent(second.responsible)}) is not ruled out."
        f"{_asked(group.told_apart_by)}"
    )


def _family_text(group: FaultGroup) -> str:
    """The family that is surer than any one cause of it; empty where there is none."""
    family = group.families[0] if group.families else None
    if family is None or not group.causes[0].responsible < SURE_FROM <= family.responsible:
        return ""
    return f"{family.name}: {chance_words(family.responsible)}. "


def _cannot_tell(apart: Separating | None) -> str:
    return f"{CANNOT_TELL}{'' if apart else NOTHING_WOULD}.{_asked(apart)}"


def _asked(apart: Separating | None) -> str:
    """What would tell two apart, as far as it would."""
    if apart is None:
        return ""
    would = "This would" if apart.gain_bits >= SETTLES_FROM * apart.open_bits else "To tell, ask"
    return f" {would}: {apart.text}"


def named_in(text: str, faults: tuple[FaultGroup, ...], apart: Separating | None) -> frozenset[str]:
    """The ids of the questions that a verdict names."""
    offered = (apart, *(group.told_apart_by for group in faults))
    return frozenset(one.id for one in offered if one is not None and one.text in text)


def _expected_text(rules: RuleBase, groups: tuple[FaultGroup, ...]) -> str:
    chance = chance_words(min(group.expected_here for group in groups))
    words = _words(rules, *groups)
    return (
        f"This beer brings {words} by itself ({chance}): a fault only if it is far stronger than "
        "the style wants."
    )


def _open_text(first: RankedCause) -> str:
    if all(line.kind == "word" for line in first.evidence):
        return (
            f"The words alone do not settle it; {lower_first(first.name)} comes first with "
            f"{percent(first.responsible)}. Answer the best questions before you change anything."
        )
    return (
        "Nothing known here explains it well. Work through the best questions and checks before "
        "you change anything."
    )
