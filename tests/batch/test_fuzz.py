"""Records and logs at random through measures and `batch show`: refused, or sound in every figure.

`FAULTWORT_FUZZ=10000` draws that many instead of the few of an ordinary run.
"""

import json
import math
import os
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
import yaml
from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st

from diagnose.answers import BatchAnswer, IonLine, MeasureLine
from diagnose.batch import read_batch
from diagnose.consult import consult_on, show_batch
from diagnose.errors import UnusableInput
from diagnose.report import print_batch
from tests.batch.random_records import probe_logs, records, records_without_slips
from tests.knowledge.shipped import TODAY, rule_base
from tests.report.printed import printed, widest

EXAMPLES = int(os.environ.get("FAULTWORT_FUZZ", "0"))
COLUMNS = 80
# Temperatures, and differences between two readings.
MAY_BE_NEGATIVE = {
    *(one.id for one in rule_base().measures.values() if one.unit == "C"),
    *("attenuation_gap", "points_left_to_ferment", "gravity_drop_after_final"),
    "ph_drop_after_final",
}
fuzzed = settings(
    max_examples=EXAMPLES or 60,
    derandomize=not EXAMPLES,
    suppress_health_check=list(HealthCheck),
    deadline=None,
)


def answer_of(record: dict[str, Any], export: str | None = None) -> BatchAnswer | None:
    """What `batch show` answers; None where the record or the log is refused in so many words."""
    with TemporaryDirectory() as folder:
        place = Path(folder)
        if export is not None:
            (place / "probe.csv").write_text(export, encoding="utf-8")
            fermentation = {**record.get("fermentation", {}), "probe_log": "probe.csv"}
            record = {**record, "fermentation": fermentation}
        (place / "batch.yaml").write_text(yaml.safe_dump(record), encoding="utf-8")
        try:
            answer = show_batch(rule_base(), consult_on(rule_base(), batch_at(place)))
        except UnusableInput as refused:
            assert all(fault.found and fault.wanted for fault in refused.faults)
            event("refused")
            return None
        event("shown")
        return answer


def batch_at(place: Path) -> Any:
    return read_batch(place / "batch.yaml", TODAY)


def figures(data: Any) -> Iterator[float]:
    if isinstance(data, dict):
        data = list(data.values())
    if isinstance(data, list):
        for one in data:
            yield from figures(one)
    elif isinstance(data, float):
        yield data


def amounts(answer: BatchAnswer) -> Iterator[float]:
    """Everything that cannot be less than nothing."""
    for measure in answer.measures:
        if measure.id not in MAY_BE_NEGATIVE:
            yield from _edges(measure)
    if answer.water is not None:
        for part in answer.water.parts:
            for ion in part.ions:
                yield from _edges(ion)
        for salt in answer.water.salts:
            yield from (rise for form in salt.forms for rise in form.ions.values())


def _edges(line: MeasureLine | IonLine) -> list[float]:
    return [edge for edge in (line.low, line.mid, line.high) if edge is not None]


def assert_sound(answer: BatchAnswer | None) -> None:
    if answer is None:
        return
    plain = answer.model_dump(mode="json", by_alias=True)
    assert all(math.isfinite(value) for value in figures(plain))
    assert all(value >= 0.0 for value in amounts(answer))
    page = printed(lambda console: print_batch(console, answer), COLUMNS)
    assert widest(page) <= COLUMNS
    assert not {"nan", "inf"} & set(page.casefold().split())
    json.dumps(plain, allow_nan=False)


@pytest.mark.parametrize(
    "drawn",
    [st.tuples(records()), st.tuples(records_without_slips(), probe_logs())],
    ids=["records", "records with logs"],
)
def test_most_of_what_is_drawn_is_no_mere_refusal(drawn: st.SearchStrategy[Any]) -> None:
    shown: list[bool] = []

    @settings(fuzzed, max_examples=25, derandomize=True, database=None)
    @given(drawn)
    def drawing(given_to_it: Any) -> None:
        shown.append(answer_of(*given_to_it) is not None)

    drawing()
    assert sum(shown) > len(shown) / 2


@fuzzed
@given(records())
def test_any_record_is_refused_or_every_figure_of_it_is_sound(record: dict[str, Any]) -> None:
    assert_sound(answer_of(record))


@fuzzed
@given(records_without_slips(), probe_logs())
def test_any_log_beside_a_record_is_refused_or_every_figure_is_sound(
    record: dict[str, Any], export: str
) -> None:
    assert_sound(answer_of(record, export))
