"""How wide a number of the record is: its low and high edge worked by hand, not its middle only."""

import pytest

from tests.evidence.records import band_of, edges

# The sums beside the records are worked to three figures.
ROUNDED = 2e-3
ALE = "pitch: {yeast: {family: clean ale}}\n"
GONE_QUIET = "fermentation: {finished: 2026-04-01 08:00}\npackaging: {when: 2026-04-05 08:00}"
HEADSPACE = "dissolved_oxygen: 0.1 mg/L, purged: yes, headspace: 20 mL, size: 500 mL"

# Source of the table: arithmetic on the errors that each measure's module states (judgement), and
# for the yeast its card.
RANGES = [
    # Two points either way of what was logged, against 70 to 82 % of the family.
    ("attenuation_gap", (68 - 82, 70 - 76, 72 - 70), ALE + "gravity: {attenuation: 70 %}"),
    # A noted temperature is two degrees off at most; the family likes 16 to 22 C.
    ("early_excess_c", (0.0, 2.0, 4.0), ALE + "fermentation: {temperature: 24 C}"),
    ("early_cold_c", (6.0, 8.0, 10.0), ALE + "fermentation: {temperature: 24 C}"),
    # 0.9 of 4.9 kg, 1 of 5 kg, 1.1 of 5.1 kg.
    (
        "roast_share_percent",
        (18.37, 20.0, 21.57),
        "recipe: {fermentables: [{kind: roasted malt, amount: 0.9 to 1.1 kg},"
        " {kind: base malt, amount: 4 kg}]}",
    ),
    # 0.9 of 5 kg and 1.1 of 5 kg once the rest is as doubtful the other way.
    (
        "roast_share_percent",
        (18.0, 20.0, 22.0),
        "recipe: {fermentables: [{kind: roasted malt, amount: 0.9 to 1.1 kg},"
        " {kind: base malt, amount: 3.9 to 4.1 kg}]}",
    ),
    ("hot_stand_minutes", (17.0, 20.0, 23.0), "hot_stand: {time: 20 min}"),
    ("hot_stand_minutes", (0.0, 2.0, 5.0), "hot_stand: {time: 2 min}"),
    ("hot_stand_minutes", (10.0, 20.0, 30.0), "hot_stand: {time: 10 to 30 min}"),
    # "80 C or hotter" counts 80 C itself.
    ("hot_stand_minutes", (17.0, 20.0, 23.0), "hot_stand: {time: 20 min, at: 80 C}"),
    ("hot_stand_minutes", (0.0, 0.0, 0.0), "hot_stand: {time: 20 min, at: 79 C}"),
    ("dry_hop_days", (3.5, 4.0, 4.5), "recipe: {hops: [{use: dry hop, steeped: 4 days}]}"),
    ("dry_hop_days", (3.0, 4.5, 6.0), "recipe: {hops: [{use: dry hop, steeped: 3 to 6 days}]}"),
    # The scale is 5 % off and the mark 4 %: 0.25 and 5 - 5/1.04, 0.25 and 5/0.96 - 5, as squares.
    (
        "dry_hop_g_per_l",
        (4.685, 5.0, 5.325),
        "volume: 20 L\nrecipe: {hops: [{use: dry hop, amount: 100 g}]}",
    ),
    ("days_on_yeast_after_final", (3.5, 4.0, 4.5), GONE_QUIET),
    ("days_final_to_package", (3.0, 4.0, 5.0), GONE_QUIET),
    # The coldest that "2 to 6" may mean decides; the chiller swings by 1.5 C.
    ("coldest_store_c", (0.5, 2.0, 5.5), "storage: [{at: 2 to 6 C}]"),
    # Three points to go in the bottle, four with the hydrometer: half a volume each.
    (
        "carbonation_volumes",
        (2.3, 2.4, 4.40),
        "packaging: {package: bottle, carbonation: 2.4 volumes}\n"
        "gravity: {final: 1.010, forced_final: 1.007}",
    ),
    # Lit for 10, 33 or 50 % of 30 h at 1 klux, half of it either way: sums in quadrature.
    (
        "light_dose_klux_h",
        (1.408, 9.9, 17.01),
        "packaging: {glass: clear}\nstorage: [{time: 30 h, light: shop light}]",
    ),
    # The same twice over, one after the other, with 10 h noted to a tenth.
    (
        "light_dose_klux_h",
        (2 * 4.901, 20.0, 2 * 15.10),
        "packaging: {glass: clear}\n"
        "storage: [{light: shop light, light_time: 10 h}, {light: shop light, light_time: 10 h}]",
    ),
    # 80 % of the full yield; 4 % of the volume, 1 of 48 points and 5 % of the yield in quadrature.
    (
        "mash_efficiency_percent",
        (74.75, 80.0, 85.54),
        "volume: 20 L\ngravity: {original: 1.048}\n"
        "recipe: {fermentables: [{kind: base malt, amount: 4 kg}]}",
    ),
]


@pytest.mark.parametrize(("measure", "expected", "record"), RANGES)
def test_a_number_is_as_wide_as_its_doubts_worked_by_hand(
    measure: str, expected: tuple[float, float, float], record: str
) -> None:
    assert edges(band_of(measure, record)) == pytest.approx(expected, rel=ROUNDED, abs=1e-9)


# Source of the table: yeast takes 30 to 90 % of the oxygen of a primed package, common practice,
# no source; a bottle of which nothing is noted may be primed or not.
YEAST_LEAVES = [("sugar: sucrose", (0.1, 0.4, 0.7)), ("sugar: unknown", (0.1, 1.0, 1.0))]


@pytest.mark.parametrize(("noted", "shares"), YEAST_LEAVES)
def test_bottle_yeast_leaves_a_share_of_the_oxygen_at_each_edge(
    noted: str, shares: tuple[float, float, float]
) -> None:
    def oxygen(sugar: str) -> tuple[float, float, float]:
        record = f"packaging: {{package: bottle, {HEADSPACE}, {sugar}}}"
        return edges(band_of("packaged_oxygen_mg_per_l", record))

    packed = oxygen("sugar: none")
    left = tuple(edge * share for edge, share in zip(packed, shares, strict=True))
    assert oxygen(noted) == pytest.approx(left)


# 40 mL of air to the litre hold 40 x 1.331 x 0.2095 mg of oxygen; the doubts are in quadrature.
# Source of the shares: a room measured is a fifth off either way (judgement); 90 to 100 % of the
# air stays without a purge, 5 to 20 % with one, anything between if not noted (common practice).
AIR_MG_PER_L = 11.15
PURGES = [
    ("purged: no", (1 - 0.2236, 1.0, 1.2)),
    ("purged: yes", (0.1 - 0.0539, 0.1, 0.1 + 0.1020)),
    ("purged: unknown", (0.55 - 0.5120, 0.55, 0.55 + 0.4632)),
]


@pytest.mark.parametrize(("noted", "shares"), PURGES)
def test_the_air_of_a_headspace_is_as_unsure_as_its_room_and_its_purge(
    noted: str, shares: tuple[float, float, float]
) -> None:
    record = (
        f"packaging: {{package: bottle, {noted}, sugar: none, dissolved_oxygen: 0.0 mg/L,"
        " headspace: 20 mL, size: 500 mL}"
    )
    expected = [AIR_MG_PER_L * share for share in shares]
    assert edges(band_of("packaged_oxygen_mg_per_l", record)) == pytest.approx(expected, abs=0.01)
