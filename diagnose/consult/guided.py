"""A guided entry as steps: a record gives a question, an answer gives a record.

Nothing here knows a terminal or a disk; the text of the record is all there is to keep, so an
entry can be left at any moment and taken up again from its file.
"""

from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property
from pathlib import Path

from diagnose.answers.caution import CautionLine
from diagnose.answers.guided import EntryWritten
from diagnose.batch import Batch, batch_from
from diagnose.consult.cautioning import cautions_for
from diagnose.consult.gathering import consult_on
from diagnose.consult.guided_asking import (
    Asking,
    asking_of,
    is_worth_it,
    opening_question,
)
from diagnose.consult.guided_reading import (
    Desk,
    Entry,
    NotRead,
    cleaned,
    read_answer,
    says_not_known,
)
from diagnose.consult.guided_refusing import cannot_be
from diagnose.consult.guided_remarks import remarks_on
from diagnose.consult.guided_slots import inside
from diagnose.consult.guided_standing import Standing, standing_of
from diagnose.consult.guided_text import shown_value, with_entry
from diagnose.consult.guided_words import heard_line
from diagnose.documents import Document, parse_yaml
from diagnose.documents import Path as RecordPath
from diagnose.documents.document import dotted
from diagnose.errors import UnusableInput
from diagnose.knowledge import RuleBase
from diagnose.units.refusal import quoted

_HEADER = (
    "# A batch record. Every entry may be mended by hand; `unknown` was asked and not known.\n"
)


@dataclass(frozen=True)
class Past:
    """A question that was answered: the record before it, and what was written where, if at all."""

    question: str
    before: str
    path: RecordPath = ()
    written: EntryWritten | None = None


@dataclass(frozen=True)
class Sitting:
    """One sitting at a record: its text, and what was put off or may be taken back.

    `checks` says whether bench checks are asked about too, `words_only` that of the first facts
    only the words are asked for. `offers` are texts that the last answer may have meant.
    """

    rules: RuleBase
    path: Path
    today: date
    text: str
    checks: bool = False
    words_only: bool = False
    put_off: frozenset[str] = frozenset()
    past: tuple[Past, ...] = ()
    offers: tuple[str, ...] = ()

    @cached_property
    def document(self) -> Document:
        """The record as typed, `unknown` and all."""
        try:
            return parse_yaml(self.text, str(self.path), as_typed=True)
        except UnusableInput:
            if all(line.strip()[:1] in ("", "#") for line in self.text.splitlines()):
                return Document(str(self.path), {}, {(): 1})
            raise

    @cached_property
    def batch(self) -> Batch:
        """The record as read."""
        return batch_from(self.document, self.path.parent, self.today)

    @cached_property
    def standing(self) -> Standing:
        """The suspects, and what each question is worth."""
        return standing_of(self.rules, self.batch)

    @cached_property
    def dangers(self) -> tuple[CautionLine, ...]:
        """What is dangerous in what was answered so far, whoever turns out to be the cause."""
        cautions = cautions_for(self.rules, self.standing.consultation, ())
        return tuple(line for line in cautions if line.level != "note")

    @cached_property
    def question(self) -> Asking | None:
        """What is asked next; None where nothing is worth asking."""
        data, standing = self.document.data, self.standing
        opening = opening_question(standing, data, words_only=self.words_only)
        if opening is not None:
            return opening
        for gain in standing.gains:
            if gain.question.kind == "check" and not self.checks:
                continue
            asking = asking_of(self.rules, gain, data) if is_worth_it(gain) else None
            if asking is not None and asking.id not in self.put_off:
                return asking
        return None


@dataclass(frozen=True)
class Step:
    """What came of one line: the sitting after it, what is said, and whether to go on."""

    sitting: Sitting
    said: tuple[str, ...] = ()
    settled: bool = False


def begun(text: str, path: Path) -> str:
    """The text of a record to go on with: as it is, or that of a new one."""
    return text if text.strip() else with_entry(_HEADER, ("batch",), path.stem)


def answered(sitting: Sitting, asking: Asking, typed: str) -> Step:
    """What a typed line does: an answer, "don't know", or one question back.

    Args:
        sitting: the record so far.
        asking: the question that was put.
        typed: the line as typed.

    Raises:
        UnusableInput: the record's own layout does not let the answer be written.
    """
    line = cleaned(typed)
    if line.casefold() == "back":
        return _taken_back(sitting)
    if says_not_known(line):
        return _not_known(sitting, asking)
    try:
        return _written(sitting, asking, _meant(sitting, line))
    except NotRead as refused:
        return Step(replace(sitting, offers=refused.offers), (refused.text,))


