"""Which entries close a measure: what a guided record asks for when the measure is worth it."""

from typing import Final

from diagnose.consult.guided_cold_entries import FERMENTATION, PACKAGE, YEAST
from diagnose.consult.guided_entries import HOT_SIDE, INGREDIENTS, WATER
from diagnose.consult.guided_kit import KIT
from diagnose.consult.guided_opening import OPENING

SLOTS: Final = {
    slot.key: slot
    for slot in (
        *(*OPENING, *INGREDIENTS, *WATER, *HOT_SIDE),
        *(*YEAST, *FERMENTATION, *PACKAGE, *KIT),
    )
}
_GRIST, _HOPS = "recipe.fermentables", "recipe.hops"
_AGE = "packaging.when tastings.when"
_GRAVITIES = "gravity.original gravity.final"
_CHLORINE = "water.disinfectant water.treatment"
_YEAST_DOSE = "pitch.yeast.amount pitch.yeast.cells pitch.yeast.volume pitch.yeast.age"
_PRIMING = "packaging.sugar packaging.sugar_amount volume"

# A measure that is not here takes more than a word or a number; it is left to the record's editor.
_ENTRIES: Final = {
    "early_beer_c": "fermentation.temperature",
    "early_excess_c": "fermentation.temperature pitch.yeast.family",
    "early_cold_c": "fermentation.temperature pitch.yeast.family",
    "peak_beer_c": "fermentation.peak",
    "pitch_c": "pitch.at",
    "lag_hours": "fermentation.lag",
    "pitch_ratio": f"pitch.yeast.form {_YEAST_DOSE} volume gravity.original",
    "oxygen_at_pitch_mg_per_l": "pitch.oxygen.method",
    "diacetyl_half_lives": "fermentation.finished packaging.when fermentation.temperature",
    "days_on_yeast_after_final": "fermentation.finished packaging.when",
    "days_final_to_package": "fermentation.finished packaging.when",
    "yeast_contact_days_at_20c": "brewed packaging.when fermentation.temperature",
    "attenuation_gap": f"{_GRAVITIES} pitch.yeast.family",
    "alcohol_percent": _GRAVITIES,
    "points_left_to_ferment": "gravity.final gravity.forced_final",
    "gravity_drop_after_final": "gravity.final fermentation.finished gravity.readings",
    "mash_c": "mash.at",
    "mash_hours": "mash.time",
    "mash_ph": "mash.ph",
    "sparge_ph": "sparge.ph",
    "sparge_c": "sparge.at",
    "last_runnings_sg": "sparge.last_runnings",
    "boil_minutes": "boil.time",
    "evaporation_percent_per_h": "boil.volume_before boil.volume_after boil.time",
    "kettle_share": "boil.volume_after volume",
    "hot_stand_minutes": "hot_stand.time",
    "chill_minutes": "chill.time",
    "dms_ug_per_l": f"{_GRIST} volume boil.time",
    "extract_age_fraction": f"{_GRIST} {_GRIST}.extract.age",
    "malt_age_months": f"{_GRIST} {_GRIST}.malt.age",
    "crushed_malt_months": f"{_GRIST} {_GRIST}.malt.crushed_age",
    "hop_alpha_left_percent": f"{_HOPS} {_HOPS}.any.age",
    "dry_hop_days": f"{_HOPS} {_HOPS}.dry_hop.steeped",
    "dry_hop_g_per_l": f"{_HOPS} {_HOPS}.dry_hop.amount volume",
    "dry_hopped": _HOPS,
    "packaged_oxygen_mg_per_l": "packaging.package packaging.fill",
    "storage_days_at_20c": f"storage.at {_AGE}",
    "mean_store_c": f"storage.at {_AGE}",
    "coldest_store_c": "storage.at",
    "days_since_packaging": _AGE,
    "light_dose_klux_h": "packaging.glass storage.light storage.light_time",
    "priming_volumes": _PRIMING,
    "carbonation_volumes": _PRIMING,
    "water_chlorine_mg_per_l": _CHLORINE,
    "disinfectant_treated": _CHLORINE,
    "water_disinfectant": "water.disinfectant",
    "sulfate_mg_per_l": "water.sulfate",
    "chloride_mg_per_l": "water.chloride",
    "sodium_mg_per_l": "water.sodium",
    "iron_mg_per_l": "water.iron",
    "has_extract": "method",
    "extract_form": _GRIST,
    "pale_lager_malt_share": _GRIST,
    "smoked_malt": _GRIST,
    "sugar_share_percent": _GRIST,
    "crystal_share_percent": _GRIST,
    "roast_share_percent": _GRIST,
    "enzyme_power_lintner": _GRIST,
    "mash_efficiency_percent": f"{_GRIST} volume gravity.original",
    "lid_on_boil": "boil.lid",
    "bleach_used": "cleaning.sanitiser",
    "package": "packaging.package",
    "purged": "packaging.purged",
    "open_transfer": "packaging.fill",
    "mash_scorch_signs": "boil.scorching",
    "metal_contact": "equipment.metal",
    "glass_colour": "packaging.glass",
    "yeast_family": "pitch.yeast.family",
    "souring_on_purpose": "style",
    "bacteria_or_wild_kit": "equipment.shared_with_sour_or_wild",
    "yeast_generation": "pitch.yeast.generation",
    "cleaner_rinsed": "cleaning.rinsed",
    "nutrient": "pitch.nutrient",
    "line_cleaned": "serving.line_cleaned",
    "gushing": "packaging.gushing",
    "water_source": "water.source",
    "water_through_hose": "water.through_hose",
    "yeast_form": "pitch.yeast.form",
    "openings_after_pitch": "events",
    "vessel_material": "fermentation.vessel",
    "fermenter_light": "fermentation.vessel fermentation.light",
    "priming_sugar": "packaging.sugar",
    "serving_c": "serving.at",
    "cleaner_kind": "cleaning.cleaner",
    "sanitiser_kind": "cleaning.sanitiser",
}


SLOTS_OF: Final = {
    measure: tuple(SLOTS[key] for key in entries.split()) for measure, entries in _ENTRIES.items()
}
