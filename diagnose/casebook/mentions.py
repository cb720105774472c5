"""The ids that cases use, held against the rule base: unknown ones and retired ones."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from diagnose.casebook.case import Case
from diagnose.documents import Document, Path, parse_yaml, read_text
from diagnose.errors import Fault, UnusableInput
from diagnose.knowledge import RuleBase, retired_sides

Mention = tuple[Path, str, tuple[str, ...]]
_ASKED = ("measures", "circumstances", "checks", "descriptors")
# Keys of a record whose own keys are ids of the rule base.
_IN_RECORDS = (("fault", "circumstances"), ("checks", "checks"))


def case_faults(rules: RuleBase, cases: Sequence[Case]) -> list[Fault]:
    """Every id that a case uses and the rule base does not have, with the mend where it is known.

    The cards of the cases are looked at, and in their records the circumstances and checks that
    are retired; what else a record cannot say is found when it is read.
    """
    unknown = [fault for case in cases for fault in _faults_of_card(rules, case)]
    return sorted([*unknown, *_retired_in_records(rules, cases)])


def refuse_retired(rules: RuleBase, cases: Sequence[Case]) -> None:
    """Refuse cases that use a retired id: what they expect could never come about.

    Raises:
        UnusableInput: every such use, with its file, its line and the mend.
    """
    if not rules.retired:
        return
    cards = [fault for case in cases for fault in _faults_of_card(rules, case, retired_only=True)]
    faults = [*cards, *_retired_in_records(rules, cases)]
    if faults:
        raise UnusableInput(*sorted(faults))


def _faults_of_card(rules: RuleBase, case: Case, *, retired_only: bool = False) -> Iterator[Fault]:
    document: Document | None = None
    for path, name, kinds in _mentions(case):
        if any(name in getattr(rules, kind) for kind in kinds):
            continue
        sides = retired_sides(rules, name, kinds)
        if sides is None and not retired_only:
            sides = name, f"the id of one of the {' or '.join(kinds)}"
        if sides is not None:
            document = document or _document(case, "case.yaml")
            yield document.fault(path, *sides)


def _mentions(case: Case) -> Iterator[Mention]:
    expect, exam = case.card.expect, case.card.exam
    yield from _listed(("expect", "first"), expect.first, ("causes",))
    yield from _listed(("expect", "quiet"), expect.quiet, ("causes",))
    yield from _listed(("expect", "asks"), expect.asks, _ASKED)
    if exam is not None:
        yield from _listed(("exam", "truth"), exam.truth, ("causes",))
        yield from _listed(("exam", "also"), exam.also, ("causes",))


def _listed(path: Path, names: Iterable[str], kinds: tuple[str, ...]) -> Iterator[Mention]:
    for index, name in enumerate(names):
        yield (*path, index), name, kinds


def _retired_in_records(rules: RuleBase, cases: Sequence[Case]) -> Iterator[Fault]:
    for case in cases if rules.retired else ():
        try:
            yield from _retired_in(rules, _document(case, "batch.yaml"))
        except UnusableInput as error:
            yield from error.faults


def _retired_in(rules: RuleBase, record: Document) -> Iterator[Fault]:
    for key, kind in _IN_RECORDS:
        for name in _keys_below(record.data, key):
            sides = None if name in getattr(rules, kind) else retired_sides(rules, name, (kind,))
            if sides is not None:
                yield record.fault((key, name), *sides)


def _keys_below(data: Any, key: str) -> list[str]:
    below = data.get(key) if isinstance(data, dict) else None
    return list(below) if isinstance(below, dict) else []


def _document(case: Case, name: str) -> Document:
    path = case.folder / name
    return parse_yaml(read_text(path), str(path))
