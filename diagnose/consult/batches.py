"""A record checked and shown: what was typed, what it was read as, what it comes to."""

from diagnose.answers import (
    BatchAnswer,
    BatchCheck,
    CitedSource,
    EntryLine,
    MeasureLine,
    OpenMeasure,
)
from diagnose.batch import Moment, logged_entries
from diagnose.consult.batch_water import water_of
from diagnose.consult.beer_words import beer_text, odd_entries
from diagnose.consult.cautioning import cautions_for
from diagnose.consult.gathering import Consultation
from diagnose.documents.document import dotted
from diagnose.evidence.finding import ClassFinding, Finding, NumberFinding
from diagnose.evidence.measuring import facts_of, what_would_close
from diagnose.knowledge import RuleBase
from diagnose.units import Field, Reading, show


def check_batch(rules: RuleBase, consultation: Consultation) -> BatchCheck:
    """A record that could be read: how many entries it has, which look odd, and what may hurt."""
    return BatchCheck(
        batch=consultation.batch.name,
        cautions=cautions_for(rules, consultation, ()),
        entries=sum(1 for _ in logged_entries(consultation.batch.record)),
        odd_entries=odd_entries(consultation),
    )


def show_batch(rules: RuleBase, consultation: Consultation) -> BatchAnswer:
    """The record's entries and every measure, with those that stay open; cautions come first."""
    findings, batch = consultation.known.findings, consultation.batch
    measures = tuple(_measure(rules, finding) for finding in findings.values())
    return BatchAnswer(
        batch=batch.name,
        beer=beer_text(consultation),
        cautions=cautions_for(rules, consultation, ()),
        entries=tuple(_entries(consultation)),
        measures=measures,
        sources=_cited(rules, measures),
        water=water_of(facts_of(rules, batch, consultation.log), findings.get("has_extract")),
        open_measures=_open_measures(rules, consultation),
        odd_entries=odd_entries(consultation),
    )


def _open_measures(rules: RuleBase, consultation: Consultation) -> tuple[OpenMeasure, ...]:
    closing = what_would_close(rules, consultation.batch, consultation.log)
    return tuple(
        OpenMeasure(
            id=key,
            name=rules.measures[key].name,
            closed_by=tuple(dotted(path) for path in paths),
            asks=rules.measures[key].asks,
        )
        for key, paths in closing.items()
    )


def _cited(rules: RuleBase, measures: tuple[MeasureLine, ...]) -> tuple[CitedSource, ...]:
    """Every source that a measure rests on, once, in the order of the measures."""
    ids = dict.fromkeys(source for measure in measures for source in measure.sources)
    return tuple(CitedSource(id=one, citation=rules.sources[one].citation) for one in ids)


def _entries(consultation: Consultation) -> list[EntryLine]:
    """Every entry as it was read, in the order of the file."""
    document = consultation.batch.document
    lines = []
    for path, value in logged_entries(consultation.batch.record):
        typed, read_as = _both(value)
        key = document.fault(path, "", "").key
        lines.append(EntryLine(key=key, typed=typed, read_as=read_as, line=document.line(path)))
    return sorted(lines, key=lambda entry: entry.line)


def _both(value: object) -> tuple[str, str]:
    """What was typed, and what it was read as where that says more."""
    if isinstance(value, Reading):
        return value.typed, show(value, Field(value.unit))
    if isinstance(value, Moment):
        read_as = (
            value.at.isoformat(sep=" ", timespec="minutes") if value.at else "counted from brew day"
        )
        return value.typed, read_as
    return str(value), str(value)


def _measure(rules: RuleBase, finding: Finding) -> MeasureLine:
    card = rules.measures[finding.measure]
    band = finding.band if isinstance(finding, NumberFinding) else None
    return MeasureLine(
        id=card.id,
        name=card.name,
        low=band.low if band else None,
        mid=band.mid if band else None,
        high=band.high if band else None,
        unit=card.unit,
        value=finding.value if isinstance(finding, ClassFinding) else None,
        says=finding.says,
        formula=card.formula,
        sources=card.rests_on,
        where=finding.where,
    )
