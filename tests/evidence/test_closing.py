"""Which entries would close an open measure: each is one of the record's, together they do."""

import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from diagnose.batch import empty_batch
from diagnose.batch.schema import record_schema
from diagnose.documents.document import dotted
from diagnose.evidence.measuring import measure_batch, what_would_close
from diagnose.evidence.samples import Samples
from tests.evidence.records import batch_of, findings_of
from tests.knowledge.shipped import rule_base

MEASURES = list(rule_base().measures)
_INDEX = re.compile(r"\[\d+\]")


@cache
def closing_nothing() -> dict[str, tuple[str, ...]]:
    closing = what_would_close(rule_base(), empty_batch("blank", Path()), None)
    return {key: tuple(dotted(path) for path in paths) for key, paths in closing.items()}


def closed_by(text: str, measure: str) -> tuple[str, ...]:
    paths = what_would_close(rule_base(), batch_of(text), None)[measure]
    return tuple(dotted(path) for path in paths)


schema_of_records = cache(record_schema)


def stands_in_the_schema(entry: str) -> bool:
    schema = schema_of_records()
    here: dict[str, Any] = schema
    for step in _INDEX.sub("", entry).split("."):
        here = here["properties"].get(step, {})
        here = here.get("items", here)
        if "$ref" in here:
            here = schema["$defs"][here["$ref"].rsplit("/", 1)[-1]]
    return bool(here)


@pytest.mark.parametrize("measure", MEASURES)
def test_an_empty_record_leaves_a_measure_with_an_entry_that_closes_it(measure: str) -> None:
    assert closing_nothing()[measure]


@pytest.mark.parametrize("measure", MEASURES)
def test_an_entry_that_closes_a_measure_is_one_of_the_record_s(measure: str) -> None:
    assert all(stands_in_the_schema(entry) for entry in closing_nothing()[measure])


@pytest.mark.parametrize("measure", MEASURES)
def test_the_entries_that_close_a_measure_are_in_the_sections_its_card_names(measure: str) -> None:
    sections = {entry.split(".")[0] for entry in rule_base().measures[measure].entries}
    named = {_INDEX.sub("", entry).split(".")[0] for entry in closing_nothing()[measure]}
    # Every span of time counts from brew day, and every share from the batch.
    assert named & (sections | {"brewed", "volume", "method"})


def test_an_entry_no_record_has_is_not_in_the_schema() -> None:
    assert not stands_in_the_schema("mash.colour")


# Source of the table: the measures' own functions, read line by line.
CLOSED = [
    ("alcohol_percent", "gravity: {original: 1.050}", ("gravity.final",)),
    ("mash_ph", "mash: {at: 66 C}", ("mash.ph",)),
    (
        "bitterness_ratio",
        "volume: 20 L\ngravity: {original: 1.050}\n"
        "recipe: {hops: [{use: boil, amount: 30 g, alpha: 5 %, boiled: 60 min}, {use: boil, "
        "amount: 20 g, boiled: 5 min}]}",
        ("recipe.hops[2].alpha",),
    ),
    ("days_since_packaging", "packaging: {when: 2026-04-01}", ("tastings[1].when",)),
    ("early_excess_c", "fermentation: {temperature: 20 C}", ("pitch.yeast.family",)),
    ("storage_days_at_20c", "storage: [{at: 20 C}]", ("storage[1].time",)),
    ("sulfate_mg_per_l", "mash: {at: 66 C}", ("water[1].sulfate",)),
    # What few brewers can measure is not asked for where something plainer will do.
    ("oxygen_at_pitch_mg_per_l", "mash: {at: 66 C}", ("pitch.oxygen.method",)),
    ("packaged_oxygen_mg_per_l", "packaging: {package: bottle}", ("packaging.fill",)),
    (
        "evaporation_percent_per_h",
        "boil: {time: 60 min}",
        ("boil.volume_before", "boil.volume_after"),
    ),
    ("carbonation_volumes", "packaging: {package: keg}", ("packaging.carbonation",)),
]


