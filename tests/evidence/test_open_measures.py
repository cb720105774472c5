"""What is not written down stays open: it is a question, never a nought."""

from collections.abc import Iterator
from textwrap import dedent
from typing import Any

import pytest
import yaml

from diagnose.batch import empty_batch
from diagnose.evidence.finding import NumberFinding, OutsideFinding
from diagnose.evidence.gathering import measure_piece
from diagnose.evidence.measuring import measure_batch
from tests.evidence.records import findings_of
from tests.evidence.unfinished import UNFINISHED as UNFINISHED_AT_FIRST
from tests.evidence.unfinished_wider import UNFINISHED_WIDER
from tests.evidence.worked import Worked
from tests.evidence.worked_brewday import BREWDAY
from tests.evidence.worked_cellar import CELLAR
from tests.evidence.worked_wider import WIDER
from tests.knowledge.shipped import CASES, rule_base

UNFINISHED = (*UNFINISHED_AT_FIRST, *UNFINISHED_WIDER)


def test_nothing_written_down_gives_no_measure() -> None:
    assert measure_batch(rule_base(), empty_batch("blank", CASES), None) == {}


@pytest.mark.parametrize(("measure", "record"), UNFINISHED)
def test_a_measure_that_lacks_an_entry_stays_open(measure: str, record: str) -> None:
    assert measure not in findings_of(record)


def test_every_measure_stays_open_for_want_of_an_entry() -> None:
    assert {measure for measure, _ in UNFINISHED} == set(rule_base().measures)


def shortened(data: Any) -> Iterator[Any]:
    """The data with one entry taken out, for every entry at any depth."""
    if isinstance(data, dict):
        for key, value in data.items():
            rest = {name: kept for name, kept in data.items() if name != key}
            yield rest
            yield from ({**rest, key: shorter} for shorter in shortened(value))
    elif isinstance(data, list):
        for index, value in enumerate(data):
            yield from (
                [*data[:index], shorter, *data[index + 1 :]] for shorter in shortened(value)
            )


@pytest.mark.parametrize("worked", [*BREWDAY, *CELLAR, *WIDER], ids=lambda one: one.measure)
def test_taking_an_entry_out_never_makes_a_nought(worked: Worked) -> None:
    if worked.value == 0.0:
        return
    for shorter in shortened(yaml.load(dedent(worked.record), yaml.BaseLoader)):
        finding = findings_of(yaml.safe_dump(shorter)).get(worked.measure)
        if isinstance(finding, NumberFinding):
            assert finding.band.mid != 0.0, shorter


# Source of the table: the limits the models state; records a brewer could write.
ALE = "volume: 20 L\ngravity: {original: 1.050}\n"
LAGER_BOIL = "volume: 20 L\nrecipe: {fermentables: [{kind: lager malt, amount: 4 kg}]}\n"
OUTSIDE = [
    (
        "attenuation_gap",
        "gravity: {original: 1.150, final: 1.040}\npitch: {yeast: {family: clean ale}}",
    ),
    (
        "attenuation_gap",
        "gravity: {original: 1.050, final: 1.010}\nmash: {at: 55 C}\n"
        "pitch: {yeast: {family: clean ale}}",
    ),
    ("alcohol_percent", "gravity: {original: 1.150, final: 1.040}"),
    ("storage_days_at_20c", "storage: [{at: 50 C, time: 9 days}]"),
    ("storage_days_at_20c", "storage: [{at: 4 C, time: 9 days}, {at: -8 C, time: 1 day}]"),
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: liquid, cells: 100 billion, age: 2 months, stored_at: 31 C}}",
    ),
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: dry, amount: 11 g, age: 2 months, stored_at: 38 C}}",
    ),
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: slurry, volume: 200 mL, age: 2 weeks, stored_at: -5 C}}",
    ),
    (
        "oxygen_at_pitch_mg_per_l",
        ALE + "pitch: {at: 42 C, oxygen: {method: shaken}}",
    ),
    ("dms_ug_per_l", LAGER_BOIL + "boil: {time: 60 min, ph: 6.4}"),
    ("dms_ug_per_l", LAGER_BOIL + "boil: {time: 60 min, evaporation: 45 %}"),
    (
        "bitterness_ratio",
        ALE + "recipe: {hops: [{use: boil, amount: 30 g, alpha: 5 %, boiled: 5 h}]}",
    ),
    (
        "hop_alpha_left_percent",
        "recipe: {hops: [{age: 6 months, pack: open, stored_at: 38 C}]}",
    ),
    (
        "extract_age_fraction",
        "recipe: {fermentables: [{kind: dry extract, age: 6 months, stored_at: 50 C}]}",
    ),
    (
        "diacetyl_half_lives",
        "brewed: 2026-03-14\nfermentation: {temperature: 12 C, finished: 2026-03-22, "
        "off_yeast: 2026-03-30, steps: [{since: 2026-03-24, at: -4 C}]}",
    ),
    (
        "yeast_contact_days_at_20c",
        "brewed: 2026-03-14\nfermentation: {temperature: 43 C, off_yeast: 2026-03-30}",
    ),
]


@pytest.mark.parametrize(("measure", "record"), OUTSIDE)
def test_a_batch_beyond_the_model_is_said_to_be_so(measure: str, record: str) -> None:
    finding = findings_of(record)[measure]
    assert isinstance(finding, OutsideFinding)
    assert "outside what the source covers" in finding.says


# Source of the table: the same limits; the entry stands just inside one, its doubt reaches over it.
JUST_INSIDE = [
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: liquid, cells: 100 billion, age: 2 months, stored_at: 30 C}}",
    ),
    ("dms_ug_per_l", LAGER_BOIL + "boil: {time: 60 min, ph: 5.8}"),
    ("storage_days_at_20c", "storage: [{at: 45 C, time: 9 days}]"),
    (
        "attenuation_gap",
        "gravity: {original: 1.050, final: 1.010}\nmash: {at: 60 C}\n"
        "pitch: {yeast: {family: clean ale}}",
    ),
    ("hop_alpha_left_percent", "recipe: {hops: [{age: 6 months, pack: open, stored_at: 25 C}]}"),
    (
        "yeast_contact_days_at_20c",
        "brewed: 2026-03-14\nfermentation: {temperature: 18 C, crashed: 2026-03-28, "
        "crashed_to: -2 C, off_yeast: 2026-03-30}",
    ),
]


@pytest.mark.parametrize(("measure", "record"), JUST_INSIDE)
def test_a_batch_is_within_the_model_where_only_its_doubt_reaches_beyond(
    measure: str, record: str
) -> None:
    assert isinstance(findings_of(record)[measure], NumberFinding)


@pytest.mark.parametrize(("measure", "record"), OUTSIDE)
def test_a_batch_beyond_the_model_is_no_evidence(measure: str, record: str) -> None:
    piece = measure_piece(rule_base(), findings_of(record)[measure])
    assert not piece.happened
