"""Sentences of a diagnosis: what each piece of evidence says about a cause."""

from diagnose.answers import EvidenceLine, not_words
from diagnose.evidence.finding import Finding
from diagnose.evidence.gathering import Known
from diagnose.evidence.weighing import decibans_of
from diagnose.knowledge import RuleBase


def evidence_line(
    rules: RuleBase, known: Known, piece: tuple[str, str], at: tuple[str, float]
) -> EvidenceLine:
    """What a piece of evidence does to a cause, in words.

    Args:
        rules: the rule base.
        known: what is known about the batch.
        piece: kind and key of the piece.
        at: the cause, and what the piece does to its odds [decibans].
    """
    kind, key = piece
    text, source = _text_and_source(rules, known, piece, at)
    own = kind == "word" or source != ""
    return EvidenceLine(kind=kind, key=key, text=text, decibans=at[1], source=source, own=own)


def _text_and_source(
    rules: RuleBase, known: Known, piece: tuple[str, str], at: tuple[str, float]
) -> tuple[str, str]:
    (kind, key), (cause, _) = piece, at
    if kind == "measure":
        return _measure_text(rules, known.findings[key], at)
    if kind == "circumstance":
        value = known.circumstances[key]
        table = rules.causes[cause].circumstances.get(key)
        return rules.circumstances[key].values[value].says, table.source if table else ""
    if kind == "check":
        return _check_text(rules, key, known.checks[key])
    return _word_text(rules, known, key), ""


def _check_text(rules: RuleBase, key: str, result_id: str) -> tuple[str, str]:
    check = rules.checks[key]
    result = next(result for result in check.results if result.id == result_id)
    return f"{check.name}: {result.says}", check.speaks_for[0].source


def _measure_text(rules: RuleBase, finding: Finding, at: tuple[str, float]) -> tuple[str, str]:
    cause, decibans = at
    for indicator in rules.causes[cause].indicators:
        if indicator.measure == finding.measure:
            own = decibans_of(indicator, finding)
            if own * decibans < 0.0:
                side = "for" if own > 0.0 else "against"
                text = f"{finding.says}: {side} it too, but louder {side} another suspect"
                return text, indicator.source
            return f"{finding.says}; {indicator.because}", indicator.source
    return f"{finding.says}, which speaks through another suspect", ""


def _word_text(rules: RuleBase, known: Known, descriptor: str) -> str:
    name = rules.descriptors[descriptor].name
    heard = next((one for one in known.heard if one.descriptor == descriptor), None)
    if heard is None or heard.state == "absent":  # another sense of a word that was denied
        return not_words(name)
    return f"{name}, {heard.intensity}" if heard.intensity else name
