"""A record with every entry filled is read whole, and nothing of what was typed is lost."""

from collections.abc import Iterator
from typing import Any

import pytest

from diagnose.batch import BatchRecord, Moment, NotLogged, Section, logged_entries
from diagnose.units import Reading
from tests.batch.written import FULL, batch_of

BATCH = batch_of(FULL)
ENTRIES = list(logged_entries(BATCH.record))
LINES = FULL.splitlines()


def unfilled(value: Any, name: str = "record") -> Iterator[str]:
    if isinstance(value, Section):
        for key in type(value).model_fields:
            yield from unfilled(getattr(value, key), f"{name}.{key}")
    elif isinstance(value, tuple):
        yield from (f for item in value for f in unfilled(item, name))
    if isinstance(value, NotLogged) or value in ((), {}):
        yield name


def typed(value: object) -> str:
    return value.typed if isinstance(value, Reading | Moment) else str(value)


def test_the_full_record_fills_every_entry_there_is() -> None:
    assert list(unfilled(BATCH.record)) == []


def test_a_full_record_without_slips_raises_no_doubts() -> None:
    assert BATCH.doubts == ()


@pytest.mark.parametrize(
    ("path", "value"), ENTRIES, ids=[".".join(map(str, path)) for path, _ in ENTRIES]
)
def test_an_entry_keeps_what_was_typed_and_the_line_it_stands_on(
    path: tuple[str | int, ...], value: object
) -> None:
    line = LINES[BATCH.document.line(path) - 1].strip().removeprefix("- ")
    assert line == f"{path[-1]}: {typed(value)}"


# Source of the table: units by definition (1 lb = 453.59237 g, 1 US gal = 3.785411784 L).
READ_AS: list[tuple[str, float, str]] = [
    ("volume", 18.927, "L"),
    ("mash.at", 66.67, "C"),
    ("pitch.at", 18.89, "C"),
    ("boil.time", 1.25, "h"),
    ("packaging.dissolved_oxygen", 0.08, "mg/L"),
    ("gravity.original", 1.05, "SG"),
    ("pitch.yeast.cells", 200.0, "billion cells"),
    ("serving.line_cleaned", 336.0, "h"),
    ("packaging.carbonation", 2.3, "volumes"),
    ("boil.evaporation", 11.0, "%"),
    ("mash.ph", 5.4, "pH"),
]


@pytest.mark.parametrize(("path", "value", "unit"), READ_AS)
def test_a_quantity_is_read_in_the_unit_of_its_field(path: str, value: float, unit: str) -> None:
    entry = dict(ENTRIES)[tuple(path.split("."))]
    assert (entry.value, entry.unit) == (pytest.approx(value, rel=1e-3), unit)


def test_a_range_keeps_both_its_ends() -> None:
    entry = BATCH.record.fermentation.temperature
    assert isinstance(entry, Reading)
    assert (entry.low, entry.high) == (18.0, 20.0)


def test_a_batch_goes_by_its_own_name() -> None:
    assert BATCH.name == "everything ale 1"


def test_a_batch_without_a_name_goes_by_its_file() -> None:
    assert batch_of("style: bitter\n").name == "batch"


def test_a_record_cannot_be_changed_once_read() -> None:
    with pytest.raises(ValueError, match="frozen"):
        BATCH.record.style = "porter"  # type: ignore[misc]


def test_a_record_of_one_entry_has_one_entry() -> None:
    assert [path for path, _ in logged_entries(BatchRecord(batch="x"))] == [("batch",)]
