"""What a page shows beside a diagnosis, from the record."""

from diagnose.answers import Diagnosis
from diagnose.answers.background import Background, FigureLine, TastingLine
from diagnose.batch import Moment, NotLogged, logged_entries
from diagnose.consult.gathering import Consultation
from diagnose.consult.naming import without_names
from diagnose.consult.tracing import trace_of
from diagnose.knowledge import RuleBase
from diagnose.units import Field, Reading, show

_SHOWN = (Field.TEMPERATURE, Field.VOLUME)


def to_show(
    rules: RuleBase, consultation: Consultation, diagnosis: Diagnosis, *, names: bool
) -> tuple[Diagnosis, Background]:
    """A diagnosis and its background as they may be shown: with or without people's names."""
    background = background_of(rules, consultation, diagnosis)
    return (diagnosis, background) if names else without_names(diagnosis, background)


def background_of(rules: RuleBase, consultation: Consultation, diagnosis: Diagnosis) -> Background:
    """What a page shows beside a diagnosis.

    Args:
        rules: the rule base.
        consultation: the batch.
        diagnosis: what came of it; names the compounds and descriptors to look up.
    """
    record = consultation.batch.record
    return Background(
        brewer=_text(record.brewer),
        brewed=_text(record.brewed),
        tastings=tuple(
            TastingLine(when=_text(one.when), who=_text(one.who), words=_text(one.words))
            for one in record.tastings
        ),
        figures=tuple(_figures(consultation)),
        names=_names(rules, diagnosis),
        trace=trace_of(consultation),
    )


def _text(entry: str | Moment | NotLogged) -> str:
    if isinstance(entry, Moment):
        return entry.typed
    return entry if isinstance(entry, str) else ""


def _figures(consultation: Consultation) -> list[FigureLine]:
    document = consultation.batch.document
    return [
        FigureLine(
            key=document.fault(path, "", "").key,
            typed=value.typed,
            both=show(value, Field(value.unit)),
        )
        for path, value in logged_entries(consultation.batch.record)
        if isinstance(value, Reading) and Field(value.unit) in _SHOWN
    ]


def _names(rules: RuleBase, diagnosis: Diagnosis) -> dict[str, str]:
    paths = [path for group in diagnosis.faults for one in group.causes for path in one.paths]
    names = {compound: rules.compounds[compound].name for _, compound, _ in paths}
    words = {word: rules.descriptors[word].name for _, _, word in paths}
    return dict(sorted((names | words).items()))