def _meant(sitting: Sitting, line: str) -> str:
    """The line, or the text that was offered and is chosen by it."""
    if len(sitting.offers) == 1 and line.casefold() in ("y", "yes", "1"):
        return sitting.offers[0]
    if line.isdecimal() and 1 <= int(line) <= len(sitting.offers):
        return sitting.offers[int(line) - 1]
    return line


def _taken_back(sitting: Sitting) -> Step:
    if not sitting.past:
        said = "Nothing to go back to in this sitting; mend it in the file."
        return Step(replace(sitting, offers=()), (said,))
    last = sitting.past[-1]
    earlier = replace(
        sitting,
        text=last.before,
        past=sitting.past[:-1],
        put_off=sitting.put_off - {last.question},
        offers=(),
    )
    return Step(earlier, ("Taken back.",), settled=True)


def _not_known(sitting: Sitting, asking: Asking) -> Step:
    """Note that it was asked and is not known; a check not done yet is only put off."""
    if asking.needed:
        said = "A word is enough, or 'something off'; without any there is nothing to explain."
        return Step(replace(sitting, offers=()), (said,))
    if asking.kind == "check":
        past = (*sitting.past, Past(asking.id, sitting.text))
        later = replace(sitting, put_off=sitting.put_off | {asking.id}, past=past, offers=())
        return Step(later, ("Left for later.",), settled=True)
    text = with_entry(sitting.text, asking.path, "unknown", note=asking.text)
    after = replace(sitting, text=text, offers=())
    return Step(_with_past(sitting, after, (asking, Entry(asking.path, "unknown"))), settled=True)


def _written(sitting: Sitting, asking: Asking, typed: str) -> Step:
    desk = Desk(sitting.rules, sitting.batch, sitting.today)
    entry = read_answer(desk, asking, typed)
    after = replace(_only_way(sitting, (asking, entry), typed), offers=())
    old = remarks_on(sitting.rules, sitting.batch)
    new = [one for one in remarks_on(after.rules, after.batch) if one not in old]
    said = [entry.said] if entry.said else []
    if asking.needed:
        said.append(heard_line(sitting.rules, typed))
    said += [f"Odd: {one} ('back' to type it again)" for one in new]
    after = _with_past(sitting, after, (asking, entry), tuple(new))
    return Step(after, tuple(said), settled=True)


def _with_past(
    sitting: Sitting, after: Sitting, answer: tuple[Asking, Entry], remarks: tuple[str, ...] = ()
) -> Sitting:
    """The sitting after an answer, with what was written and what it was before."""
    asking, entry = answer
    told = asking.word is not None and entry.value != "unknown"
    path = (*entry.path, "words") if told else entry.path
    written = EntryWritten(
        id=asking.id,
        entry=dotted(path),
        value=shown_value(inside(after.document.data, path)),
        line=after.document.line(path),
        said=entry.said,
        remarks=remarks,
    )
    return replace(after, past=(*sitting.past, Past(asking.id, sitting.text, path, written)))


def _only_way(sitting: Sitting, answer: tuple[Asking, Entry], typed: str) -> Sitting:
    """The sitting with the entry in it, where only one way of reading it can be true.

    Raises:
        NotRead: none can, or more than one.
    """
    (asking, entry), possible, refusals = answer, [], []
    for value in (entry.value, *entry.ways):
        try:
            possible.append((value, tried(sitting, asking, replace(entry, value=value), typed)))
        except UnusableInput as refused:
            refusals.append(refused)
    if len(possible) == 1 and not entry.ways:
        return possible[0][1]
    if possible:
        ways = [value for value, _ in possible if isinstance(value, str)]
        what = "could be more than one thing. Which?" if len(ways) > 1 else "needs its unit."
        raise NotRead(f"{quoted(typed)} {what}", *ways)
    raise cannot_be(asking, typed, refusals[0])


def tried(sitting: Sitting, asking: Asking, entry: Entry, typed: str) -> Sitting:
    """The sitting with an entry in it.

    Raises:
        UnusableInput: the entry cannot be true, or cannot be written.
    """
    as_typed = isinstance(entry.value, str) and entry.value != typed and not asking.choices
    note = f"{asking.text} (typed: {typed})" if as_typed else asking.text
    text = with_entry(sitting.text, entry.path, entry.value, note=note)
    after = replace(sitting, text=text)
    consult_on(sitting.rules, after.batch)
    return after
