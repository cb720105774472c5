"""The verdict: one word for scripts, one sentence for the brewer."""

import math

from diagnose.answers import (
    FaultGroup,
    OneForAll,
    RankedCause,
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


def verdict_of(
    rules: RuleBase, faults: tuple[FaultGroup, ...], for_all: tuple[OneForAll, ...] = ()
) -> tuple[Verdict, str]:
    """The verdict in one word and in one sentence.

    Groups that nothing here explains, and groups that the beer brings by itself, do not make a
    second fault; they are named beside the verdict on the others.
    """
    if not faults:
        return "open", "No flavour was named, so there is nothing to explain yet."
    open_groups = tuple(group for group in faults if _is_open(group))
    expected = tuple(group for group in faults if _is_expected(group))
    faulty = tuple(group for group in faults if group not in (*open_groups, *expected))
    if faulty:
        verdict, text = _verdict_of_faults(rules, faulty, for_all)
    elif expected:
        verdict, text = "expected", _expected_text(rules, expected)
    else:
        return "open", _open_text(faults[0].causes[0])
    if open_groups:
        text += f" Unexplained: {_words(rules, open_groups)}."
    if expected and faulty:
        text += f" The beer brings {_words(rules, expected)} by itself."
    return verdict, text


def _is_open(group: FaultGroup) -> bool:
    first = max(group.causes[0].responsible, group.expected_here)
    family = max((family.responsible for family in group.families), default=0.0)
    unexplained = group.not_in_rule_base > max(first, family)
    return unexplained or (first < OPEN_BELOW and family < SURE_FROM)


def _is_expected(group: FaultGroup) -> bool:
    return not _is_open(group) and group.expected_here > group.causes[0].responsible


def _verdict_of_faults(
    rules: RuleBase, faults: tuple[FaultGroup, ...], for_all: tuple[OneForAll, ...]
) -> tuple[Verdict, str]:
    if len(faults) == 1:
        return _verdict_of_one(faults[0])
    explained = math.prod(1.0 - g.not_in_rule_base - g.expected_here for g in faults)
    if for_all and sum(one.probability for one in for_all) >= SHARED_FROM * explained:
        return _verdict_of_shared(for_all[0])
    family = _family_of_all(faults)
    if family is not None:
        firsts = dict.fromkeys(lower_first(group.causes[0].name) for group in faults)
        come = "comes" if len(firsts) == 1 else "come"
        return "close", f"{family} may be behind all of it: {' and '.join(firsts)} {come} first."
    words = " and ".join(_words(rules, (group,)) for group in faults)
    apart = f"No one compound gives all of it: {words} may be separate faults."
    return "two_faults", f"{apart} {_first_suspects(rules, faults)}"


def _first_suspects(rules: RuleBase, faults: tuple[FaultGroup, ...]) -> str:
    firsts = [
        f"{lower_first(group.causes[0].name)} for {_words(rules, (group,))} "
        f"({percent(group.causes[0].responsible)})"
        for group in faults
    ]
    return f"First in line: {'; '.join(firsts)}."


def _family_of_all(faults: tuple[FaultGroup, ...]) -> str | None:
    """The family that is likely in every group, where there is one."""
    likely = [
        {family.name for family in group.families if family.responsible >= SURE_FROM}
        for group in faults
    ]
    return min(set.intersection(*likely), default=None)


def _words(rules: RuleBase, groups: tuple[FaultGroup, ...]) -> str:
    return ", ".join(rules.descriptors[word].name for group in groups for word in group.descriptors)


def _verdict_of_shared(shared: OneForAll) -> tuple[Verdict, str]:
    sure = shared.probability >= SURE_FROM
    text = f"{shared.name} may be behind all of it ({chance_words(shared.probability)})."
    return ("separated" if sure else "close"), text


def _verdict_of_one(group: FaultGroup) -> tuple[Verdict, str]:
    first, second = group.causes[0], group.causes[1]
    if first.responsible >= SURE_FROM and first.responsible >= TIMES_LIKELIER * second.responsible:
        return "separated", f"{first.name}: {chance_words(first.responsible)}."
    family = group.families[0] if group.families else None
    if family is not None and first.responsible < SURE_FROM <= family.responsible:
        return "close", (
            f"{family.name}: {chance_words(family.responsible)}. Which one is open; "
            f"{lower_first(first.name)} comes first ({percent(first.responsible)})."
            f"{_told_apart(group)}"
        )
    if first.responsible < TIMES_LIKELIER * second.responsible:
        return "close", (
            f"{first.name} ({percent(first.responsible)}) or {lower_first(second.name)} "
            f"({percent(second.responsible)}): cannot tell these two apart yet."
            f"{_told_apart(group)}"
        )
    return "close", (
        f"{first.name} is ahead ({chance_words(first.responsible)}), but "
        f"{lower_first(second.name)} ({percent(second.responsible)}) is not ruled out."
        f"{_told_apart(group)}"
    )


def _told_apart(group: FaultGroup) -> str:
    """What would tell the first two apart, as far as it would."""
    apart = group.told_apart_by
    if apart is None:
        return ""
    would = "This would" if apart.gain_bits >= SETTLES_FROM * apart.open_bits else "Best to ask"
    return f" {would}: {apart.text}"


def _expected_text(rules: RuleBase, groups: tuple[FaultGroup, ...]) -> str:
    chance = chance_words(min(group.expected_here for group in groups))
    return (
        f"This beer brings {_words(rules, groups)} by itself ({chance}): a fault only if it is far "
        "stronger than the style wants."
    )


def _open_text(first: RankedCause) -> str:
    if all(line.kind == "word" for line in first.evidence):
        return (
            f"The words alone do not settle it; {lower_first(first.name)} comes first with "
            f"{percent(first.responsible)}. Answer the questions below before you change anything."
        )
    return (
        "Nothing known here explains it well. Work through the questions and checks below before "
        "you change anything."
    )
