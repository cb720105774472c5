"""For every model that has limits: a call within them, and values just beyond each limit."""

from typing import Any, NamedTuple

from diagnose.process.bitterness import HopCharge
from diagnose.process.boil import Sulfide
from diagnose.process.cooling import Cooling
from diagnose.process.dms import HotSide


class Limited(NamedTuple):
    """A model, a call that its source covers, and by argument the values that it does not."""

    model: str
    within: dict[str, Any]
    beyond: dict[str, tuple[Any, ...]]


BOIL = {
    "lager_malt_g_per_l": 200.0,
    "ale_malt_g_per_l": 0.0,
    "dark_malt_g_per_l": 0.0,
    "extract_g_per_l": 0.0,
    "wort_ph": 5.3,
    "boil_minutes": 60.0,
    "boiling_c": 100.0,
    "evaporation_percent_per_h": 10.0,
    "stand_minutes": 5.0,
    "stand_c": 95.0,
    "stand_venting": 0.2,
    "chill_minutes": 20.0,
    "chilled_to_c": 20.0,
}
SOUR = HotSide(**{**BOIL, "wort_ph": 4.9})
LYE = HotSide(**{**BOIL, "wort_ph": 5.9})
WORT = Sulfide(100.0, 10.0)
CHILLED = Cooling(95.0, 20.0, 12.0, 20.0)
DAY = [0.0, 24.0]
MALT = {"pale": (0.0, 45.0)}


def held(beer_c: float) -> list[float]:
    return [beer_c, beer_c]


FERMENTATION = (
    Limited(
        "acetaldehyde.acetaldehyde_left_mg_per_l",
        {"hours": DAY, "beer_c": held(18.0)},
        {"beer_c": (held(-3.1), held(42.1))},
    ),
    Limited(
        "autolysis.yeast_contact_days_at_20c",
        {"hours": DAY, "beer_c": held(18.0)},
        {"beer_c": (held(-3.1), held(42.1))},
    ),
    Limited(
        "diacetyl.half_lives_passed",
        {"hours": DAY, "beer_c": held(18.0)},
        {"beer_c": (held(-3.1), held(70.1))},
    ),
    Limited("diacetyl.precursor_half_life_hours", {"beer_c": 18.0}, {"beer_c": (-3.1, 70.1)}),
    Limited(
        "diacetyl.rest_hours_needed",
        {"start_mg_per_l": 0.6, "beer_c": 18.0},
        {"start_mg_per_l": (0.0, 10.1), "beer_c": (-3.1, 70.1)},
    ),
    Limited("aeration.saturated_water_mg_per_l", {"water_c": 20.0}, {"water_c": (-0.1, 40.1)}),
    Limited(
        "aeration.saturated_wort_mg_per_l",
        {"wort_c": 20.0, "extract_p": 12.0},
        {"wort_c": (-0.1, 40.1), "extract_p": (-0.1, 25.1)},
    ),
    Limited(
        "aeration.oxygen_at_pitch_mg_per_l",
        {"wort_c": 20.0, "extract_p": 12.0, "saturation_share": 0.5},
        {"wort_c": (-0.1, 40.1), "extract_p": (-0.1, 25.1), "saturation_share": (-0.1, 5.1)},
    ),
    Limited(
        "attenuation.real_extract_p",
        {"original_p": 12.0, "apparent_p": 3.0},
        {"original_p": (-0.1, 30.1)},
    ),
    Limited(
        "attenuation.apparent_attenuation_percent",
        {"original_sg": 1.050, "final_sg": 1.010},
        {"original_sg": (1.0, 1.131)},
    ),
    Limited(
        "attenuation.fermentable_attenuation_percent",
        {"original_sg": 1.050, "final_sg": 1.020, "unfermentable_points": 9.0},
        {"original_sg": (1.0, 1.150), "unfermentable_points": (-0.1, 45.1)},
    ),
    Limited(
        "attenuation.real_attenuation_percent",
        {"original_p": 12.0, "apparent_p": 3.0},
        {"original_p": (0.9, 30.1)},
    ),
    Limited(
        "attenuation.alcohol_by_weight_percent",
        {"original_p": 12.0, "apparent_p": 3.0},
        {"original_p": (-0.1, 30.1)},
    ),
    Limited("attenuation.alcohol_factor", {"original_p": 12.0}, {"original_p": (-0.1, 30.1)}),
    Limited(
        "attenuation.fermentation_gas_g_per_l",
        {"original_p": 12.0, "apparent_p": 3.0, "wort_sg": 1.048},
        {"original_p": (-0.1, 30.1)},
    ),
    Limited(
        "attenuation.gravity_points",
        {"lines": [(4.0, 300.0, 0.75)], "volume_l": 20.0},
        {"volume_l": (0.0, 1.1e6)},
    ),
    Limited(
        "esters.relative_load",
        {"early_beer_c": 20.0, "reference_c": 18.0, "slope_percent_per_c": 5.0},
        {"early_beer_c": (3.9, 42.1), "reference_c": (3.9, 42.1)},
    ),
    Limited(
        "pitch.living_from_dry_billion",
        {"yeast_g": 11.0, "age_months": 3.0, "stored_c": 4.0},
        {"age_months": (-0.1, 120.1), "stored_c": (-25.1, 30.1)},
    ),
    Limited(
        "pitch.living_from_liquid_billion",
        {"packed_billion": 100.0, "age_months": 1.0, "stored_c": 4.0},
        {"age_months": (-0.1, 60.1), "stored_c": (-2.1, 30.1)},
    ),
    Limited(
        "pitch.living_from_slurry_billion",
        {"slurry_ml": 200.0, "age_weeks": 1.0, "stored_c": 4.0},
        {"age_weeks": (-0.1, 270.0), "stored_c": (-2.1, 30.1)},
    ),
    Limited(
        "pitch.cells_needed_billion",
        {"volume_l": 20.0, "extract_p": 12.0, "rate_million_per_ml_p": 0.75},
        {"volume_l": (0.0, 1.1e6), "extract_p": (0.9, 30.1)},
    ),
    Limited(
        "pitch.pitch_ratio",
        {
            "living_billion": 150.0,
            "volume_l": 20.0,
            "extract_p": 12.0,
            "rate_million_per_ml_p": 0.75,
        },
        {"volume_l": (0.0, 1.1e6), "extract_p": (0.9, 30.1)},
    ),
)

