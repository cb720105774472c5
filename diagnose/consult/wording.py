"""Sentences of a diagnosis: what each piece of evidence says, and the verdict."""

from diagnose.answers import (
    FaultGroup,
    RankedCause,
    Verdict,
    chance_words,
    lower_first,
    percent,
)
from diagnose.evidence.finding import Finding
from diagnose.evidence.gathering import Known
from diagnose.knowledge import RuleBase

# A first suspect at least this likely, and this many times likelier than the second, is
# "separated"; below the floor nothing is. Judgement.
SURE_FROM = 0.55
TIMES_LIKELIER = 2.5
OPEN_BELOW = 0.20


def evidence_text(
    rules: RuleBase, known: Known, piece: tuple[str, str], cause: str
) -> tuple[str, str]:
    """What a piece of evidence says about a cause, and the id of the source of its weight."""
    kind, key = piece
    if kind == "measure":
        return _measure_text(rules, known.findings[key], cause)
    if kind == "circumstance":
        value = known.circumstances[key]
        table = rules.causes[cause].circumstances.get(key)
        return rules.circumstances[key].values[value].says, table.source if table else ""
    if kind == "check":
        check = rules.checks[key]
        result = next(r for r in check.results if r.id == known.checks[key])
        sources = [speaks.source for speaks in check.speaks_for]
        return f"{check.name}: {result.says}", sources[0]
    return _word_text(rules, known, key), ""


def _measure_text(rules: RuleBase, finding: Finding, cause: str) -> tuple[str, str]:
    for indicator in rules.causes[cause].indicators:
        if indicator.measure == finding.measure:
            return f"{finding.says}; {indicator.because}", indicator.source
    return f"{finding.says}, which speaks of another suspect", ""


def _word_text(rules: RuleBase, known: Known, descriptor: str) -> str:
    name = rules.descriptors[descriptor].name
    heard = next(one for one in known.heard if one.descriptor == descriptor)
    if heard.state == "absent":
        return f"no {name}"
    return f"{name}, {heard.intensity}" if heard.intensity else name


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


def verdict_of(rules: RuleBase, faults: tuple[FaultGroup, ...]) -> tuple[Verdict, str]:
    """The verdict in one word and in one sentence."""
    if not faults:
        return "open", "No flavour was named, so there is nothing to explain yet."
    shared = shared_cause(faults)
    if len(faults) > 1 and shared is not None:
        return _verdict_of_shared(faults, shared)
    if len(faults) > 1:
        words = " and ".join(
            "/".join(rules.descriptors[word].name for word in group.descriptors) for group in faults
        )
        return "two_faults", f"No one compound gives all of it: {words} may be separate faults."
    return _verdict_of_one(faults[0])


# One cause this likely in every group explains the whole, though no one compound does. Judgement.
SHARED_FROM = 0.35


def shared_cause(faults: tuple[FaultGroup, ...]) -> RankedCause | None:
    """The cause that best explains every group, where one does."""
    chances: dict[str, list[RankedCause]] = {}
    for group in faults:
        for cause in group.causes:
            chances.setdefault(cause.id, []).append(cause)
    common = [found for found in chances.values() if len(found) == len(faults)]
    weakest = [min(found, key=lambda cause: cause.responsible) for found in common]
    best = max(weakest, key=lambda cause: cause.responsible, default=None)
    return best if best is not None and best.responsible >= SHARED_FROM else None


def _verdict_of_shared(faults: tuple[FaultGroup, ...], shared: RankedCause) -> tuple[Verdict, str]:
    sure = shared.responsible >= SURE_FROM and all(
        group.causes[0].id == shared.id for group in faults
    )
    text = f"{shared.name} may be behind all of it ({chance_words(shared.responsible)})."
    return ("separated" if sure else "close"), text


def _verdict_of_one(group: FaultGroup) -> tuple[Verdict, str]:
    first, second = group.causes[0], group.causes[1]
    if group.expected_here > first.responsible and group.expected_here > OPEN_BELOW:
        return "expected", (
            f"This beer brings it by itself ({group.expected_here:.0%}): a fault only if it is "
            "far stronger than the style wants."
        )
    if group.not_in_rule_base > first.responsible or first.responsible < OPEN_BELOW:
        return "open", _open_text(first)
    if first.responsible >= SURE_FROM and first.responsible >= TIMES_LIKELIER * second.responsible:
        return "separated", f"{first.name}: {chance_words(first.responsible)}."
    return "close", (
        f"{first.name} is ahead ({chance_words(first.responsible)}), but "
        f"{lower_first(second.name)} is not ruled out."
    )
