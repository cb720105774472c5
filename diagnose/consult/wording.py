"""Sentences of a diagnosis: what each piece of evidence says about a cause."""

from diagnose.evidence.finding import Finding
from diagnose.evidence.gathering import Known
from diagnose.knowledge import RuleBase


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