@pytest.mark.parametrize(("measure", "record", "entries"), CLOSED)
def test_what_is_missing_is_named_to_the_line(
    measure: str, record: str, entries: tuple[str, ...]
) -> None:
    assert closed_by(record, measure) == entries


@pytest.mark.parametrize(("measure", "record", "entries"), CLOSED)
def test_a_measure_with_an_entry_named_is_open(
    measure: str, record: str, entries: tuple[str, ...]
) -> None:
    assert measure not in findings_of(record)


def test_the_entries_named_do_close_the_measure() -> None:
    batch = batch_of("gravity: {original: 1.050}")
    final = Samples(rule_base(), batch.record).of(("gravity", "final"))
    gravity = batch.record.gravity.model_copy(update={"final": final})
    filled = replace(batch, record=batch.record.model_copy(update={"gravity": gravity}))
    assert "alcohol_percent" in measure_batch(rule_base(), filled, None)


def test_a_measure_without_a_place_in_the_batch_wants_nothing() -> None:
    record = "recipe: {fermentables: [{kind: base malt, amount: 4 kg, age: 2 months}]}"
    assert closed_by(record, "extract_age_fraction") == ()


# Source of the table: what such a brew day has no place for; common practice, no source.
EXTRACT = "recipe: {fermentables: [{kind: dry extract, amount: 2 kg}%s]}"
STEEPED = EXTRACT % ", {kind: crystal malt, amount: 200 g}"
IDLE = [
    *(
        (measure, record)
        for measure in ("mash_c", "mash_hours", "mash_ph", "sparge_ph", "sparge_c")
        for record in (EXTRACT % "", STEEPED, "method: extract")
    ),
    ("last_runnings_sg", EXTRACT % ""),
    ("crushed_malt_months", EXTRACT % ""),
    ("line_cleaned", "packaging: {package: bottle}"),
    ("line_cleaned", "packaging: {package: can}"),
    ("disinfectant_treated", "water: [{source: reverse osmosis, used_for: all}]"),
]


@pytest.mark.parametrize(("measure", "record"), IDLE)
def test_what_a_brew_day_never_held_is_not_asked_for(measure: str, record: str) -> None:
    assert closed_by(record, measure) == ()


ASKED = [
    ("mash_c", EXTRACT % ", {kind: base malt, amount: 1 kg}"),
    ("mash_c", EXTRACT % ", {amount: 1 kg}"),
    ("line_cleaned", "packaging: {package: keg}"),
    ("disinfectant_treated", "water: [{source: reverse osmosis}, {source: tap}]"),
]


@pytest.mark.parametrize(("measure", "record"), ASKED)
def test_what_a_brew_day_may_have_held_is_asked_for(measure: str, record: str) -> None:
    assert closed_by(record, measure)


def test_what_was_crushed_is_asked_of_the_malt_not_of_the_tin() -> None:
    found = closed_by("brewed: 2026-03-14\n" + STEEPED, "crushed_malt_months")
    assert found == ("recipe.fermentables[2].crushed",)


def test_one_entry_is_asked_for_where_one_will_do() -> None:
    record = """
brewed: 2026-02-21
gravity:
  final: 1.011
  readings:
    - {when: 2026-03-03, gravity: 1.020}
    - {when: 2026-03-10, gravity: 1.011, ph: 4.3}
    - {when: 2026-03-13, gravity: 1.011}
"""
    assert closed_by(record, "ph_drop_after_final") == ("gravity.readings[3].ph",)


@pytest.mark.parametrize("section", ["mash", "boil"])
def test_no_scorching_stands_where_it_was_written(section: str) -> None:
    finding = findings_of(f"style: bitter\n{section}:\n  scorching: no\n")["mash_scorch_signs"]
    assert finding.where == "batch.yaml:3"


def test_a_measure_that_was_found_is_not_said_to_be_open() -> None:
    assert "mash_c" not in what_would_close(rule_base(), batch_of("mash: {at: 66 C}"), None)
