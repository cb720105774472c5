"""What nobody wrote down is "not logged": a value of its own, never nothing and never zero."""

from itertools import product

import pytest

from diagnose.batch import NOT_LOGGED, BatchRecord, NotLogged, logged_entries
from tests.batch.written import FULL, batch_of, nested, record_of

# Source of the table: the contract, every entry may be absent or unknown.
WAYS = ["unknown", "Unknown", "not known", "~", "null", '""', '"?"', "' '"]
ENTRIES = [path for path, _ in logged_entries(batch_of(FULL).record)]
PATHS = [".".join("[]" if isinstance(step, int) else step for step in path) for path in ENTRIES]


@pytest.mark.parametrize(("path", "way"), list(product(PATHS, ["unknown", "~"])))
def test_any_entry_may_be_unknown(path: str, way: str) -> None:
    assert not list(logged_entries(record_of(nested(path, way))))


@pytest.mark.parametrize(
    ("path", "way"),
    list(product(["style", "mash.at", "mash.scorching", "brewed", "recipe"], WAYS)),
)
def test_unknown_may_be_written_in_many_ways(path: str, way: str) -> None:
    assert record_of(nested(path, way)) == record_of("batch: unknown")


@pytest.mark.parametrize("section", sorted(BatchRecord.model_fields))
def test_any_section_may_be_left_empty(section: str) -> None:
    assert not list(logged_entries(record_of(f"{section}:\n")))


def test_not_logged_is_false_and_says_what_it_is() -> None:
    assert (bool(NOT_LOGGED), repr(NOT_LOGGED)) == (False, "not logged")


@pytest.mark.parametrize(
    ("path", "zero"), [("gravity.readings.[].ph", "0"), ("boil.time", "0 min")]
)
def test_a_zero_that_was_written_is_not_taken_for_nothing(path: str, zero: str) -> None:
    ((_, entry),) = logged_entries(record_of(nested(path, zero)))
    assert not isinstance(entry, NotLogged)
    assert entry.value == 0
