"""Whatever entry moves a measure's middle widens its range where the entry is in doubt."""

from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from diagnose.batch import Batch, logged_entries
from diagnose.documents import Path
from diagnose.evidence.finding import Finding, NumberFinding
from diagnose.evidence.measuring import measure_batch
from diagnose.units import Reading
from tests.evidence.records import batch_of
from tests.evidence.worked import Worked
from tests.evidence.worked_brewday import BREWDAY
from tests.evidence.worked_cellar import CELLAR
from tests.evidence.worked_wider import WIDER
from tests.knowledge.shipped import rule_base

# How far an entry is moved to see what follows it, and how far off one in doubt may be, by unit.
MOVED = {"C": 0.5, "SG": 0.0005, "pH": 0.05, "%": 0.5}
IN_DOUBT = {"C": 6.0, "SG": 0.004, "pH": 0.4, "%": 4.0}
# As a share, for what has no nought of its own.
MOVED_BY, IN_DOUBT_BY = 0.02, 0.4
# More than the usual error of the clock, which a doubt has to exceed to be seen.
LEAST = {"h": 0.5}
ALE = "volume: 20 L\ngravity: {original: 1.050, final: 1.012}\n"
BOTTLED = "packaging: {package: bottle, sugar: sucrose, sugar_amount: 120 g, volume: 19 L}\n"
# Ways to a measure that no worked example takes; the values play no part.
OTHER_WAYS = (
    ("pitch_ratio", ALE + "pitch: {yeast: {form: dry, amount: 11 g, age: 4 months}}"),
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: liquid, cells: 100 billion, age: 6 weeks, stored_at: 6 C}}",
    ),
    (
        "pitch_ratio",
        ALE + "pitch: {yeast: {form: slurry, volume: 150 mL, age: 2 weeks, stored_at: 4 C}}",
    ),
    ("oxygen_at_pitch_mg_per_l", ALE + "pitch: {at: 18 C, oxygen: {method: shaken}}"),
    (
        "light_dose_klux_h",
        "packaging: {glass: green}\nstorage: [{light: shop light, time: 9 days}]",
    ),
    (
        "attenuation_gap",
        ALE + "pitch: {yeast: {family: clean ale}}\nmash: {at: 67 C}\n"
        "recipe: {fermentables: [{kind: sugar, name: lactose, amount: 500 g}]}",
    ),
    (
        "carbonation_volumes",
        BOTTLED + "fermentation: {peak: 21 C}\n"
        "gravity: {final: 1.012, forced_final: 1.009, readings: [{gravity: 1.010}]}",
    ),
    (
        "sulfate_mg_per_l",
        "volume: 20 L\nwater: [{source: tap, sulfate: 60 mg/L, volume: 20 L}, "
        "{source: distilled, volume: 10 L}]\n"
        "salts: [{salt: calcium sulfate dihydrate, amount: 5 g, scale_step: 0.1 g}]",
    ),
    (
        "dms_ug_per_l",
        "volume: 20 L\nboil: {time: 60 min, ph: 5.3, volume_before: 27 L, volume_after: 24 L}\n"
        "hot_stand: {time: 20 min, at: 90 C}\nchill: {time: 40 min}\n"
        "recipe: {fermentables: [{kind: lager malt, amount: 4 kg}]}",
    ),
    (
        "bitterness_ratio",
        ALE + "recipe: {hops: [{use: boil, amount: 30 g, alpha: 8 %, boiled: 60 min}, "
        "{use: hot stand, amount: 50 g, alpha: 6 %, steeped: 20 min}]}",
    ),
)
WORKED = {
    f"{one.measure} {number}": one
    for number, one in enumerate(
        (*BREWDAY, *CELLAR, *WIDER, *(Worked(measure, 0.0, text) for measure, text in OTHER_WAYS))
    )
}
ROUNDING = 1e-9


@cache
def entries_of(name: str) -> tuple[tuple[Path, Reading], ...]:
    record = batch_of(WORKED[name].record).record
    return tuple((path, one) for path, one in logged_entries(record) if isinstance(one, Reading))


def put(section: Any, path: Path, reading: Reading) -> Any:
    """The section, or list of them, with another reading at `path`."""
    step, *rest = path
    if isinstance(step, int):
        return (*section[:step], put(section[step], tuple(rest), reading), *section[step + 1 :])
    inner = put(getattr(section, step), tuple(rest), reading) if rest else reading
    return section.model_copy(update={step: inner})


def finding_with(worked: Worked, path: Path, reading: Reading) -> Finding | None:
    batch: Batch = batch_of(worked.record)
    changed = replace(batch, record=put(batch.record, path, reading))
    return measure_batch(rule_base(), changed, None).get(worked.measure)


def moved(reading: Reading) -> Reading:
    step = MOVED.get(reading.unit, MOVED_BY * reading.value)
    value = reading.value + step
    return replace(reading, value=value, low=value, high=value)


def in_doubt(reading: Reading) -> Reading:
    error = IN_DOUBT.get(reading.unit, max(IN_DOUBT_BY * reading.value, LEAST.get(reading.unit, 0)))
    lowest = reading.value - error if reading.unit == "C" else max(reading.value - error, 0.0)
    return replace(reading, low=lowest, high=reading.value + error)


def sure(reading: Reading) -> Reading:
    return replace(reading, low=reading.value, high=reading.value)


@pytest.mark.parametrize(("measure", "record"), OTHER_WAYS)
def test_each_of_the_other_ways_leads_to_its_measure(measure: str, record: str) -> None:
    assert isinstance(measure_batch(rule_base(), batch_of(record), None)[measure], NumberFinding)


CASES = [(name, path) for name in WORKED for path, _ in entries_of(name)]


@pytest.mark.parametrize(("name", "path"), CASES, ids=str)
def test_an_entry_that_moves_a_measure_widens_it_when_in_doubt(name: str, path: Path) -> None:
    worked, reading = WORKED[name], dict(entries_of(name))[path]
    exact, shifted = (finding_with(worked, path, one(reading)) for one in (sure, moved))
    if not isinstance(exact, NumberFinding) or not isinstance(shifted, NumberFinding):
        return
    if abs(shifted.band.mid - exact.band.mid) <= ROUNDING:
        return
    doubtful = finding_with(worked, path, in_doubt(reading))
    if isinstance(doubtful, NumberFinding):
        assert doubtful.band.high - doubtful.band.low > exact.band.high - exact.band.low
