"""The doubt that stands in an entry passes into the measure, and moves nothing else."""

import pytest

from diagnose.evidence.finding import NumberFinding
from tests.evidence.records import findings_of

# Source of the table: first principles; each pair differs in how sure one entry is.
BASE = "brewed: 2026-03-14 10:00\n"
DOUBTFUL = [
    ("early_beer_c", BASE + "fermentation: {temperature: %s}", "20 C", "16-24 C"),
    ("mash_hours", "mash: {time: %s}", "60 min", "60 min +/- 15 min"),
    ("mash_c", "mash: {at: %s}", "66 C", "63-69 C"),
    ("hot_stand_minutes", "hot_stand: {time: %s}", "30 min", "30 min +/- 10 min"),
    (
        "evaporation_percent_per_h",
        "boil: {volume_before: 28 L, volume_after: 25 L, time: %s}",
        "60 min",
        "60 min +/- 10 min",
    ),
    (
        "dms_ug_per_l",
        "volume: 20 L\nboil: {time: 60 min}\n"
        "recipe: {fermentables: [{kind: lager malt, amount: %s}]}",
        "4 kg",
        "3-5 kg",
    ),
    (
        "dms_ug_per_l",
        "volume: 20 L\nboil: {time: %s}\n"
        "recipe: {fermentables: [{kind: lager malt, amount: 4 kg}]}",
        "60 min",
        "60 min +/- 15 min",
    ),
    (
        "bitterness_ratio",
        "volume: 20 L\ngravity: {original: 1.050}\n"
        "recipe: {hops: [{use: boil, amount: 30 g, alpha: %s, boiled: 60 min}]}",
        "5 %",
        "3-7 %",
    ),
    ("dry_hop_days", "recipe: {hops: [{use: dry hop, steeped: %s}]}", "5 days", "3-7 days"),
    (
        "extract_age_fraction",
        "recipe: {fermentables: [{kind: dry extract, stored_at: 20 C, age: %s}]}",
        "6 months",
        "3-9 months",
    ),
    (
        "malt_age_months",
        "recipe: {fermentables: [{kind: base malt, age: %s}]}",
        "1 month",
        "~1 month",
    ),
    (
        "crystal_share_percent",
        "recipe: {fermentables: [{kind: base malt, amount: 4 kg}, "
        "{kind: crystal malt, amount: %s}]}",
        "1 kg",
        "0.5-1.5 kg",
    ),
    (
        "mash_efficiency_percent",
        "volume: 20 L\ngravity: {original: 1.050}\n"
        "recipe: {fermentables: [{kind: base malt, amount: %s}]}",
        "5 kg",
        "4-6 kg",
    ),
    ("points_left_to_ferment", "gravity: {final: %s, forced_final: 1.010}", "1.014", "1.011-1.017"),
    (
        "attenuation_gap",
        "gravity: {original: 1.050, final: %s}\npitch: {yeast: {family: clean ale}}",
        "1.012",
        "1.009-1.015",
    ),
    ("alcohol_percent", "gravity: {original: 1.050, final: %s}", "1.012", "1.009-1.015"),
    (
        "priming_volumes",
        "packaging: {package: bottle, sugar: sucrose, sugar_amount: %s, volume: 20 L}",
        "120 g",
        "80-160 g",
    ),
    (
        "packaged_oxygen_mg_per_l",
        "packaging: {package: bottle, fill: siphon, purged: no, size: 500 mL, headspace: %s}",
        "25 mL",
        "10-40 mL",
    ),
    ("storage_days_at_20c", "storage: [{at: %s, time: 60 days}]", "20 C", "14-26 C"),
    ("storage_days_at_20c", "storage: [{at: 20 C, time: %s}]", "60 days", "30-90 days"),
    ("mean_store_c", "storage: [{at: %s, time: 60 days}]", "20 C", "14-26 C"),
    (
        "pitch_ratio",
        "volume: 20 L\ngravity: {original: 1.050}\n"
        "pitch: {yeast: {form: slurry, volume: %s, age: 1 week, stored_at: 4 C}}",
        "200 mL",
        "100-300 mL",
    ),
    (
        "pitch_ratio",
        "volume: 20 L\ngravity: {original: 1.050}\n"
        "pitch: {yeast: {form: liquid, cells: 100 billion, age: %s, stored_at: 4 C}}",
        "1 month",
        "~1 month",
    ),
    (
        "diacetyl_half_lives",
        "brewed: 2026-03-14 10:00\nfermentation: {temperature: 20 C, finished: %s, "
        "crashed: 2026-03-25 12:00}",
        "2026-03-22 12:00",
        "2026-03-22",
    ),
]


def number_of(measure: str, record: str) -> NumberFinding:
    finding = findings_of(record)[measure]
    assert isinstance(finding, NumberFinding)
    return finding


@pytest.mark.parametrize(("measure", "record", "sure", "unsure"), DOUBTFUL)
def test_a_doubtful_entry_widens_the_range(
    measure: str, record: str, sure: str, unsure: str
) -> None:
    exact, doubtful = (number_of(measure, record % entry).band for entry in (sure, unsure))
    assert doubtful.high - doubtful.low > exact.high - exact.low


@pytest.mark.parametrize(("measure", "record", "sure", "unsure"), DOUBTFUL)
def test_a_doubtful_entry_leaves_the_middle(
    measure: str, record: str, sure: str, unsure: str
) -> None:
    exact, doubtful = (number_of(measure, record % entry).band for entry in (sure, unsure))
    assert doubtful.mid == pytest.approx(exact.mid, rel=1e-9)


def test_a_thermometer_in_the_room_reads_below_the_beer() -> None:
    record = "brewed: 2026-03-14\nfermentation: {temperature: 20 C, probe_place: %s}"
    beer, room = (
        number_of("early_beer_c", record % place).band for place in ("in the beer", "in the room")
    )
    assert room.mid > beer.mid
    assert room.high - room.low >= beer.high - beer.low


def test_a_peak_noted_in_the_room_was_warmer_in_the_beer() -> None:
    record = "fermentation: {peak: 24 C, probe_place: in the room}"
    assert number_of("peak_beer_c", record).band.mid > 24.0
