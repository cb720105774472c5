"""Verdicts, splits, events and instruments as a page of the history tells them."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from diagnose.answers.history_page import HappenedLine, SplitLine, VerdictLine
from diagnose.consult.history_names import Clean
from diagnose.history.kinds import InstrumentCheck, SplitNote, Verdict
from diagnose.history.noting import Noted
from diagnose.history.off_by import off_by
from diagnose.knowledge import RuleBase

_SETTINGS = {"suspect": "the suspect's setting", "other": "the other setting"}


def cause_name(rules: RuleBase, cause: str) -> str:
    """A cause in words; one that the rule base does not have any more by its id."""
    card = rules.causes.get(cause)
    return card.name if card else cause.replace("_", " ")


def verdict_lines(
    rules: RuleBase, noted: Iterable[Noted[Verdict]], clean: Clean
) -> tuple[VerdictLine, ...]:
    """The verdicts, oldest first."""
    lines = [
        VerdictLine(
            batch=clean(one.batch or ""),
            on=day_of(one),
            who=clean(one.note.who or ""),
            cause=cause_name(rules, one.note.cause),
            state=one.note.state,
            basis=one.note.basis,
            confidence=one.note.confidence,
            words=clean(one.note.typed),
        )
        for one in noted
    ]
    return tuple(sorted(lines, key=lambda line: (line.on, line.batch)))


def split_lines(
    rules: RuleBase, noted: Iterable[Noted[SplitNote]], clean: Clean
) -> tuple[SplitLine, ...]:
    """The splits, oldest first, with what each taught."""
    lines = [
        SplitLine(
            name=clean(one.note.name),
            on=day_of(one),
            cause=cause_name(rules, one.note.cause) if one.note.cause else "",
            factor=clean(one.note.factor),
            arms=tuple(
                f"{clean(arm.batch)}: {_SETTINGS.get(arm.setting, clean(arm.setting))}"
                for arm in one.note.arms
            ),
            known=_told(one.note.reading, "known", clean),
            not_known=_told(one.note.reading, "not_known", clean),
            next_=_told(one.note.reading, "next", clean),
        )
        for one in noted
    ]
    return tuple(sorted(lines, key=lambda line: (line.on, line.name)))


def _told(reading: Mapping[str, Any], key: str, clean: Clean) -> tuple[str, ...]:
    return tuple(clean(str(sentence)) for sentence in reading.get(key, ()))


def happened_lines(
    events: Iterable[tuple[str, str]], checks: Sequence[Noted[InstrumentCheck]], clean: Clean
) -> tuple[HappenedLine, ...]:
    """Events and checks of instruments, in the order in which they happened.

    Args:
        events: (day, words), fit to be shown.
        checks: every check of an instrument.
        clean: what leaves names out of the checks.
    """
    lines = [HappenedLine(on=on, kind="event", words=words) for on, words in events]
    lines += [
        HappenedLine(on=day_of(one), kind="instrument", words=clean(_checked(one.note)))
        for one in checks
    ]
    return tuple(sorted(lines, key=lambda line: (line.on, line.words)))


def _checked(note: InstrumentCheck) -> str:
    return f"{note.instrument} checked: it read {off_by(note.offset, note.unit) or 'right'}"


def day_of(noted: Noted[Any]) -> str:
    """The day a note is about; the day it was written where it does not say."""
    return (noted.note.at or noted.made_at)[:10]
