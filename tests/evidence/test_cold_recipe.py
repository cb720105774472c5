"""What the recipe alone says of the cold side: dry hops, honey and fruit in the fermenter."""

import pytest

from diagnose.evidence.finding import NumberFinding
from tests.evidence.records import findings_of

# Source of the table: a lid comes off for each day of dry hopping; common practice, no source.
HOPPED = [
    (
        "{use: dry hop, added: day 2}, {use: dry hop, added: day 8}",
        "{what: opened, when: day 5}",
        3,
    ),
    (
        "{use: dry hop, added: day 8}, {use: dry hop, added: day 8}",
        "{what: opened, when: day 5}",
        2,
    ),
    ("{use: dry hop, added: day 8}", "{what: dry hopped, when: day 8}", 1),
    ("{use: dry hop, added: day 8}", "{what: dry hopped, when: day 8, purged: yes}", 0),
    ("{use: dry hop, added: day 8}", "{what: dry hopped}", 1),
    ("{use: dry hop, steeped: 4 days}", "{what: dry hopped, when: day 8}", 1),
    ("{use: dry hop, steeped: 4 days}", "{what: sucked back, when: day 9}", 1),
    ("{use: dry hop, added: day 20}", "{what: opened, when: day 5}", 1),
    ("{use: boil, boiled: 60 min}", "{what: opened, when: day 5}", 1),
]


@pytest.mark.parametrize(("hops", "event", "times"), HOPPED)
def test_dry_hops_that_no_event_speaks_of_opened_the_fermenter_too(
    hops: str, event: str, times: int
) -> None:
    record = (
        "brewed: 2026-03-14\npackaging: {when: day 14}\n"
        f"recipe: {{hops: [{hops}]}}\nevents: [{event}]"
    )
    finding = findings_of(record)["openings_after_pitch"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == times


def test_honey_in_the_fermenter_touched_the_cold_beer() -> None:
    record = (
        "recipe: {hops: [{use: boil}], fermentables: [{kind: base malt, name: pale malt},"
        " {kind: honey, name: honey%s}]}"
    )
    late, early = (findings_of(record % when) for when in (", added: day 4", ""))
    assert late["cold_side_addition"].says == "honey added to the cold beer"
    assert early["cold_side_addition"].says == "nothing was added to the cold beer"


def test_dry_hops_lay_in_the_whole_batch_however_little_of_it_one_keg_took() -> None:
    record = (
        "volume: 20 L\npackaging: {package: keg, volume: 9.5 L}\n"
        "recipe: {hops: [{use: dry hop, amount: 140 g}]}"
    )
    finding = findings_of(record)["dry_hop_g_per_l"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(7.0)


FRUITED = """
volume: 20 L
gravity: {original: 1.045}
recipe:
  fermentables:
    - {kind: base malt, amount: 3.6 kg}
    - {kind: crystal malt, amount: 400 g}
    - {kind: fruit, amount: 2 kg%s}
"""


def test_fruit_is_no_part_of_the_grist() -> None:
    finding = findings_of(FRUITED % "")["crystal_share_percent"]
    assert isinstance(finding, NumberFinding)
    assert finding.band.mid == pytest.approx(10.0)


def test_fruit_after_the_gravity_was_read_leaves_the_mash_efficiency_to_be_known() -> None:
    assert "mash_efficiency_percent" not in findings_of(FRUITED % "")
    finding = findings_of(FRUITED % ", added: secondary")["mash_efficiency_percent"]
    assert isinstance(finding, NumberFinding)
    # 45 points x 20 L over 3.6 kg x 300 and 0.4 kg x 270
    assert finding.band.mid == pytest.approx(100.0 * 900.0 / 1188.0, rel=1e-3)
