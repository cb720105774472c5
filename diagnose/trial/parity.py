"""Entries of two arms that have to agree within a tolerance, and those that merely differ."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from diagnose.batch import BatchRecord, Moment, logged_entries, resolved
from diagnose.documents import Path
from diagnose.knowledge import RuleBase
from diagnose.units import Field, Reading, show

# A failed parity adds this chance that the arms differ for no reason of interest. Judgement.
SPOILED_BY_PARITY = 0.03
# Tolerances between arms, in the base unit or as a share. Practice.
_WITHIN: dict[Path, tuple[float, bool, Field]] = {
    ("gravity", "original"): (0.0005, False, Field.GRAVITY),
    ("gravity", "final"): (0.001, False, Field.GRAVITY),
    ("volume",): (0.02, True, Field.VOLUME),
    ("packaging", "size"): (0.02, True, Field.VOLUME),
    ("packaging", "headspace"): (0.1, True, Field.VOLUME),
    ("packaging", "carbonation"): (0.1, False, Field.CARBONATION),
    ("serving", "at"): (1.0, False, Field.TEMPERATURE),
}
_PACKAGED = ("packaging", "when")
_ROUNDING = 1e-9
# Entries that say nothing of the beer, or are told of the fault afterwards.
_BESIDE = frozenset({"batch", "brewer", "notes", "tastings", "fault", "checks", "zone"})
_MOST_OTHERS = 8


@dataclass(frozen=True)
class Parity:
    """An entry that should agree and does not."""

    what: str
    first: str
    second: str
    within: str


def parity_of(first: BatchRecord, second: BatchRecord) -> tuple[Parity, ...]:
    """The entries that should agree and do not.

    Args:
        first: one arm.
        second: the other.
    """
    one, other = dict(logged_entries(first)), dict(logged_entries(second))
    return (*_numbers_apart(one, other), *_days_apart(first, second))


def _numbers_apart(one: dict[Path, Any], other: dict[Path, Any]) -> Iterator[Parity]:
    for path, (within, is_share, field) in _WITHIN.items():
        left, right = one.get(path), other.get(path)
        if not (isinstance(left, Reading) and isinstance(right, Reading)):
            continue
        scale = max(abs(left.value), abs(right.value)) if is_share else 1.0
        if abs(left.value - right.value) > within * scale + _ROUNDING:
            text = f"{100 * within:g} %" if is_share else f"{within:g} {field.unit}"
            yield Parity(_shown(path), show(left, field), show(right, field), text)


def _days_apart(first: BatchRecord, second: BatchRecord) -> Iterator[Parity]:
    days = [resolved(record, record.packaging.when) for record in (first, second)]
    if days[0] is not None and days[1] is not None and days[0].date() != days[1].date():
        yield Parity("packaging day", f"{days[0]:%Y-%m-%d}", f"{days[1]:%Y-%m-%d}", "one day")


def other_entries(
    rules: RuleBase, first: BatchRecord, second: BatchRecord, covered: set[str]
) -> tuple[str, ...]:
    """Entries that differ and bear on nothing compared above, as "key: this, that".

    Args:
        rules: says which sections a measure is read from.
        first: one arm.
        second: the other.
        covered: measures whose difference is told already.
    """
    told = {entry for measure in covered for entry in rules.measures[measure].entries}
    told_tops = {entry.split(".")[0] for entry in told}
    one, other = dict(logged_entries(first)), dict(logged_entries(second))
    found = []
    for path in sorted(set(one) | set(other), key=str):
        skip = path[0] in _BESIDE or path[0] in told_tops or path in _WITHIN or path == _PACKAGED
        if skip or path[-1] in ("probe_log", "probe_profile"):
            continue
        texts = [_text(side.get(path)) for side in (one, other)]
        if texts[0].casefold() != texts[1].casefold():
            found.append(f"{_shown(path)}: {texts[0]}, {texts[1]}")
    return tuple(found[:_MOST_OTHERS])


def _text(value: Any) -> str:
    if value is None:
        return "not logged"
    return value.typed if isinstance(value, Reading | Moment) else str(value)


def _shown(path: Path) -> str:
    return " ".join(str(step + 1) if isinstance(step, int) else step for step in path).replace(
        "_", " "
    )