HOT_SIDE = (
    Limited(
        "boil.evaporation_percent_per_h",
        {"volume_before_l": 28.0, "volume_after_l": 25.0, "hours": 1.0},
        {"volume_after_l": (-0.1, 28.1), "hours": (0.0, 24.1)},
    ),
    Limited(
        "boil.precursor_half_life_minutes",
        {"wort_c": 100.0, "wort_ph": 5.3},
        {"wort_c": (-0.1, 105.1), "wort_ph": (4.9, 5.9)},
    ),
    Limited(
        "boil.stripping_per_minute",
        {"evaporation_percent_per_h": 10.0},
        {"evaporation_percent_per_h": (-0.1, 40.1)},
    ),
    Limited(
        "boil.held_hot",
        {"wort": WORT, "minutes": 60.0, "half_life_minutes": 38.0, "stripping_per_min": 0.1},
        {"minutes": (-0.1, 2881.0)},
    ),
    Limited("dms.after_boil", {"hot_side": HotSide(**BOIL)}, {"hot_side": (SOUR, LYE)}),
    Limited(
        "dms.after_stand",
        {"wort": WORT, "hot_side": HotSide(**BOIL)},
        {"hot_side": (SOUR, LYE)},
    ),
    Limited(
        "dms.after_cooling",
        {"wort": WORT, "cooling": CHILLED, "wort_ph": 5.3},
        {"wort_ph": (4.9, 5.9)},
    ),
    Limited("dms.dms_ug_per_l", {"hot_side": HotSide(**BOIL)}, {"hot_side": (SOUR, LYE)}),
    Limited(
        "dms.predict_dms_ug_per_l",
        BOIL,
        {
            "wort_ph": (4.9, 5.9),
            "boil_minutes": (-0.1, 2881.0),
            "evaporation_percent_per_h": (-0.1, 40.1),
            "boiling_c": (-0.1, 105.1),
            "stand_minutes": (-0.1, 2881.0),
        },
    ),
    Limited(
        "bitterness.utilisation",
        {"wort_sg": 1.050, "minutes": 60.0},
        {"wort_sg": (0.999, 1.131), "minutes": (-0.1, 240.1)},
    ),
    Limited(
        "bitterness.bitterness_ibu",
        {"charges": [HopCharge(30.0, 5.0, 60.0)], "wort_sg": 1.050, "volume_l": 20.0},
        {
            "charges": ([HopCharge(30.0, 5.0, 241.0)],),
            "wort_sg": (0.999, 1.131),
            "volume_l": (0.0, 1.1e5),
        },
    ),
    Limited("bitterness.stand_share", {"stand_c": 90.0}, {"stand_c": (39.9, 101.1)}),
    Limited(
        "bitterness.bitterness_ratio",
        {"ibu": 30.0, "original_sg": 1.050},
        {"original_sg": (1.0, 1.131)},
    ),
    Limited("mash.mash_attenuation_percent", {"mash_c": 66.0}, {"mash_c": (59.9, 80.1)}),
    Limited(
        "mash.grist_correction_points",
        {"mash_minutes": 60.0, "dextrin_malt_percent": 5.0, "sugar_percent": 5.0},
        {
            "mash_minutes": (14.9, 1441.0),
            "dextrin_malt_percent": (-0.1, 60.1),
            "sugar_percent": (-0.1, 60.1),
        },
    ),
    Limited(
        "mash.expected_attenuation_percent",
        {"yeast_percent": 75.0, "mash_c": 66.0, "correction_points": 0.0},
        {"mash_c": (59.9, 80.1)},
    ),
    Limited("mash.diastatic_power_lintner", {"malts": {"pale": (4.0, 45.0)}}, {"malts": (MALT,)}),
    Limited(
        "heating.heating_minutes",
        {"volume_l": 30.0, "rise_c": 80.0, "power_w": 2500.0},
        {"volume_l": (0.0, 1.1e6), "rise_c": (-0.1, 100.1), "power_w": (0.0, 1.1e7)},
    ),
    Limited(
        "heating.heating_power_w",
        {"volume_l": 30.0, "rise_c": 80.0, "hours": 1.0},
        {"volume_l": (0.0, 1.1e6), "rise_c": (-0.1, 100.1), "hours": (0.0, 1001.0)},
    ),
)
