"""What batches can have in common beside their measures: who, with what, in what, when."""

from collections.abc import Iterable, Iterator
from typing import Any

from diagnose.batch import BatchRecord, NotLogged, resolved
from diagnose.batch.ingredients import Kept
from diagnose.knowledge import fold

Factors = dict[str, list[str]]
Event = tuple[str | None, str, str]


def factors_of(record: BatchRecord) -> Factors:
    """Factor -> the words of this batch; a factor that was not logged is absent.

    Words are compared without regard to case and hyphens; a list holds each word once, sorted.
    """
    found: dict[str, set[str]] = {}
    for factor, word in (*_single(record), *_waters(record), *_ingredients(record)):
        if isinstance(word, str) and fold(word):
            found.setdefault(factor, set()).add(fold(word))
    brewed = resolved(record, record.brewed)
    if brewed is not None:
        found["month"] = {f"{brewed.month:02d}"}
    return {factor: sorted(found[factor]) for factor in sorted(found)}


def events_of(record: BatchRecord) -> list[Event]:
    """(date, kind, text) of what the record says was changed or done; undated last."""
    changed = [("equipment", one.when, one.what) for one in record.equipment.changes]
    done = [("beer", one.when, _joined(one.what, one.note)) for one in record.events]
    found = []
    for kind, when, text in (*changed, *done):
        moment = resolved(record, when)
        if isinstance(text, str) and text:
            found.append((moment.date().isoformat() if moment else None, kind, text))
    return sorted(found, key=lambda one: (one[0] is None, one[0] or "", one[1:]))


def _single(record: BatchRecord) -> Iterator[tuple[str, Any]]:
    yeast, packaging, cleaning = record.pitch.yeast, record.packaging, record.cleaning
    yield "brewer", record.brewer
    yield "method", record.method
    yield "style", record.style
    yield "yeast", yeast.name
    yield "yeast family", yeast.family
    yield "yeast form", yeast.form
    yield "yeast generation", yeast.generation
    yield "oxygen", record.pitch.oxygen.method
    yield "chilled by", record.chill.method
    yield "vessel", record.fermentation.vessel
    yield "package", packaging.package
    yield "filled by", packaging.fill
    yield "purged", packaging.purged
    yield "glass", packaging.glass
    yield "cleaner", cleaning.cleaner
    yield "rinsed", cleaning.rinsed
    yield "sanitiser", cleaning.sanitiser
    yield "metal", record.equipment.metal


def _waters(record: BatchRecord) -> Iterator[tuple[str, Any]]:
    for water in record.water:
        yield "water", water.source
        yield "water disinfectant", water.disinfectant
        yield "water treatment", water.treatment
    for salt in record.salts:
        yield "salt", salt.salt


def _ingredients(record: BatchRecord) -> Iterator[tuple[str, Any]]:
    kinds: tuple[tuple[str, Iterable[Kept]], ...] = (
        ("fermentable", record.recipe.fermentables),
        ("hop", record.recipe.hops),
        ("addition", record.recipe.other),
    )
    for kind, items in kinds:
        for item in items:
            name = getattr(item, "name", None)
            yield kind, name
            if isinstance(item.lot, str):
                yield "lot", f"{name or kind} {item.lot}"


def _joined(*parts: "str | NotLogged") -> str:
    return ": ".join(part for part in parts if isinstance(part, str) and part)
