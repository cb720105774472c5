"""Suppositions about a batch: entries changed, words added or denied, evidence left out.

The record's file is never touched: a copy of what was read is changed and read again by the
same rules, so that what no record may hold cannot be supposed either.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from difflib import get_close_matches

from diagnose.answers import not_words
from diagnose.batch import Batch, batch_from
from diagnose.consult.entry_changing import (
    entries_at,
    place_exists,
    set_aside,
    with_entry,
    without_entry,
)
from diagnose.consult.entry_hints import SHOWN, hint_of
from diagnose.consult.entry_names import entries_said, entry_names, keys_in, path_of
from diagnose.consult.gathering import Consultation, consult_on
from diagnose.documents import Document, Path
from diagnose.documents.document import dotted
from diagnose.errors import Fault, UnusableInput
from diagnose.evidence.gathering import Known
from diagnose.flavour import Heard, Understanding, understand
from diagnose.knowledge import RuleBase

_SUPPOSE, _WITHOUT = "--suppose", "--without"
# Sections whose keys are those of the rule base, and the kind of card they name.
_KEYED = {"fault": "circumstances", "checks": "checks"}


@dataclass(frozen=True)
class Supposition:
    """What is typed: what to suppose, what to leave out, and the words told on the line."""

    suppose: tuple[str, ...]
    without: tuple[str, ...]
    tastes: tuple[str, ...]
    today: date


@dataclass(frozen=True)
class Supposed:
    """The batch as supposed, with what was changed, replaced, left out and set aside, in words."""

    consultation: Consultation
    supposed: tuple[str, ...]
    replaced: tuple[str, ...]
    without: tuple[str, ...]
    set_aside: tuple[str, ...]


def suppose(rules: RuleBase, consultation: Consultation, what: Supposition) -> Supposed:
    """The batch under the suppositions.

    Raises:
        UnusableInput: something typed is not understood, or no record may hold it.
    """
    batch, said, words = consultation.batch, [], []
    aside, replaced = list[str](), list[str]()
    for typed in what.suppose:
        told = _entry_typed(rules, typed)
        if told is None and not _is_all_flavour(rules, typed):
            told = _entry_spoken(typed)
        if told is None:
            words.append(_understood(rules, typed))
            said.append(_words_said(rules, typed, words[-1]))
            continue
        changed, gone = _changed(batch, told, (typed, what.today))
        replaced += _recorded(batch, told[0])
        batch = changed
        said.append(f"{told[0].label}: {told[1]}")
        aside += gone
    keys = [key for key in what.without if key in _keys(consultation.known)]
    for key in what.without:
        if key not in keys:
            batch = _left_out(batch, consultation.known, (key, what.today))
    try:
        after = consult_on(rules, batch, what.tastes)
    except UnusableInput as refused:
        # As recorded the batch could be read, so what is wrong was supposed.
        raise UnusableInput(
            *(replace(one, file=_SUPPOSE, line=0) for one in refused.faults)
        ) from refused
    replaced += _told_before(rules, after.known, words)
    known = _without_keys(_told_too(after.known, words), keys)
    return Supposed(
        replace(after, known=known), tuple(said), tuple(replaced), what.without, tuple(aside)
    )


@dataclass(frozen=True)
class _Place:
    """Where an entry goes: its path, the names of lists on the way, and how it is shown."""

    path: Path
    lists: frozenset[str]
    label: str


def _entry_typed(rules: RuleBase, typed: str) -> tuple[_Place, str] | None:
    """The entry of "path: value" or "path=value"; None where no path stands in front."""
    cut = min((typed.index(sign) for sign in "=:" if sign in typed), default=0)
    path, value = path_of(typed[:cut]), typed[cut + 1 :].strip()
    if not cut or path is None:
        return None
    for section, cards in _KEYED.items():
        if len(path) == 1 and path[0] in getattr(rules, cards):
            path = (section, *path)
    keys = keys_in(path)
    name = next((one for one in entry_names() if one.path == keys), None)
    keyed = keys[0] in _KEYED and len(path) == 2
    if name is None and not keyed:
        raise _not_understood(typed, hint_of(typed))
    if not value:
        raise _not_understood(typed, f"a value for {'.'.join(keys)}")
    if name is None:
        return _Place(path, frozenset(), ".".join(keys)), value
    return _Place(path, name.lists, typed[:cut].strip()), value


def _entry_spoken(typed: str) -> tuple[_Place, str] | None:
    """The entry that a phrase speaks of; None where it speaks of none."""
    said = entries_said(typed)
    if not said.found:
        return None
    name, value = said.found[0]
    others = [one.dotted for one, _ in (*said.found, *said.open) if one.path[0] != name.path[0]]
    if others:
        wanted = (
            f"one of {', '.join([name.dotted, *others][:SHOWN])}, as in '{name.dotted}: {value}'"
        )
        raise _not_understood(typed, wanted)
    return _Place(name.path, name.lists, name.dotted), value


def _is_all_flavour(rules: RuleBase, typed: str) -> bool:
    """Whether a phrase is flavour words and nothing else: "no sour" speaks of no kettle."""
    one = understand(typed, rules.lexicon)
    return bool(one.heard) and not one.not_understood


def _understood(rules: RuleBase, typed: str) -> Understanding:
    """A phrase as words about the flavour or the fault."""
    one = understand(typed, rules.lexicon)
    if not (one.heard or one.circumstances) or one.not_understood:
        raise _not_understood(typed, hint_of(typed))
    return one


def _words_said(rules: RuleBase, typed: str, one: Understanding) -> str:
    """What was typed, and what it was taken for where that is called otherwise."""
    absent = (_name(rules, heard) for heard in one.heard if heard.state == "absent")
    present = (_name(rules, heard) for heard in one.heard if heard.state != "absent")
    told = (rules.circumstances[key].values[value] for key, value in one.circumstances.items())
    taken = ", ".join(dict.fromkeys([*present, *absent, *(value.says for value in told)]))
    as_typed = typed.casefold() in (taken.casefold(), taken.casefold().replace("not ", "no "))
    return typed if as_typed else f"{typed} (taken as: {taken})"


def _name(rules: RuleBase, heard: Heard) -> str:
    name = rules.descriptors[heard.descriptor].name
    return not_words(name) if heard.state == "absent" else name


def _told_before(rules: RuleBase, known: Known, words: Sequence[Understanding]) -> Iterator[str]:
    """What was told, and what the words now supposed take the place of."""
    anew = {heard.descriptor for one in words for heard in one.heard}
    yield from dict.fromkeys(_name(rules, one) for one in known.heard if one.descriptor in anew)
    for key in (key for one in words for key in one.circumstances):
        if key in known.circumstances:
            yield rules.circumstances[key].values[known.circumstances[key]].says


def _recorded(batch: Batch, place: _Place) -> Iterator[str]:
    """The entries that stand where an entry is supposed."""
    for path, value in entries_at(batch.document.data, place.path):
        held = isinstance(value, dict | list)
        yield dotted(path) if held else f"{dotted(path)}: {value}"


def _not_understood(typed: str, wanted: str) -> UnusableInput:
    return UnusableInput(Fault(_SUPPOSE, 0, "", repr(typed), wanted))


def _changed(
    batch: Batch, told: tuple[_Place, str], source: tuple[str, date]
) -> tuple[Batch, tuple[str, ...]]:
    (place, value), (typed, today) = told, source
    if not place_exists(batch.document.data, place.path):
        raise _not_understood(typed, "a place in the list that the record has")
    data, gone = set_aside(batch.document.data, keys_in(place.path))
    data = with_entry(data, place.path, value, place.lists)
    return _read_again(batch, data, (f"{_SUPPOSE} {typed!r}", today)), gone


def _left_out(batch: Batch, known: Known, source: tuple[str, date]) -> Batch:
    key, today = source
    path = path_of(key)
    data = without_entry(batch.document.data, path) if path else None
    if data is None:
        document = batch.document
        entries = [document.fault(place, "", "").key for place in document.lines if place]
        near = get_close_matches(key, [*_keys(known), *entries], SHOWN)
        hint = f", perhaps {' or '.join(near)}" if near else ""
        wanted = f"an entry that the record has, or a key of the evidence as in --json{hint}"
        raise UnusableInput(Fault(_WITHOUT, 0, "", repr(key), wanted))
    return _read_again(batch, data, (f"{_WITHOUT} {key!r}", today))


def _read_again(batch: Batch, data: object, source: tuple[str, date]) -> Batch:
    """The record with changed data; what it cannot hold is a fault of what was typed."""
    typed, today = source
    document = Document(batch.document.name, data, batch.document.lines)
    try:
        return batch_from(document, batch.folder, today)
    except UnusableInput as refused:
        faults = (replace(fault, file=typed, line=0) for fault in refused.faults)
        raise UnusableInput(*faults) from refused


def _keys(known: Known) -> list[str]:
    """The keys of everything known, as the evidence is printed with."""
    heard = (one.descriptor for one in known.heard)
    return list(dict.fromkeys([*known.findings, *known.circumstances, *known.checks, *heard]))


def _told_too(known: Known, words: Sequence[Understanding]) -> Known:
    """What is known with further words; a word said anew takes the place of what was said."""
    for one in words:
        anew = {heard.descriptor for heard in one.heard}
        kept = (heard for heard in known.heard if heard.descriptor not in anew)
        told = {**known.circumstances, **one.circumstances}
        known = replace(known, heard=(*kept, *one.heard), circumstances=told)
    return known


def _without_keys(known: Known, keys: Sequence[str]) -> Known:
    return replace(
        known,
        findings={key: one for key, one in known.findings.items() if key not in keys},
        circumstances={key: one for key, one in known.circumstances.items() if key not in keys},
        checks={key: one for key, one in known.checks.items() if key not in keys},
        heard=tuple(one for one in known.heard if one.descriptor not in keys),
    )
