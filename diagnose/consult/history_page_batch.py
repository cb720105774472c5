"""One batch for one page: its record, tastings, diagnoses, verdicts, log and versions."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, TypeVar

from diagnose.answers import not_words
from diagnose.answers.background import Trace
from diagnose.answers.caution import CautionLine
from diagnose.answers.history_page import (
    BatchPage,
    DiagnosedLine,
    EntryLine,
    ShareLine,
    TastedLine,
    VersionLine,
)
from diagnose.consult.gathering import Consultation
from diagnose.consult.history_names import Clean
from diagnose.consult.history_page_notes import day_of, split_lines, verdict_lines
from diagnose.consult.tracing import trace_of
from diagnose.errors import UnusableInput
from diagnose.evidence.beer import beer_of
from diagnose.evidence.gathering import Known
from diagnose.history.brews import notes_of
from diagnose.history.kinds import DiagnosisNote, PanelNote, SplitNote, TastingNote, Verdict
from diagnose.history.noting import Noted
from diagnose.history.opening import Store
from diagnose.history.replaying import batch_of
from diagnose.history.showing import BatchShown, VersionShown
from diagnose.knowledge import RuleBase
from diagnose.units import Field, Reading, show

Kind = TypeVar("Kind", SplitNote, PanelNote)
# Suspects of each diagnosis that are named.
_SUSPECTS = 3


@dataclass(frozen=True)
class Told:
    """What a page of one batch is made from: its key, the batch as it may be shown, remarks."""

    key: str
    shown: BatchShown
    remarks: tuple[str, ...]
    cautions: tuple[CautionLine, ...]


def batch_page(
    rules: RuleBase, store: Store, told: Told, *, clean: Clean, today: date
) -> BatchPage:
    """A batch with everything that was said of it.

    Args:
        rules: the rule base.
        store: the history.
        told: the batch.
        clean: what leaves names out, or leaves all as it is.
        today: as records are read.

    Raises:
        StoreUnusable: the store cannot be read.
    """
    key, shown = told.key, told.shown
    typed = {str(one["key"]): str(one["typed"]) for one in shown.entries}
    return BatchPage(
        name=shown.name,
        key=shown.key,
        brewed_on=typed.get("brewed"),
        withdrawn=shown.withdrawn,
        cautions=told.cautions,
        remarks=tuple(map(clean, told.remarks)),
        entries=tuple(map(_entry, shown.entries)),
        tastings=(*_recorded(rules, shown), *_noted(rules, store, key, clean)),
        diagnoses=tuple(map(_diagnosed, notes_of(store, DiagnosisNote, key))),
        verdicts=verdict_lines(rules, notes_of(store, Verdict, key), clean),
        splits=split_lines(rules, _about(notes_of(store, SplitNote), key), clean),
        panels=tuple(clean(_panel(one)) for one in _about(notes_of(store, PanelNote), key)),
        versions=tuple(map(_version, shown.versions)),
        trace=None if shown.withdrawn else _trace(rules, store, (key, clean), today),
    )


def _entry(entry: Mapping[str, Any]) -> EntryLine:
    """An entry as typed; a quantity that has two systems of units in both."""
    both = ""
    if "unit" in entry:
        value, low, high = (float(entry[one]) for one in ("value", "low", "high"))
        reading = Reading(str(entry["typed"]), value, low, high, str(entry["unit"]))
        said = show(reading, Field(reading.unit))
        both = said if said.endswith(")") else ""
    return EntryLine(key=str(entry["key"]), typed=str(entry["typed"]), both=both)


def _recorded(rules: RuleBase, shown: BatchShown) -> list[TastedLine]:
    return [
        TastedLine(
            who=str(one["who"] or ""),
            when=str(one["when"] or "")[:10],
            words=str(one["words"]),
            taken_for=_taken_for(rules, one["reported"], one["absent"]),
        )
        for one in shown.tastings
    ]


def _noted(rules: RuleBase, store: Store, key: str, clean: Clean) -> list[TastedLine]:
    return [
        TastedLine(
            who=clean(one.note.who or ""),
            when=day_of(one),
            words=clean(one.note.typed),
            taken_for=_taken_for(rules, one.note.reported, one.note.absent),
        )
        for one in notes_of(store, TastingNote, key)
    ]


def _taken_for(rules: RuleBase, reported: Mapping[str, str | None], absent: Iterable[str]) -> str:
    read = [
        f"{_word(rules, word)} ({how})" if how else _word(rules, word)
        for word, how in reported.items()
    ]
    return ", ".join([*read, *(not_words(_word(rules, word)) for word in absent)]) or "no flavour"


def _word(rules: RuleBase, word: str) -> str:
    card = rules.descriptors.get(word)
    return card.name if card else word.replace("_", " ")


def _diagnosed(noted: Noted[DiagnosisNote]) -> DiagnosedLine:
    """A diagnosis as it was printed then; its names are those of its own rule base."""
    answer = noted.note.answer
    causes = [cause for group in answer.get("faults", ()) for cause in group["causes"]]
    shares = {str(one["name"]): float(one["responsible"]) for one in reversed(causes)}
    first = sorted(shares.items(), key=lambda one: -one[1])[:_SUSPECTS]
    return DiagnosedLine(
        on=day_of(noted),
        rules=noted.note.rules_version,
        verdict=str(answer.get("verdict_text", "")),
        suspects=tuple(ShareLine(name=name, share=share) for name, share in first),
    )


def _about(noted: Iterable[Noted[Kind]], key: str) -> list[Noted[Kind]]:
    return [one for one in noted if key == one.batch or key in _batches(one.note)]


def _batches(note: SplitNote | PanelNote) -> tuple[str, ...]:
    return note.batches if isinstance(note, PanelNote) else tuple(arm.batch for arm in note.arms)


def _panel(noted: Noted[PanelNote]) -> str:
    results = [f"{one.taster}: {one.correct} of {one.trials} right" for one in noted.note.results]
    said = f" (\u201c{noted.note.typed}\u201d)" if noted.note.typed else ""
    return f"{day_of(noted)}, {noted.note.method}{said}: {'; '.join(results) or 'no answers'}."


def _version(version: VersionShown) -> VersionLine:
    of = f" from version {version.of_number}" if version.of_number else ""
    why = f": {version.reason}" if version.reason else ""
    changes = [
        f"{one.entry}: {one.was or 'nothing'} \u2192 {one.now or 'nothing'}"
        for one in version.changed
    ]
    if version.other_probe_log:
        changes.append("another probe log")
    what = f"{version.number}. {version.how}{of}, {version.made_at[:10]}{why}"
    return VersionLine(what=what, changes=tuple(changes))


def _trace(rules: RuleBase, store: Store, named: tuple[str, Clean], today: date) -> Trace | None:
    """The probe log; none where the record does not read any more as it did when it was kept."""
    key, clean = named
    try:
        batch, log = batch_of(store, key, today)
        beer = beer_of(rules, batch)
    except UnusableInput:
        return None
    trace = trace_of(Consultation(batch, log, beer, (), Known({}, {}, {}, ())))
    return trace.model_copy(update={"file": clean(trace.file)}) if trace else None
